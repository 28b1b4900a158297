#!/bin/sh
# A whole winter of the invented farm as its people type it, from files only: run_winter.sh PROGRAM
# A plan in October, weekly feedings with slips, a spreadsheet that saves the record its own way, a
# recount in December, a stack out in January, cattle gone, a cold February, plans again. On every
# day looked at the books balance: started = fed + loss + missing + left.
set -u

case $1 in
/*) program=$1 ;;
*) program=$(pwd)/$1 ;;
esac
root=$(cd "${0%/*}/../.." && pwd) || exit 1
work=$(mktemp -d) || exit 1
trap 'rm -rf "$work"' EXIT
cp -r "$root/sample-inventory" "$work/yard" || exit 1
cp "$root/herds/main-herd.csv" "$work/herd.csv" || exit 1
cd "$work" || exit 1
passed=0
failed=0

PIT="Pit - early mix chop"
HAY="Early mix hay - home quarter"
SLOUGH="Slough hay - Muskrat bottom"
LATE="Late mix hay - Dahlen quarter"

# is WHAT ACTUAL EXPECTED
is() {
    if [ "$2" = "$3" ]; then
        passed=$((passed + 1))
    else
        echo "FAILED  $1: '$2', not '$3'"
        failed=$((failed + 1))
    fi
}

# fed OPTION... : the exit code in $code, what it printed in page and told
fed() {
    "$program" fed herd.csv yard "$@" >page 2>told
    code=$?
}

# stock DAY: figures in stock.json, and the books of that day
stock() {
    "$program" stock herd.csv yard --from "$1" --format json >stock.json 2>told
    is "the exit of stock on $1" "$(case $? in 0 | 3) echo fine ;; *) cat told ;; esac)" fine
    is "no more is wasted than was fed on $1" "$(jq '[.stacks[] |
        .feeding_waste_kg >= 0 and .feeding_waste_kg <= .fed_kg] | all' stock.json)" true
    is "the books of $1 balance to the kilogram" "$(jq '[.stacks[] |
        (.started_kg - .fed_kg - .storage_loss_kg - .missing_kg - .left_kg | fabs)] | max < 1' \
        stock.json)" true
    is "no stack has less than nothing on $1" "$(jq '[.stacks[].left_kg] | min >= 0' stock.json)" \
        true
}

# figure STACK KEY: of the last stock
figure() { jq -r --arg stack "$1" ".stacks[] | select(.stack == \$stack) | $2" stock.json; }

# The pit is fed by the scale only: what is written, added up by another program.
pit_by_hand() {
    tr -d '\r' <yard/fed.csv | sed 's/;/,/g' | awk -F, -v until="$1" '
        $3 == "Pit - early mix chop" && $1 <= until {
            kg += $4 * ($5 == "lb" ? 0.45359237 : $5 == "tonnes" ? 1000 : 1)
        }
        END { printf "%.0f", kg }'
}

# ---- October ----
"$program" plan herd.csv yard --keep >plan.txt 2>told
is "the plan of October" "$?" 0
is "it is kept" "$(head -2 yard/last-plan.csv | tail -1)" \
    "from,to,group,feed,put_out_kg_per_day,cost_per_day,head"
stock 2026-10-31
is "nothing is fed before the winter" "$(jq '[.stacks[].fed_kg] | add' stock.json)" 0

# ---- weekly feedings, with slips ----
for day in 2026-11-07 2026-11-14 2026-11-21 2026-11-28; do
    fed --date $day --group "Main cows" --stack "$PIT" --weight 12600kg
    is "a week of the pit on $day" "$code" 0
    fed --date $day --group "Replacement heifers" --stack "$PIT" --weight 6200lb
    fed --date $day --group "Bred heifers" --stack "$HAY" --bales 4
done
cp yard/fed.csv before.csv
fed --date 2026-11-28 --group "Main cows" --stack "Pitt - late chop" --weight 900kg
is "a stack nobody has is refused" "$code" 1
fed --date 2026-11-28 --group "Main cwos" --stack "$PIT" --weight 900kg
is "a group nobody has is refused" "$code" 1
is "with the name that may be meant" "$(grep -c "Main cows" told)" 1
fed --date 2027-11-28 --group "Main cows" --stack "$PIT" --weight 900kg
is "another year is refused" "$(head -1 told)" \
    "this entry: date: 2027-11-28 is 192 days after the last feeding day; is the year right?"
fed --group "Main cows" --stack "$PIT" --weight 900
is "a weight without a unit is no command" "$code" 2
fed --date 2026-11-28 --group "Main cows" --stack "Barley - hopper bin" --bales 3
is "bales of a bin are refused" "$code" 1
is "what is refused is not written" "$(cmp before.csv yard/fed.csv)" ""
fed --date 2026-11-28 --group "Main cows" --stack "$PIT" --weight 126000kg --note slip
is "a slip that can be is written" "$code" 0
fed --undo
is "and taken back" "$(sed -n '4p' page)" \
    "Taken back, from fed.csv: 2026-11-28,Main cows,Pit - early mix"
is "which leaves the file as it was" "$(cmp before.csv yard/fed.csv)" ""
fed --date 2026-11-12 --group "Herd bulls" --stack "$SLOUGH" --bales 5 --note "from the diary"
is "a feeding of an earlier day" "$code" 0
stock 2026-11-11
is "is not fed the day before" "$(figure "$SLOUGH" .fed_kg)" 0
stock 2026-11-28
is "the pit adds up" "$(figure "$PIT" '.fed_kg | round')" "$(pit_by_hand 2026-11-28)"
is "and tells how fast it is fed" "$(figure "$PIT" .runs_out_by)" recent

# ---- a spreadsheet saves the record its own way ----
{
    printf '\357\273\277'
    sed 's/,/;/g; s/unit;note/unit;Notes/; s/$/\r/' yard/fed.csv
    printf '2026-11-30;Main cows;%s;1,5;t;typed by hand;\r\n' "$PIT"
} >saved.csv
cp saved.csv yard/fed.csv
fed --date 2026-12-05 --group "Main cows" --stack "$PIT" --weight 12600kg
is "it is written to as it is" "$code" 0
is "and every byte of it stays" "$(head -c "$(wc -c <saved.csv)" yard/fed.csv | cmp - saved.csv)" ""
is "in its own separator and line end" "$(tail -1 yard/fed.csv | od -c | grep -c '\\r  *\\n')" 1
stock 2026-12-06
is "the pit adds up in a spreadsheet's file" "$(figure "$PIT" '.fed_kg | round')" \
    "$(($(pit_by_hand 2026-12-06) + 1499))" # the other program reads 1,5 t as 1 kg

# ---- a recount in December ----
fed --date 2026-12-12 --stack "$HAY" --left-bales 70
is "a recount" "$code" 0
fed --date 2026-12-12 --stack "$PIT" --left-weight 250t
stock 2026-12-13
is "the count holds" "$(figure "$HAY" '.left_bales | round')" 70
is "four bales nobody wrote down are told" "$(figure "$HAY" '.recount.bales_off | round')" 4
is "for the pit a weight is offered" "$(figure "$PIT" '.recount.new_written | type')" number
cp yard/stacks.csv stacks.was
is "and nothing was changed" "$(cmp stacks.was "$root/sample-inventory/stacks.csv")" ""

"$program" plan herd.csv yard --from 2026-12-14 --keep --format json >rest.json 2>told
is "the rest of winter" "$(jq -r '.from + " " + (.rest_of_winter | tostring)' rest.json)" \
    "2026-12-14 true"
is "what was fed beside what was planned" "$(jq --arg pit "$PIT" '[.since_last_plan.stacks[] |
    select(.stack == $pit)][0] | .planned_kg > 0 and .fed_kg > 0 and .missing_kg != 0' rest.json)" \
    true
is "no more is planned than is left" "$(jq --slurpfile stock stock.json '
    [.stacks[] | . as $of | ($stock[0].stacks[] | select(.stack == $of.stack)) |
        .left_kg - $of.taken_as_fed_kg] | min > -1' rest.json)" true

# ---- a stack out in January, cattle gone ----
fed --date 2027-01-09 --stack "$SLOUGH" --empty
is "a stack is empty" "$code" 0
fed --date 2027-01-11 --group "Herd bulls" --stack "$SLOUGH" --bales 2
is "what is fed of it after that is written, and doubted" "$code $(tr -s '\n ' '  ' <page | grep -c 'marked empty')" \
    "0 1"
printf '%s\n' 'date,group,head,note' '2027-01-10,Main cows,147,three died in the storm' \
    '2027-03-01,Herd bulls,0,sold' >yard/head-changes.csv
stock 2027-01-12
is "it stays empty whatever the record says" \
    "$(figure "$SLOUGH" '(.left_kg | tostring) + " " + .runs_out_by')" "0 empty"
is "those that are there now are fed" \
    "$(jq -r '.days_on_hand.groups[] | select(.group == "Main cows").head' stock.json)" 147
"$program" plan herd.csv yard --from 2027-01-13 --format json >mild.json 2>told
is "an empty stack is not fed" "$(jq --arg stack "$SLOUGH" '.stacks[] | select(.stack == $stack) |
    .taken_as_fed_kg' mild.json)" 0
is "cattle that are sold are not fed" "$(jq -r '.groups[] | select(.group == "Herd bulls") |
    .periods[-1].to' mild.json)" 2027-02-28

# ---- a cold February ----
sed 's/^2,-13.2,-34/2,-26,-42/' "$root/sample-inventory/weather.csv" >yard/weather.csv
for day in 2027-01-16 2027-01-23 2027-01-30; do
    fed --date $day --group "Main cows" --stack "$PIT" --weight 14t
    fed --date $day --group "Main cows" --stack "$LATE" --bales 9
done
stock 2027-01-31
is "what runs out first is the first" "$(jq -r '[.stacks[] | select(.runs_out) | .runs_out] |
    . == sort' stock.json)" true
"$program" plan herd.csv yard --from 2027-01-13 --format json >cold.json 2>told
is "cold costs" "$(jq --slurpfile mild mild.json '.cost.total > $mild[0].cost.total' cold.json)" \
    true
"$program" plan herd.csv yard --from 2027-02-01 --keep >plan.txt 2>told
is "the plan of February" "$(case $? in 0 | 3) echo fine ;; *) cat told ;; esac)" fine
is "says what changed" "$(grep -c '^Since the last plan$' plan.txt)" 1
is "and keeps itself" "$(grep -v '^#' yard/last-plan.csv | sed -n 2p | cut -d, -f1)" 2027-02-01

# ---- to the end ----
stock 2027-02-28
stock 2027-04-30
stock 2027-05-20
is "on the last day nothing is left to plan" "$(jq -r '.days_on_hand' stock.json)" null

# ---- a plan is made where it cannot be kept ----
rm yard/.winterstack-lock
mkdir yard/.winterstack-lock
"$program" plan herd.csv yard --from 2027-02-01 --keep >again.txt 2>told
is "a plan that cannot be kept is made" "$(head -1 again.txt)" "$(head -1 plan.txt)"
is "and says so" "$(head -1 told)" "yard: not written: it is a folder, not a file"

rm yard/last-plan.csv
mkdir yard/last-plan.csv
"$program" plan herd.csv yard --from 2027-02-01 >again.txt 2>told
is "where the last plan cannot be read, too" "$(head -1 again.txt)" "$(head -1 plan.txt)"

echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
