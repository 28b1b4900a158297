#!/bin/sh
# Runs each fuzz target over its kept corpus: run_replay.sh PROGRAM ...
# The program replay_x reads tests/fuzz/corpus/x/*.
set -u

failed=0
for program in "$@"; do
    target=${program##*/replay_}
    set -- "tests/fuzz/corpus/$target"/*
    [ -e "$1" ] || set --
    if "$program" "$@" </dev/null; then
        echo "replay $target: $# inputs"
    else
        echo "replay $target: FAILED" >&2
        failed=1
    fi
done
exit "$failed"
