#!/bin/sh
# Writers of the record killed at any moment, and many at once: run_writers.sh PROGRAM
# After each kill fed.csv is what it was, or has one whole row more; of writers at once every row
# is there, each with a number of its own.
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

says() {
    if [ "$1" = yes ]; then
        echo "ok      $2"
        passed=$((passed + 1))
    else
        echo "FAILED  $2"
        failed=$((failed + 1))
    fi
}

# fed DATE STACK AMOUNT-OPTION AMOUNT NOTE
fed() {
    "$program" fed herd.csv yard --date "$1" --group "Main cows" --stack "$2" "$3" "$4" \
        --note "$5" >/dev/null 2>"$work/told"
}

rows() { grep -c '^2026' yard/fed.csv; }

# ---- killed at any moment ----
begun=$(date +%s%N)
fed 2026-11-01 "Pit - early mix chop" --weight 1700kg first || cat "$work/told"
takes=$((($(date +%s%N) - begun) / 1000)) # millionths of a second
kills=${KILLS:-150}
cut=0
wrote=0
is_right=yes
for try in $(seq 1 "$kills"); do
    cp yard/fed.csv old.csv
    "$program" fed herd.csv yard --date 2026-11-02 --group "Main cows" \
        --stack "Pit - early mix chop" --weight 1700kg --note "try $try" >/dev/null 2>&1 &
    pid=$!
    # from nothing to twice as long as it took
    sleep "$(printf '%d.%06d' $((takes * (try % 25) / 12000000)) $((takes * (try % 25) / 12 % 1000000)))"
    kill -9 "$pid" 2>/dev/null
    wait "$pid" 2>/dev/null
    if cmp -s old.csv yard/fed.csv; then
        cut=$((cut + 1))
        continue
    fi
    wrote=$((wrote + 1))
    size=$(wc -c <old.csv)
    head -c "$size" yard/fed.csv | cmp -s - old.csv || is_right=no
    more=$(tail -c +$((size + 1)) yard/fed.csv)
    case $more in
    "2026-11-02,Main cows,Pit - early mix chop,1700,kg,try $try,"*) ;;
    *)
        echo "after try $try: '$more'"
        is_right=no
        ;;
    esac
    [ "$(tail -c +$((size + 1)) yard/fed.csv | wc -l)" -eq 1 ] || is_right=no
done
says "$is_right" "killed $kills times: $cut left the old file, $wrote the new one"
if [ "$cut" -gt 0 ] && [ "$wrote" -gt 0 ]; then both=yes; else both=no; fi
says "$both" "kills fell before and after the writing"
fed 2026-11-03 "Pit - early mix chop" --weight 1700kg after || cat "$work/told"
left=$(find yard -name '*.new-*' | wc -l)
if [ "$left" -eq 0 ]; then swept=yes; else swept=no; fi
says "$swept" "the next writer takes away what the killed ones left beside"

# ---- many at once ----
before=$(rows)
for writer in 1 2 3 4 5 6 7 8 9 10; do
    (
        for turn in 1 2 3 4; do
            "$program" fed herd.csv yard --date 2026-11-04 --group "Thin cows" \
                --stack "Pit - early mix chop" --weight 300kg --note "writer $writer turn $turn" \
                >/dev/null 2>&1 || echo "writer $writer turn $turn failed" >>"$work/failures"
        done
    ) &
done
wait
[ ! -f "$work/failures" ] || cat "$work/failures"
if [ "$(rows)" -eq $((before + 40)) ]; then all=yes; else all=no; fi
says "$all" "ten writers at once lose nothing: $(rows) rows of $((before + 40))"
numbers=$(awk -F, '/^2026/ { print $7 }' yard/fed.csv | sort -n | uniq | wc -l)
if [ "$numbers" -eq "$(rows)" ]; then own=yes; else own=no; fi
says "$own" "each row has a number of its own"
turns=$(grep -o 'writer [0-9]* turn [0-9]*' yard/fed.csv | sort -u | wc -l)
if [ "$turns" -eq 40 ]; then each=yes; else each=no; fi
says "$each" "each entry is there once"

echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
