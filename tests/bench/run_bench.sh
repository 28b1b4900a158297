#!/bin/sh
# How long a plan takes, beside general solvers on the one program it ends with:
#
#     BUILD=build/release run_bench.sh PROGRAM [RUNS]
#
# For the sample farm and the invented farms S and M (support/farm_maker.h) it times, one after the
# other and over again:
#
#   plan     PROGRAM plan, the whole process, files to text
#   brief    PROGRAM plan --brief: the same rations, and no question asked beside them
#   cheapest PROGRAM plan --cheapest: the rations that cost the least, before they are evened out,
#            which is what the solvers below are asked
#   planner  the same evened out, and the program written out
#   glpsol   glpsol --freemps FILE --nopresol    \ on the program of the plan's last round alone:
#   clp      clp FILE -primalsimplex             / one solve, where a plan takes many
#   even     clp FILE -dualsimplex, once, on a second program: of all rations that cost no more than
#            evening out may, those that change least (support/even_program.h). With clp's first
#            solve that is what "brief" is to be held against
#
# and prints medians (after one run that does not count; M runs once), the most memory held, and
# ratios; of farm L the first three alone. Then, of one program of farms S, M and L, what solving it by prices takes beside GLPK on the
# whole, and what of that a start near the answer and a re-solve for one tonne more take. Last, a
# thousand hard winters beside as many plans. Only ratios
# mean something on another machine. Fails when a solver finds another cost than ours.
set -u

root=$(cd "${0%/*}/../.." && pwd) || exit 1
build=${BUILD:-build/release}
program=${1:?PROGRAM}
runs=${2:-3}
case $build in /*) ;; *) build=$root/$build ;; esac
case $program in /*) ;; *) program=$root/$program ;; esac
cd "$root" || exit 1
timer=/usr/bin/time
for needed in "$timer" "$build/tests/bench/write_farm" "$build/tests/bench/time_solver" \
    "$build/tests/bench/time_winters" "$build/tests/oracle/write_question"; do
    [ -x "$needed" ] || {
        echo "run_bench.sh: there is no $needed" >&2
        exit 1
    }
done
work=$(mktemp -d) || exit 1
trap 'rm -rf "$work"' EXIT
failed=no

# timed NAME COMMAND: adds "seconds kilobytes" to NAME's list; what the command says goes to NAME.out.
timed() {
    name=$1
    shift
    "$timer" -q -f '%e %M' -o "$work/time" "$@" >"$work/$name.out" 2>"$work/$name.err"
    status=$?
    # The plan of a short winter ends with 3.
    if [ "$status" -ne 0 ] && [ "$status" -ne 3 ]; then
        echo "run_bench.sh: $name failed: $(head -n 1 "$work/$name.err")" >&2
        exit 1
    fi
    tail -n 1 "$work/time" >>"$work/$name.times"
}

# median NAME FIELD
median() {
    awk -v field="$2" '{ print $field }' "$work/$1.times" | sort -n |
        awk '{ at[NR] = $1 } END { print at[int((NR + 1) / 2)] }'
}

ratio() {
    awk -v a="$1" -v b="$2" 'BEGIN { if (b + 0 > 0) printf "%.2f", a / b; else printf "-" }'
}

one_round() {
    timed plan "$program" plan "$herd" "$folder"
    timed brief "$program" plan "$herd" "$folder" --brief
    timed cheapest "$program" plan "$herd" "$folder" --cheapest
    timed planner "$build/tests/oracle/write_question" "$work/question" farm "$herd" "$folder"
    timed glpsol glpsol --freemps "$work/question.mps" --nopresol --write "$work/solution"
    timed clp clp "$work/question.mps" -primalsimplex
}

check_cost() {
    ours=$(awk '{ print $2 }' "$work/planner.out")
    glpsol=$(awk '$1 == "s" && $5 == "f" && $6 == "f" { print $7 }' "$work/solution")
    clp=$(awk '/^Optimal objective/ { print $3 }' "$work/clp.out")
    awk -v a="$ours" -v b="$glpsol" -v c="$clp" 'BEGIN {
        if (a == "" || b == "" || c == "") exit 1
        exit !((a - b) ^ 2 <= (1e-6 * a) ^ 2 && (a - c) ^ 2 <= (1e-6 * a) ^ 2)
    }' || {
        echo "FAILED $label: we found $ours, glpsol ${glpsol:-nothing}, clp ${clp:-nothing}"
        failed=yes
    }
}

# bench LABEL HERD FOLDER RUNS: of more than one, the first is not counted.
bench() {
    label=$1
    herd=$2
    folder=$3
    rm -f "$work"/*.times
    [ "$4" -eq 1 ] || {
        one_round
        rm -f "$work"/*.times
    }
    run=0
    while [ "$run" -lt "$4" ]; do
        one_round
        run=$((run + 1))
    done
    check_cost
    size=$(awk '$1 == "ROWS" { at = 1; next } $1 == "COLUMNS" { at = 2; next } $1 == "RHS" { exit }
        at == 1 && $1 != "N" { rows++ } at == 2 && $1 != last { last = $1; columns++ }
        END { print rows " rows, " columns " columns" }' "$work/question.mps")
    printf '\n%s: %s; %s\n' "$label" "$(awk '{ print $1 }' "$work/planner.out")" "$size"
    clp_seconds=$(median clp 1)
    for name in plan brief cheapest planner glpsol clp; do
        seconds=$(median "$name" 1)
        printf '  %-8s %8.2f s   %8s times clp   %6.0f MB\n' "$name" "$seconds" \
            "$(ratio "$seconds" "$clp_seconds")" "$(ratio "$(median "$name" 2)" 1024)"
    done
    even
}

# even: what evening out takes of both programs, and how its rations change beside the least they could.
even() {
    timed both "$build/tests/oracle/write_question" "$work/question" even "$herd" "$folder"
    [ -e "$work/question-even.mps" ] || return 0
    timed even clp "$work/question-even.mps" -dualsimplex
    even_seconds=$(median even 1)
    both=$(awk -v a="$clp_seconds" -v b="$even_seconds" 'BEGIN { print a + b }')
    printf '  even     %8.2f s   brief is %s of clp on both programs; its rations change %s of the least\n' \
        "$even_seconds" "$(ratio "$(median brief 1)" "$both")" \
        "$(ratio "$(awk '/^even/ { print $2 }' "$work/both.out")" \
            "$(awk '/^Optimal objective/ { print $3 }' "$work/even.out")")"
    rm -f "$work/question-even.mps"
}

# with_rules HERD FOLDER SETTING...: the plan with these lines of winter.csv besides, as times the plan.
with_rules() {
    herd=$1
    folder=$2
    shift 2
    cp "$folder/winter.csv" "$work/winter.csv"
    printf '%s\n' "$@" >>"$folder/winter.csv"
    rm -f "$work/ruled.times"
    timed ruled "$program" plan "$herd" "$folder"
    cp "$work/winter.csv" "$folder/winter.csv"
    printf '  with %-50s %8.2f s   %8s times plan\n' "$*" "$(median ruled 1)" \
        "$(ratio "$(median ruled 1)" "$(median plan 1)")"
}

# alone LABEL HERD FOLDER: once, beside no solver: the program of a farm of this size takes one half an hour.
alone() {
    rm -f "$work"/*.times
    timed plan "$program" plan "$2" "$3"
    timed brief "$program" plan "$2" "$3" --brief
    timed cheapest "$program" plan "$2" "$3" --cheapest
    printf '\n%s\n' "$1"
    for name in plan brief cheapest; do
        printf '  %-8s %8.2f s   %28.0f MB\n' "$name" "$(median "$name" 1)" \
            "$(ratio "$(median "$name" 2)" 1024)"
    done
    # Memory, unlike time, is the same whatever else the machine does.
    for name in brief cheapest; do
        [ "$(median "$name" 2 | cut -d . -f 1)" -lt 102400 ] || {
            echo "$1: $name holds more than 100 MB" >&2
            failed=yes
        }
    done
}

processor=$(sed -n 's/^model name[^:]*: //p' /proc/cpuinfo 2>/dev/null | head -n 1)
echo "machine:  $(uname -s -m), ${processor:-processor unknown}, $(nproc 2>/dev/null || echo '?') at hand"
echo "compiler: $(${CC:-gcc} --version | head -n 1)"
echo "solvers:  $(glpsol --version | head -n 1); $(clp -quit 2>&1 | sed -n 's/^\(Coin LP version [0-9.]*\).*/\1/p')"

bench 'sample farm' herds/main-herd.csv sample-inventory "$runs"
for farm in S:1 M:3; do
    mkdir -p "$work/$farm"
    "$build/tests/bench/write_farm" "$work/$farm" "${farm%:*}" "${farm#*:}" || exit 1
    # A year of eight groups by the fortnight takes its time.
    case $farm in
    M:*) bench 'farm M, seed 3' "$work/$farm/herd.csv" "$work/$farm" 1 ;;
    *) bench 'farm S, seed 1' "$work/$farm/herd.csv" "$work/$farm" "$runs" ;;
    esac
    with_rules "$work/$farm/herd.csv" "$work/$farm" most_feeds_in_a_ration,4
    with_rules "$work/$farm/herd.csv" "$work/$farm" most_feeds_in_a_ration,4 \
        least_share_of_a_feed_pct,5 whole_loads,yes whole_bales,yes
done
mkdir -p "$work/L:2"
"$build/tests/bench/write_farm" "$work/L:2" L 2 || exit 1
alone 'farm L, seed 2' "$work/L:2/herd.csv" "$work/L:2"
echo
echo 'one program, solved in several ways'
for call in 'S 1 9 whole' 'M 3 3 whole' 'L 1 1'; do
    # shellcheck disable=SC2086 # the call is words
    "$build/tests/bench/time_solver" $call || failed=yes
done
echo
echo 'sample farm, a thousand hard winters beside a thousand plans of which nine are made'
"$build/tests/bench/time_winters" herds/main-herd.csv sample-inventory 1000 9 || failed=yes
[ "$failed" = no ]
