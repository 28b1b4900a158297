#!/bin/sh
# Whole runs of the program, as the farmer sees them: run_golden.sh [--accept] PROGRAM [CASE]
#
# tests/golden/CASE/command is one line of shell, run from the root of the repository, in which
# `winterstack` is the program built. Beside it stand stdout, stderr (none: nothing is written)
# and exit (none: 0). --accept writes the three anew from what happens; the diff is the review.
#
# A block of README.md after <!-- golden: CASE --> must be that case's stdout, or a part of it
# after <!-- golden: CASE lines A-B -->, so that the examples stay true.
set -u

accept=no
[ "$1" != --accept ] || {
    accept=yes
    shift
}
program=$1
only=${2:-}

root=$(cd "${0%/*}/../.." && pwd) || exit 1
cd "$root" || exit 1
case $program in
/*) ;;
*) program=$root/$program ;;
esac
work=$(mktemp -d) || exit 1
trap 'rm -rf "$work"' EXIT
passed=0
failed=0

pass() {
    echo "ok      $1"
    passed=$((passed + 1))
}

fail() {
    echo "FAILED  $1"
    failed=$((failed + 1))
}

# Leaves stdout, stderr and exit in $work.
run_case() {
    env -i PATH="${program%/*}:$PATH" HOME="$work" NO_COLOR=1 COLUMNS=80 LC_ALL=C TZ=UTC \
        sh -c "$(cat "tests/golden/$1/command")" \
        >"$work/stdout" 2>"$work/stderr" </dev/null
    echo $? >"$work/exit"
}

# What is expected of a case when it has no file for it.
expected() {
    if [ -f "tests/golden/$1/$2" ]; then
        cat "tests/golden/$1/$2"
    elif [ "$2" = exit ]; then
        echo 0
    fi
}

check_case() {
    run_case "$1"
    differs=no
    for part in exit stderr stdout; do
        expected "$1" "$part" >"$work/expected"
        cmp -s "$work/expected" "$work/$part" && continue
        differs=yes
        diff -u -L "tests/golden/$1/$part" -L "what happens" "$work/expected" "$work/$part"
    done
    if [ "$differs" = yes ]; then fail "$1"; else pass "$1"; fi
}

# A crash, a failed assert, a sanitizer's complaint or a missing program is never what is wanted.
is_a_crash() {
    [ "$(cat "$work/exit")" -ge 126 ] || grep -q 'Sanitizer\|runtime error:' "$work/stderr"
}

accept_case() {
    run_case "$1"
    if is_a_crash; then
        cat "$work/stderr" >&2
        fail "$1"
        return
    fi
    for part in exit stderr stdout; do
        cp "$work/$part" "tests/golden/$1/$part"
    done
    [ -s "tests/golden/$1/stderr" ] || rm "tests/golden/$1/stderr"
    [ "$(cat "$work/exit")" != 0 ] || rm "tests/golden/$1/exit"
    pass "$1"
}

# Writes each marked block of README.md to $work/block.N and "N line case first last" to
# $work/blocks; first and last are 0 for the whole.
find_blocks() {
    awk -v work="$work" '
        function end_mark() {
            if (name != "") # a mark with no block after it
                print ++count, mark_line, name, first, last >(work "/blocks")
            name = ""
        }
        !inside && /^<!-- golden: .* -->[ \t\r]*$/ {
            end_mark()
            name = $3
            mark_line = FNR
            first = last = 0
            if ($4 == "lines") {
                split($5, range, "-")
                first = range[1] + 0
                last = range[2] + 0
            }
            next
        }
        /^```/ && !inside {
            inside = 1
            if (name != "") {
                print ++count, mark_line, name, first, last >(work "/blocks")
                block = work "/block." count
                printf "" >block
            }
            next
        }
        /^```/ {
            inside = 0
            name = ""
            block = ""
            next
        }
        inside && block != "" { print >block }
        END { if (!inside) end_mark() }
    ' README.md
}

check_blocks() {
    [ -f README.md ] || return
    : >"$work/blocks"
    find_blocks
    while read -r number line name first last; do
        title="README.md:$line $name"
        [ "$last" -eq 0 ] || title="$title lines $first-$last"
        if [ ! -f "tests/golden/$name/stdout" ]; then
            echo "there is no tests/golden/$name/stdout"
            fail "$title"
        elif [ ! -f "$work/block.$number" ]; then
            echo "no block comes after the mark"
            fail "$title"
        else
            if [ "$last" -eq 0 ]; then
                cat "tests/golden/$name/stdout" >"$work/expected"
            else
                sed -n "${first},${last}p" "tests/golden/$name/stdout" >"$work/expected"
            fi
            if diff -u -L "what $name prints" -L "README.md:$line" \
                "$work/expected" "$work/block.$number"; then
                pass "$title"
            else
                fail "$title"
            fi
        fi
    done <"$work/blocks"
}

for folder in tests/golden/*/; do
    name=${folder%/}
    name=${name##*/}
    [ -f "tests/golden/$name/command" ] || continue
    [ -z "$only" ] || [ "$only" = "$name" ] || continue
    if [ "$accept" = yes ]; then accept_case "$name"; else check_case "$name"; fi
done
[ -n "$only" ] || check_blocks
[ -z "$only" ] || [ $((passed + failed)) -gt 0 ] || fail "$only: no such case"

echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
