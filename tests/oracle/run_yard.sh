#!/bin/sh
# The rules of the yard against another solver's branch and bound: BUILD=build/release run_yard.sh
#
# For each farm, tests/oracle/write_yard writes the program with its whole columns and what we make of
# it. glpsol finds, to within 0.05 % (MIP_GAP):
#   held   the same cost, to a millionth, when the whole columns are held to what we chose
#   whole  no less than our bound, and no more than our cost
set -u

root=$(cd "${0%/*}/../.." && pwd) || exit 1
build=${BUILD:-build/release}
case $build in
/*) ;;
*) build=$root/$build ;;
esac
write=$build/tests/oracle/write_yard
[ -x "$write" ] || {
    echo "run_yard.sh: there is no $write: make test-programs" >&2
    exit 1
}
work=$(mktemp -d) || exit 1
trap 'rm -rf "$work"' EXIT
passed=0
failed=0
none=0

# The objective that glpsol finds; nothing when it finds none.
value_of() {
    glpsol --freemps "$1" --mipgap 0.0005 --write "$work/solution" >"$work/glpsol.log" 2>&1
    awk '$1 == "s" && $2 == "bas" && $5 == "f" && $6 == "f" { print $7 }
         $1 == "s" && $2 == "mip" && ($5 == "o" || $5 == "f") { print $6 }' "$work/solution"
    rm -f "$work/solution"
}

# at_most A B SHARE
at_most() {
    awk -v a="$1" -v b="$2" -v share="$3" 'BEGIN {
        if (a == "" || b == "") exit 1
        size = b < 0 ? -b : b
        exit !(a + 0 <= b + share * size)
    }'
}

# case_of SEED GROUPS STACKS DAYS
case_of() {
    name="seed $1, $2 groups, $3 stacks, $4 days"
    line=$("$write" "$work/yard" "$@") || line=failed
    # shellcheck disable=SC2086 # words
    set -- $line
    if [ "$1" = none ]; then
        none=$((none + 1))
        return
    fi
    wrong=
    if [ "$1" != kept ]; then
        wrong="$line"
    else
        held=$(value_of "$work/yard-held.mps")
        whole=$(value_of "$work/yard.mps")
        { at_most "$held" "$3" 1e-6 && at_most "$3" "$held" 1e-6; } ||
            wrong="held, glpsol found ${held:-nothing}, we $3"
        at_most "$4" "$whole" 1e-6 || wrong="$wrong glpsol found ${whole:-nothing}, below our bound $4"
        at_most "$whole" "$3" 0.000501 || wrong="$wrong glpsol found ${whole:-nothing}, we $3 only"
    fi
    if [ -z "$wrong" ]; then
        passed=$((passed + 1))
        echo "ok      yard: $name ($2 rules)"
    else
        failed=$((failed + 1))
        echo "FAILED  yard: $name: $wrong"
    fi
}

for seed in 1 2 3 4 5 6 7 8 9 10 11 12 13 14 15 16; do
    case_of "$seed" $((1 + seed % 2)) 3 $((40 + seed % 3 * 15))
done
for seed in 1 2 3 4 6 8 9 11; do
    case_of "$seed" 2 4 70
done
echo "$passed passed, $failed failed; $none farms keep no rule"
[ "$failed" -eq 0 ] && [ "$passed" -ge 8 ]
