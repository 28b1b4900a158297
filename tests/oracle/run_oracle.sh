#!/bin/sh
# The plan against other solvers: BUILD=build/release run_oracle.sh
#
# For each farm, tests/oracle/write_question writes its question and our answer to it. When the winter
# can be balanced:
#   model   glpsol works out every row anew from models/winter-plan.mod and finds the same cost
#   clp     another solver finds the same cost for our own program
#   rations that model's rows hold for our rations of least cost
#   steady  and for the rations we print, which cost no more than evening out may
#   exact   (some) glpsol finds the same cost in fractions, without any rounding
# When it cannot, clp finds the same shortage, and the same cost of being no shorter than that.
set -u

root=$(cd "${0%/*}/../.." && pwd) || exit 1
build=${BUILD:-build/release}
case $build in
/*) ;;
*) build=$root/$build ;;
esac
write=$build/tests/oracle/write_question
model=$root/models/winter-plan.mod
cd "$root" || exit 1
[ -x "$write" ] || {
    echo "run_oracle.sh: there is no $write: make test-programs" >&2
    exit 1
}
work=$(mktemp -d) || exit 1
trap 'rm -rf "$work"' EXIT
q=$work/question

passed=0
failed=0
generated_balanced=0
generated_short=0

# Objective of the model with these files of data; nothing when it has no optimum.
model_value() {
    data=
    for file in "$@"; do
        data="$data --data $file"
    done
    # shellcheck disable=SC2086 # a list of words
    glpsol --math "$model" $data $options --write "$work/solution" >"$work/glpsol.log" 2>&1
    awk '$1 == "s" && $5 == "f" && $6 == "f" { print $7 }' "$work/solution" 2>/dev/null
    mv -f "$work/solution" "$work/basis" 2>/dev/null
}

# At its usual tolerance clp is a little shorter than a program held to the least shortage lets it be.
clp_value() {
    clp "$1" -primalTolerance 1e-9 -dualTolerance 1e-9 -primalsimplex 2>&1 | awk '/^Optimal objective/ { print $3 }'
}

# is_near A B SHARE: of the larger, or of one where both are small.
is_near() {
    awk -v a="$1" -v b="$2" -v share="$3" 'BEGIN {
        if (a == "" || b == "") exit 1
        size = a < 0 ? -a : a
        if (b > size) size = b
        if (-b > size) size = -b
        if (size < 1) size = 1
        gap = a > b ? a - b : b - a
        exit !(gap <= share * size)
    }'
}

at_most() { awk -v a="$1" -v b="$2" 'BEGIN { exit !(a != "" && b != "" && a + 0 <= b + 0) }'; }

note() { wrong="$wrong
        $1"; }

same_cost() {
    is_near "$2" "$cost" "$3" || note "$1 found ${2:-nothing}, we found $cost"
}

# The last file of $@ holds rations: a milligram a head and day is less than any scale shows.
keeps_to_rows() {
    what=$1
    shift
    apart=$(model_value "$@")
    at_most "$apart" 1e-6 || note "$what: ${apart:-not even a number of} kg away from the model's rows"
}

check_balanced() {
    steady_cost=$1
    allowed=$2
    options=
    same_cost model "$(model_value "$q.dat")" 1e-6
    if [ "$exact" = yes ]; then
        options="--exact --ini $work/basis"
        same_cost exact "$(model_value "$q.dat")" 1e-6
        options=
    fi
    same_cost clp "$(clp_value "$q.mps")" 1e-6
    keeps_to_rows rations "$q.dat" "$q-rations.dat"
    keeps_to_rows steady "$q.dat" "$q-steady.dat"
    at_most "$steady_cost" "$allowed" ||
        note "the rations printed cost $steady_cost, evening out may cost $allowed"
}

check_short() {
    shortage=$1
    found=$(clp_value "$q-shortage.mps")
    is_near "$found" "$shortage" 1e-6 || note "clp is ${found:-nothing} short, we are $shortage"
    same_cost clp "$(clp_value "$q.mps")" 1e-6
}

# case_of NAME EXACT WORDS-FOR-write_question
case_of() {
    name=$1
    exact=$2
    shift 2
    wrong=
    verdict=
    cost=
    rm -f "$q"*
    if line=$("$write" "$q" "$@" 2>&1); then
        # shellcheck disable=SC2086 # words
        set -- $line
        verdict=$1
        cost=${2:-}
        case $verdict in
        balanced) check_balanced "$3" "$4" ;;
        short) check_short "$3" ;;
        *) note "$line" ;;
        esac
    else
        note "$line"
    fi
    if [ -z "$wrong" ]; then
        passed=$((passed + 1))
        parts=
        [ "$exact" = yes ] && [ "$verdict" = balanced ] && parts=', exact'
        printf 'ok      %-24s %-8s %14.2f%s\n' "$name" "$verdict" "$cost" "$parts"
    else
        failed=$((failed + 1))
        printf 'FAILED  %-24s %s%s\n' "$name" "$verdict" "$wrong"
    fi
}

generated() {
    case_of "seed $1 size $2" "$3" made "$1" "$2"
    case $verdict in
    balanced) generated_balanced=$((generated_balanced + 1)) ;;
    short) generated_short=$((generated_short + 1)) ;;
    esac
}

for herd in herds/*.csv; do
    case_of "$herd" yes farm "$herd" sample-inventory
done

# Silage that waits, urea and untested grain held back, salty water: none of the invented yards has these.
case_of "kept feeds" no farm tests/oracle/kept-feeds/herd.csv tests/oracle/kept-feeds

seed=1
while [ "$seed" -le 12 ]; do
    exact=no
    [ "$seed" -gt 3 ] || exact=yes
    generated "$seed" 2,4,6,100+ "$exact"
    generated "$seed" 3,5,6,150+ no
    generated "$seed" 3,5,4,180 no
    seed=$((seed + 1))
done

# Farms with many figures of their own, every form of microbial protein, both sources of needs and both
# ways of cold among them.
for seed in 22 29 30 34 35 36 42 44 55 60 61 67; do
    generated "$seed" 3,5,6,150+ no
done

# Next year's fields: the sample farm's, and invented ones.
case_of "fields of the sample" yes cut herds/main-herd.csv sample-inventory
seed=1
while [ "$seed" -le 8 ]; do
    case_of "fields of seed $seed" no made-cut "$seed" 2,1,6,100+
    case_of "fields of seed $seed, left over" no made-cut "$seed" 2,1,6,100
    seed=$((seed + 1))
done

if [ "$generated_balanced" -lt 30 ] || [ "$generated_short" -lt 1 ]; then
    failed=$((failed + 1))
    echo "FAILED  only $generated_balanced generated winters are balanced, and $generated_short short"
fi

echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
