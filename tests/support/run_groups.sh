#!/bin/sh
# Runs groups of tests, all of them even when one fails: run_groups.sh MAKE GROUP ...
set -u

make=$1
shift
failed=
for group in "$@"; do
    echo "== $group"
    # shellcheck disable=SC2086 # MAKE is a command line
    $make "$group" || failed="$failed $group"
done
[ -z "$failed" ] || {
    echo "FAILED:$failed" >&2
    exit 1
}
