#!/bin/sh
# check_layers.sh "LAYERS from the bottom up" ROOT
set -eu

layers=$1
root=${2%/}/
find "${root}src" -type f -name '*.[ch]' -o -type f -name '*.def' | LC_ALL=C sort |
    xargs awk -v LAYERS="$layers" -v ROOT="$root" -f "${0%/*}/check_layers.awk" >&2 || {
    echo "check-layers: failed" >&2
    exit 1
}
