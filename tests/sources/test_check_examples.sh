#!/bin/sh
# Plants one mistake at a time in a small tree of its own and sees that check_examples.sh finds it.
set -eu

checker=${0%/*}/check_examples.sh
tree=$(mktemp -d)
trap 'rm -rf "$tree"' EXIT
passed=0
failed=0
mkdir -p "$tree/docs/equations" "$tree/tests/published" "$tree/tests/unit"
printf 'case,function\nmilk in march,milk\nmilk in april,milk\n' >"$tree/tests/published/milk.csv"
printf 'static void a_cow_is_worked_by_hand(void **state) {\n' >"$tree/tests/unit/test_cow.c"

check_that() { # what, yes or no: is there a complaint; the page on standard input
    cat >"$tree/docs/equations/page.md"
    "$checker" "$tree" >/dev/null 2>&1 && found=no || found=yes
    if [ "$found" = "$2" ]; then
        passed=$((passed + 1))
    else
        failed=$((failed + 1))
        echo "check-examples: $1: FAILED" >&2
    fi
}

check_that "a case that is there passes" no <<'E1'
**Worked example** (case `milk in march`). 1 + 1 = 2.
E1
check_that "two cases over two lines pass" no <<'E2'
**Worked example** (cases `milk in
march`, `milk in april`). 1 + 1 = 2.
E2
check_that "a test that is there passes" no <<'E3'
**Worked example** (test `a cow is worked by hand`). 1 + 1 = 2.
E3
check_that "a page without one" yes <<'E4'
Nothing is worked here.
E4
check_that "one that names nothing" yes <<'E5'
**Worked example.** 1 + 1 = 2.
E5
check_that "a case that is not there" yes <<'E6'
**Worked example** (cases `milk in march`, `milk in may`). 1 + 1 = 2.
E6
check_that "a test that is not there" yes <<'E7'
**Worked example** (test `a cow is worked`). 1 + 1 = 2.
E7

echo "check-examples: $passed planted cases right, $failed wrong"
[ "$failed" -eq 0 ]
