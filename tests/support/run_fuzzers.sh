#!/bin/sh
# Runs each fuzz target for some seconds: run_fuzzers.sh SECONDS TARGET ...
# libFuzzer writes what it finds into the first folder; the kept corpus comes second.
set -u

seconds=$1
shift
failed=
for target in "$@"; do
    echo "== fuzz $target"
    found=build/fuzz/found/$target
    mkdir -p "$found"
    kept=tests/fuzz/corpus/$target
    [ -d "$kept" ] || kept=
    dictionary=tests/fuzz/$target.dict
    [ -f "$dictionary" ] || dictionary=
    "build/fuzz/tests/fuzz/fuzz_$target" -max_total_time="$seconds" -timeout=10 -verbosity=0 \
        -print_final_stats=1 -artifact_prefix="build/fuzz/crash-$target-" \
        ${dictionary:+-dict="$dictionary"} "$found" ${kept:+"$kept"} || failed="$failed $target"
done
[ -z "$failed" ] || {
    echo "FAILED:$failed (the inputs are build/fuzz/crash-*)" >&2
    exit 1
}
