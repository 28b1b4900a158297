#!/bin/sh
# Works printed choices of acres again from their figures (cut.jq), and makes sure that the working
# notices a figure that was changed. usage: run_cut_by_hand.sh PROGRAM
set -u
program=${1:?usage: run_cut_by_hand.sh PROGRAM}
here=$(dirname "$0")
root=$here/../..
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT INT TERM
failed=0

# Nothing printed agrees with nothing: that is no agreement.
says_nothing() {
    [ -s "$1" ] || {
        echo "nothing was printed" >"$work/complaints"
        return 1
    }
    jq -r -f "$here/cut.jq" "$1" >"$work/complaints" 2>&1 && [ ! -s "$work/complaints" ]
}

cut_agrees() {
    name=$1
    shift
    "$program" cut "$@" --format json >"$work/cut.json" 2>/dev/null
    if says_nothing "$work/cut.json"; then
        echo "ok      $name"
    else
        failed=$((failed + 1))
        echo "FAILED  $name"
        head -20 "$work/complaints"
    fi
}

change_is_noticed() {
    jq "$2" "$work/cut.json" >"$work/changed.json"
    if says_nothing "$work/changed.json"; then
        failed=$((failed + 1))
        echo "FAILED  noticed: $1"
    else
        echo "ok      noticed: $1"
    fi
}

cut_agrees "the small herd's fields" "$root/herds/small-herd.csv" "$root/sample-inventory"
cut_agrees "the main herd's fields, two days and meal" "$root/herds/main-herd.csv" "$root/sample-inventory" \
    --cut-on 2027-07-22 --cut-on 2027-08-20 --buy 'Canola meal - crush plant'
cut_agrees "the main herd's fields" "$root/herds/main-herd.csv" "$root/sample-inventory"
change_is_noticed "a larger loss in the field" '.cuts[0].field_loss_share += 0.05'
change_is_noticed "more acres than there are" '.futures[4].cuts[0].hectares *= 3'
change_is_noticed "a cost that does not add up" '.futures[2].cost.total += 20'
change_is_noticed "feed that was not made" '.futures[3].cuts[0].fed_kg *= 2'
change_is_noticed "a purchase left out" '.futures[0].purchases |= .[1:]'
change_is_noticed "a turn that does not turn" '.turn.first_high = .turn.second_high + (.turn.first_low - .turn.second_low)'
[ "$failed" -eq 0 ]
