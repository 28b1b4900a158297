#!/bin/sh
# Runs test programs one after another, all of them even when one fails: run_programs.sh PROGRAM ...
# UNDER="valgrind ..." runs them under another program.
set -u

failed=
for program in "$@"; do
    # shellcheck disable=SC2086 # UNDER is a command line
    ${UNDER:-} "$program" </dev/null || failed="$failed $program"
done
[ -z "$failed" ] || {
    echo "failed:$failed" >&2
    exit 1
}
