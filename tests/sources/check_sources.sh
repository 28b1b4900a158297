#!/bin/sh
# check_sources.sh ROOT
set -eu

cd "$1"
awk=$OLDPWD/${0%/*}/check_sources.awk
case $0 in /*) awk=${0%/*}/check_sources.awk ;; esac

# Names of files of this tree have no blanks.
# shellcheck disable=SC2046
complaints=$(awk -f "$awk" src/base/source.def $(
    find src -name '*.[ch]' -o -name '*.def' | grep -v '^src/base/source\.def$' | LC_ALL=C sort
    find docs/equations models/coefficients tests/published -name '*.md' -o -name '*.csv' |
        LC_ALL=C sort
)) || {
    echo "$complaints" | sort -t : -k 1,1 -k 2,2n >&2
    echo "check-sources: failed" >&2
    exit 1
}
