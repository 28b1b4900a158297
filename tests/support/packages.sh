#!/bin/sh
# Sees to it that Debian packages are there: packages.sh PURPOSE PACKAGE ...
# Says nothing when they are; installs what is missing when it can; otherwise says what to do.
# INSTALL=no only looks. On a system without dpkg nothing is looked at.
set -eu

purpose=$1
shift
command -v dpkg-query >/dev/null 2>&1 || exit 0

missing=
for package in "$@"; do
    status=$(dpkg-query -W -f '${db:Status-Status} ' "$package" 2>/dev/null || true)
    case " $status" in
    *" installed "*) ;;
    *) missing="$missing $package" ;;
    esac
done
[ -n "$missing" ] || exit 0

give_up() {
    {
        echo "To $purpose, Debian packages are missing:$missing"
        echo "$1 Install them, then run make again:"
        echo "    sudo apt-get update && sudo apt-get install --no-install-recommends$missing"
    } >&2
    exit 1
}

as_root=
if [ "${INSTALL:-yes}" = no ]; then
    give_up "INSTALL=no was asked for."
elif [ "$(id -u)" -ne 0 ]; then
    command -v sudo >/dev/null 2>&1 || give_up "Not root, and there is no sudo."
    as_root=sudo
fi

echo "Installing what is missing to $purpose:$missing"
log=$(mktemp)
trap 'rm -f "$log"' EXIT

run_quietly() {
    $as_root env DEBIAN_FRONTEND=noninteractive "$@" >"$log" 2>&1 </dev/null && return 0
    cat "$log" >&2
    return 1
}

# An archive of the user's own that does not answer need not be the one that is needed.
run_quietly apt-get update || true
# shellcheck disable=SC2086 # a list of words
run_quietly apt-get install --yes --no-install-recommends $missing ||
    give_up "apt-get could not install them (the reason is above; is there a network?)."
