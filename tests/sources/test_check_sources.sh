#!/bin/sh
# Plants one mistake at a time in a small tree of its own and sees that check_sources.sh finds it.
set -eu

checker=${0%/*}/check_sources.sh
tree=$(mktemp -d)
trap 'rm -rf "$tree"' EXIT
passed=0
failed=0

clean_tree() {
    rm -rf "${tree:?}"/*
    mkdir -p "$tree/src/base" "$tree/src/cattle" "$tree/docs/equations" \
        "$tree/models/coefficients" "$tree/tests/published"
    cat >"$tree/src/base/source.def" <<'C'
/* SOURCE(KEY, HOW, "...") */
SOURCE(BOOK_1990,  PAGE,   "A book, [NOWHERE_1999]")
SOURCE(TABLE_1991, PAGE,   "A table")
SOURCE(PAGE_1992,  MEMORY, "A page")
SOURCE(CASE_1993,  PAGE,   "A case")
SOURCE(CODE_1994,  PAGE,   "A row of code")
SOURCE(CODE_1995,  PAGE,   "Another")
SOURCE(NRC,        PAGE,   "Second in brackets")
C
    cat >"$tree/src/cattle/need.c" <<'C'
/* From [BOOK_1990 ch. 3,
 * p. 5] and [BOOK_1990; NRC p. 9]; [DM] and limit[NUTRIENT_NEM] and [MONTHS_COUNT] are none. */
double limit[NUTRIENT_COUNT] = {[NUTRIENT_ASH] = 1}; // "[BOOK_1990]"
const char *text = "[NOT_A_KEY]";
SourceKey source = SOURCE_CODE_1994;
C
    echo 'ROW(hay, CODE_1995)' >"$tree/src/cattle/row.def"
    printf 'Text [PAGE_1992 p. 4], a [link](x), M[i] and x[TABLE].\n' >"$tree/docs/equations/a.md"
    printf '# note\nfeed,source,cp\n"hay, ""good""",TABLE_1991 table 3,9\r\noat,"TABLE_1991 BOOK_1990 ""x"", y",8\n' \
        >"$tree/models/coefficients/b.csv"
    printf 'function,source\nneed,CASE_1993 p. 3\n' >"$tree/tests/published/c.csv"
}

check_that() { # what, yes or no: is there a complaint, what it says
    complaint=$("$checker" "$tree" 2>&1) && found=no || found=yes
    if [ "$found" = "$2" ] && case $complaint in *"$3"*) ;; *) false ;; esac; then
        passed=$((passed + 1))
    else
        failed=$((failed + 1))
        echo "check-sources: $1: FAILED" >&2
        echo "$complaint" >&2
    fi
}

catches() { # what, file, line, what the complaint says
    clean_tree
    printf '%s\n' "$3" >>"$tree/$2"
    check_that "$1" yes "$4"
}

clean_tree
check_that "a tree without mistakes passes" no ""
catches "an unknown key in a comment" src/cattle/need.c '/* [WRONG_1999 p. 2] */' "WRONG_1999"
catches "an unknown second key" src/cattle/need.c '/* [BOOK_1990; WRONG_1999] */' "WRONG_1999"
catches "an unknown key after //" src/cattle/need.c 'int x; // [WRONG_1999]' "WRONG_1999"
catches "an unknown key in a list" src/cattle/row.def '/* [WRONG_1999] */' "row.def:2"
catches "an unknown key in a page" docs/equations/a.md 'See [WRONG_1999].' "a.md:2: [WRONG_1999]"
catches "an unknown key in a table" models/coefficients/b.csv 'rye,WRONG_1999,8' "WRONG_1999"
catches "an unknown second key in a table" models/coefficients/b.csv 'rye,BOOK_1990 WRONG_1999,8' \
    "WRONG_1999"
catches "an unknown key among the cases" tests/published/c.csv 'need,WRONG_1999' "c.csv:3"
catches "a row without a source" models/coefficients/b.csv 'rye,,8' "b.csv:5: a row without"
catches "a row with a source that is no key" tests/published/c.csv 'need,page 3' "a row without"
catches "a key that is cited nowhere" src/base/source.def 'SOURCE(IDLE_1999, PAGE, "x")' \
    "source.def:9: IDLE_1999 is cited nowhere"
catches "a key that is there twice" src/base/source.def 'SOURCE(NRC, PAGE, "x")' "there twice"
clean_tree
printf 'function,value\nneed,3\n' >"$tree/tests/published/d.csv"
check_that "a table without a source column" yes "without a source column"

echo "check-sources: $passed planted cases right, $failed wrong"
[ "$failed" -eq 0 ]
