#!/bin/sh
# A nutrient is one line of src/feedstuff/nutrient.def plus its figures in the tables: builds a copy
# of the program with one more, boron, whose figures are invented here, and sees that all that reads,
# plans and shows knows it; and that the program as it stands knows it nowhere.
# usage: test_one_more.sh PROGRAM
set -eu

program=${1:?usage: test_one_more.sh PROGRAM}
case $program in
/*) ;;
*) program=$PWD/$program ;;
esac
root=$(cd "${0%/*}/../.." && pwd)
tree=$(mktemp -d)
trap 'rm -rf "$tree"' EXIT INT TERM
passed=0
failed=0

ok() {
    passed=$((passed + 1))
    echo "ok      $1"
}
not_ok() {
    failed=$((failed + 1))
    echo "FAILED  $1"
}
that() { # what, command ...
    what=$1
    shift
    if "$@" >/dev/null 2>&1; then ok "$what"; else not_ok "$what"; fi
}

# ---- the copy: one line of the list, and its figures ----
# 4,850 ppm of a mineral of 97 % dry matter, as fed, are 5,000 of its dry matter.

cp -r "$root/Makefile" "$root/src" "$root/models" "$root/herds" "$root/sample-inventory" "$tree"
mkdir -p "$tree/tests"
cp -r "$root/tests/support" "$tree/tests"
# no other file of src/ is touched
echo 'NUTRIENT(BORON, "boron", TRACE, "Boron", "ppm", 0.0, 90000.0, 1, SCALES, MEAN, "mg", 1.0)' \
    >>"$tree/src/feedstuff/nutrient.def"
tables=$tree/models/coefficients
awk -F, -v OFS=, '/^#/ || NF < 2 { print; next }
    $1 == "feed" { print $0, "boron_ppm"; next }
    { print $0, ($1 == "mineral_2:1" ? 4850 : "") }' "$tables/book-feeds.csv" >"$tree/book"
mv "$tree/book" "$tables/book-feeds.csv"
echo 'boron,all,5,ppm,page,MERCK_MINERALS,plan' >>"$tables/mineral-needs.csv"
echo 'boron_most,Boron of the whole diet,concentration,boron,ppm,all,100,150,0.05,most,page,MERCK_MINERALS' \
    >>"$tables/safety-limits.csv"
env -u MAKEFLAGS -u MFLAGS -u MAKELEVEL make -C "$tree" -j2 MODE=debug INSTALL=no all \
    >"$tree/make.log" 2>&1 || {
    tail -20 "$tree/make.log"
    echo 'FAILED  the program does not build with one more nutrient'
    exit 1
}
more=$tree/build/debug/winterstack

# ---- a farm that has it tested: 20 ppm in the first sample; and a figure of its own ----

farm=$tree/sample-inventory
awk -v OFS=, '/^#/ { print; next }
    !heading { heading = 1; print $0, "boron_ppm"; next }
    { print $0, (sampled++ ? "" : 20) }' "$farm/feed-tests.csv" >"$tree/tests.csv"
mv "$tree/tests.csv" "$farm/feed-tests.csv"
herd=$tree/herds/main-herd.csv
stack=$(awk -F, '/^#/ { next } ++row == 2 { print $1 }' "$farm/feed-tests.csv")
printf 'group,need,value,unit\nHerd bulls,boron,7,ppm\n' >"$farm/needs.csv"

# of the program as it stands, which proves that the rest can fail
that 'without the line its heading is a fault' \
    sh -c "'$program' check '$herd' '$farm' 2>&1 | grep -q 'boron_ppm'"
that 'without the line its own figure is a fault' \
    sh -c "'$program' check '$herd' '$farm' 2>&1 | grep -q \"needs.csv.*'boron' is none of\""

for command in check feeds needs plan; do
    format=json
    [ "$command" != check ] || format=text
    status=0
    "$more" "$command" "$herd" "$farm" --format "$format" >"$tree/$command" 2>&1 || status=$?
    that "$command runs with it" [ $status -eq 0 ]
done
# shellcheck disable=SC2016 # the $ of jq
that 'a test of it is read, from the laboratory' jq -e --arg stack "$stack" \
    '[.. | objects | select(.stack? == $stack or .feed? == $stack or .name? == $stack)
      | .. | objects | select(.nutrient? == "boron") | select(.value == 20)] | length > 0' \
    "$tree/feeds"
that 'a value outside its range is a fault' sh -c \
    "sed '3s/,20\$/,99999/' '$farm/feed-tests.csv' >'$tree/high.csv' &&
     cp -r '$farm' '$tree/high' && mv '$tree/high.csv' '$tree/high/feed-tests.csv' &&
     '$more' check '$herd' '$tree/high' 2>&1 | grep -q 'boron_ppm: 99999 is outside 0 to 90000'"
that 'every group needs it, with its source' jq -e \
    '[.groups[] | select(.group != "Herd bulls") | .periods[].needs
      | map(select(.nutrient == "boron" and .least == 5 and .source == "MERCK_MINERALS"))
      | length == 1] | length > 0 and all' "$tree/needs"
that 'a figure of the farm wins over it' jq -e \
    '[.groups[] | select(.group == "Herd bulls") | .periods[].needs
      | map(select(.nutrient == "boron" and .least == 7)) | length == 1]
     | length > 0 and all' "$tree/needs"
that 'what feeds hold of it stands beside the rations' jq -e \
    '(.feeds | map(select(.feed == "2:1 mineral with traces").as_eaten.boron | round) == [5000])
     and (.feeds | all(.as_eaten | has("boron")))' "$tree/plan"
that 'every ration brings as much as is needed' jq -e \
    '[.groups[].periods[].nutrients | map(select(.nutrient == "boron"))
      | length == 1 and .[0].supplied >= .[0].least * 0.999999] | length > 0 and all' \
    "$tree/plan"
that 'every ration is held to its limit' jq -e \
    '[.groups[].periods[].nutrients | map(select(.nutrient == "boron_most"))
      | length == 1 and .[0].supplied <= .[0].most] | length > 0 and all' "$tree/plan"
that 'the page of needs names it' sh -c \
    "'$more' needs '$herd' '$farm' >'$tree/page' &&
     grep -q 'Boron 5.0 ppm' '$tree/page' && grep -qiE 'boron.*7 ppm' '$tree/page'"

echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
