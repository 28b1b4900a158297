#!/bin/sh
# Plants one violation at a time in a small tree of its own and sees that check_layers.sh finds it:
# test_check_layers.sh "LAYERS from the bottom up"
set -eu

layers=$1
checker=${0%/*}/check_layers.sh
tree=$(mktemp -d)
trap 'rm -rf "$tree"' EXIT
passed=0
failed=0

# What is allowed, among it all that looks like a violation and is none.
clean_tree() {
    rm -rf "$tree/src"
    for layer in $layers; do
        mkdir -p "$tree/src/$layer"
    done
    cat >"$tree/src/base/table.c" <<'C'
#include "base/table.h"
#include <csv.h>
#include <stdio.h>
/* printf(time(NULL)) in a comment,
 * FILE *out = fopen("x", "r"); over two lines */
static const int LIMIT = 3;
static int helper(int runtime);
int reads(char *text) { return snprintf(text, 9, "printf(%d) \" getenv(x)", LIMIT); }
int times(Clock *watch) { return watch->time(watch) + FARM_FILE_COUNT + xtime(1) + '"'; }
C
    printf '#include <glpk.h>\n#include "stock/stack.h"\n' >"$tree/src/planner/linear_program.c"
    printf 'static _Thread_local jmp_buf back;\n' >>"$tree/src/planner/linear_program.c"
    printf '#include "outcome/report.h"\n#include "outcome/figure.h"\n#include "base/text.h"\n' \
        >"$tree/src/present/present.c"
    printf '#include <time.h>\n#include "planner/plan.h"\nint main(void) { return puts("x"); }\n' \
        >"$tree/src/entry/main.c"
    printf '#include "feedstuff/nutrient.h"\n' >"$tree/src/cattle/herd.h"
}

check_that() { # what, yes or no: is there a complaint, what it says
    complaint=$("$checker" "$layers" "$tree" 2>&1) && found=no || found=yes
    if [ "$found" = "$2" ] && case $complaint in *"$3"*) ;; *) false ;; esac; then
        passed=$((passed + 1))
    else
        failed=$((failed + 1))
        echo "check-layers: $1: FAILED" >&2
        echo "$complaint" >&2
    fi
}

catches() { # what, file, line, what the complaint says
    clean_tree
    printf '%s\n' "$3" >>"$tree/src/$2"
    check_that "$1" yes "$4"
}

clean_tree
check_that "a tree without violations passes" no ""

catches "an upward include" base/table.c '#include "entry/task.h"' "above it"
catches "an upward include by one layer" outcome/plan.c '#include "present/present.h"' "above it"
catches "an upward include in a header" feedstuff/feed.h '#  include  "stock/stack.h" /* x */' "above"
catches "an upward include in a list" base/unit.def '#include "planner/plan.h"' "above it"
catches "cattle including stock" cattle/herd.h '#include "stock/stack.h"' "above it"
catches "stock including cattle" stock/stack.c '#include "cattle/herd.h"' "property of the stack"
catches "a presenter including the planner" present/text.c '#include "planner/plan.h"' "presenters"
catches "a presenter including cattle" present/text.c '#include "cattle/herd.h"' "presenters"
catches "a presenter including stock" present/text.c '#include "stock/stack.h"' "presenters"
catches "a presenter including feedstuff" present/text.c '#include "feedstuff/feed.h"' "presenters"
catches "a presenter including another outcome" present/text.c '#include "outcome/measure.h"' \
    "presenters"
catches "an include without its layer" base/table.c '#include "text.h"' "not of a layer"
catches "an include of a folder that is none" base/table.c '#include "misc/text.h"' "not of a layer"
catches "<csv.h> elsewhere" base/text.c '#include <csv.h>' "only base/table.c"
catches "<csv.h> in a header" base/table.h '#include <csv.h>' "only base/table.c"
catches "<csv.h> in entry" entry/main.c '#include <csv.h>' "only base/table.c"
catches "<glpk.h> elsewhere" planner/ration.c '#include <glpk.h>' "only planner/linear_program.c"
catches "<glpk.h> in entry" entry/main.c '#include <glpk.h>' "only planner/linear_program.c"
catches "printf" planner/plan.c 'void f(void) { printf("%d", 1); }' "printf below entry"
catches "fprintf" outcome/plan.c 'void f(void) { fprintf(x, "%d", 1); }' "fprintf below entry"
catches "sprintf" base/text.c '    sprintf (text, "%d", 1);' "sprintf below entry"
catches "puts" base/text.c '    puts("x");' "puts below entry"
catches "fopen" cattle/herd.c '    x = fopen(path, "r");' "fopen below entry"
catches "FILE" present/text.c 'void present(FILE *out);' "FILE below entry"
catches "stderr" base/arena.c '    put(stderr);' "stderr below entry"
catches "time()" planner/plan.c '    day = time(NULL);' "time below entry"
catches "<time.h>" planner/plan.c '#include <time.h>' "<time.h> belongs to entry"
catches "clock()" planner/plan.c '    x = clock();' "clock below entry"
catches "getenv" present/text.c '    x = getenv("COLUMNS");' "getenv below entry"
catches "setlocale" base/text.c '    setlocale(LC_ALL, "");' "setlocale below entry"
catches "<locale.h>" base/text.c '#include <locale.h>' "<locale.h> belongs to entry"
catches "rand" planner/plan.c '    x = a / *b; y = rand();' "rand below entry"
catches "a call after a comment" base/text.c '/* a */ puts("x"); /* b */' "puts below entry"
catches "a call in a list" base/unit.def 'UNIT(kg, time(NULL))' "time below entry"
catches "a static that changes" base/text.c 'static int calls;' "a static that can change"
catches "a static that changes in a function" base/text.c '    static int calls = 0;' \
    "a static that can change"
clean_tree
mkdir -p "$tree/src/misc"
echo 'int x;' >"$tree/src/misc/misc.c"
check_that "a folder that is no layer" yes "is not a layer"

echo "check-layers: $passed planted cases right, $failed wrong"
[ "$failed" -eq 0 ]
