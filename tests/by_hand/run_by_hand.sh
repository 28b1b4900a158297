#!/bin/sh
# Works printed plans again from their figures (plan.jq), and makes sure that the working notices a
# figure that was changed. usage: run_by_hand.sh PROGRAM
set -u
program=${1:?usage: run_by_hand.sh PROGRAM}
here=$(dirname "$0")
root=$here/../..
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT INT TERM
passed=0
failed=0

ok() {
    passed=$((passed + 1))
    echo "ok      $1"
}
not_ok() {
    failed=$((failed + 1))
    echo "FAILED  $1"
    head -20 "$work/complaints"
}

# a plan that must agree with itself: NAME HERD INVENTORY [OPTION ...]
plan_agrees() {
    name=$1
    shift
    "$program" plan "$@" --format json >"$work/plan.json" 2>"$work/complaints"
    status=$?
    if [ $status -ne 0 ] && [ $status -ne 3 ]; then
        not_ok "$name: exit $status"
        return
    fi
    if jq -r -f "$here/plan.jq" "$work/plan.json" >"$work/complaints" 2>&1 &&
        [ ! -s "$work/complaints" ]; then
        ok "$name"
    else
        not_ok "$name"
    fi
}

# a changed figure that must be noticed: NAME JQ-CHANGE
change_is_noticed() {
    jq "$2" "$work/kept.json" >"$work/changed.json"
    if jq -r -f "$here/plan.jq" "$work/changed.json" 2>&1 | grep -q .; then
        ok "noticed: $1"
    else
        echo "nothing was said" >"$work/complaints"
        not_ok "noticed: $1"
    fi
}

for herd in "$root"/herds/*.csv; do
    plan_agrees "$(basename "$herd" .csv)" "$herd" "$root/sample-inventory"
done
mkdir "$work/lean"
cp "$root"/sample-inventory/*.csv "$work/lean"
grep -i '^#\|^feed_for_sale\|mineral\|limestone\|oxide' "$root/sample-inventory/for-sale.csv" >"$work/lean/for-sale.csv"
grep -v 'Pit' "$root/sample-inventory/stacks.csv" >"$work/lean/stacks.csv"
grep -v 'Pit\|pellets' "$root/sample-inventory/feed-tests.csv" >"$work/lean/feed-tests.csv"
plan_agrees "a winter that is short" "$root/herds/main-herd.csv" "$work/lean"
if [ "$(jq -r .verdict "$work/plan.json")" = short ]; then
    ok "that winter says it is short"
else
    echo "the verdict is not short" >"$work/complaints"
    not_ok "that winter says it is short"
fi

for form in thirteen 2016; do
    mkdir "$work/$form"
    cp "$root"/sample-inventory/*.csv "$work/$form"
    echo "protein,$form" >>"$work/$form/winter.csv"
    plan_agrees "microbial protein by $form" "$root/herds/small-herd.csv" "$work/$form"
    if [ "$(jq -r .protein "$work/plan.json")" = "$form" ]; then
        ok "that plan says it is by $form"
    else
        echo "the form is not $form" >"$work/complaints"
        not_ok "that plan says it is by $form"
    fi
done
plan_agrees "needs by the table, cold by the model" "$root/herds/small-herd.csv" "$root/sample-inventory" \
    --requirements table --cold model
if [ "$(jq '[.groups[].periods[] | select(.gain_wanted_kg > 0).gain_recomputed_kg]
            | length > 0 and all(. == null)' "$work/plan.json")" = true ]; then
    ok "by the table no gain is told, because it is not told from upkeep"
else
    echo "a gain is told" >"$work/complaints"
    not_ok "by the table no gain is told, because it is not told from upkeep"
fi
own=$root/tests/golden/plan-own-figures/farm
plan_agrees "needs with figures of its own" "$own/herd.csv" "$own"

# the rest of a winter, from what is left, with cattle that went and came
mkdir "$work/later"
cp "$root"/sample-inventory/*.csv "$work/later"
printf '%s\n' 'date,group,head' '2026-12-01,Herd bulls,0' '2027-02-10,Herd bulls,9' \
    '2027-01-05,Main cows,160' '2027-04-20,Replacement heifers,0' >"$work/later/head-changes.csv"
printf '%s\n' 'date,group,stack,amount,unit' '2026-12-20,Main cows,Pit - early mix chop,90,tonnes' \
    '2026-12-20,Bred heifers,Early mix hay - home quarter,31,bales' >"$work/later/fed.csv"
plan_agrees "the whole winter with cattle that go and come" "$root/herds/main-herd.csv" "$work/later"
plan_agrees "the rest of a winter" "$root/herds/main-herd.csv" "$work/later" --from 2027-01-20

# yards where some, and where all, of the rules are asked for
mkdir "$work/loads" "$work/ruled" "$work/bales"
cp "$root"/sample-inventory/*.csv "$work/loads"
awk -F, -v OFS=, '/^stack,/ { print "haul_to_other_yard_per_tonne", "least_face_kg_per_day", $0; next }
    /^#/ { print; next } { print 7, /^Pit/ ? 150 : "", $0 }' \
    "$root/sample-inventory/stacks.csv" >"$work/loads/stacks.csv"
cp "$work"/loads/*.csv "$work/ruled"
printf '%s\n' whole_loads,yes most_feeds_in_a_ration,4 >>"$work/loads/winter.csv"
printf '%s\n' whole_loads,yes most_feeds_in_a_ration,4 least_share_of_a_feed_pct,5 largest_change_pct,40 \
    whole_bales,yes one_face_open,yes >>"$work/ruled/winter.csv"
grep -v '^largest_change' "$work/ruled/winter.csv" >"$work/bales/winter.csv"
for file in "$work"/ruled/*.csv; do
    [ -e "$work/bales/${file##*/}" ] || cp "$file" "$work/bales"
done
plan_agrees "a yard with whole loads and few feeds" "$root/herds/main-herd.csv" "$work/loads"
mv "$work/plan.json" "$work/kept.json"
change_is_noticed "a cheaper haul to another yard" '(.feeds[] | select(.own) | .haul_to_other_yard_per_kg) = 0'
# rules_are_kept HOW-MANY NAME
rules_are_kept() {
    if [ "$(jq '[.yard_rules.rules[] | select(.kept)] | length' "$work/plan.json")" -eq "$1" ]; then
        ok "$2"
    else
        jq .yard_rules "$work/plan.json" >"$work/complaints"
        not_ok "$2"
    fi
    mv "$work/plan.json" "$work/kept.json"
}

plan_agrees "a yard with every rule but a largest change" "$root/herds/small-herd.csv" "$work/bales"
rules_are_kept 6 "that yard keeps its rules"
change_is_noticed "part of a bale" '.yard_rules.not_in_whole_bales = [] | (.groups[0].periods[].ration[] | select(.group_bales != null) | .group_bales) *= 1.03'
# bales of so few cattle do not come out whole where no feed may change much either
plan_agrees "a yard with every rule" "$root/herds/small-herd.csv" "$work/ruled"
rules_are_kept 6 "that yard gives up whole bales alone"
change_is_noticed "part of a load" '.purchases[0].loads += 0.5'
change_is_noticed "one feed fewer asked" '.yard_rules.most_feeds = 2'
change_is_noticed "a larger least share" '.yard_rules.least_share_pct = 30'
change_is_noticed "a smaller step" '.yard_rules.largest_change_pct = 5'
change_is_noticed "a second face" '.feeds |= map(.has_face = true)'
change_is_noticed "a face that wants more" '(.feeds[] | select(.has_face)).least_face_kg_per_day = 90000'

"$program" plan "$root/herds/main-herd.csv" "$root/sample-inventory" --format json >"$work/kept.json" 2>/dev/null
change_is_noticed "more of a feed in one ration" '.groups[0].periods[0].ration[0].dry_matter_kg *= 1.01'
change_is_noticed "more protein in a feed" '.feeds[0].as_eaten.crude_protein *= 1.02 | .feeds[0].degradable_protein_g_per_kg *= 1.02'
change_is_noticed "a limit that is not kept" '.groups[0].periods[0].nutrients[0].least *= 1.05'
change_is_noticed "a cost that does not add up" '.cost.total += 10'
change_is_noticed "a stack that feeds more than it holds" '.stacks[0].taken_as_fed_kg *= 1.1'
change_is_noticed "another form of microbial protein" '.protein = "thirteen"'
change_is_noticed "a purchase left out" '.purchases |= .[1:]'
echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
