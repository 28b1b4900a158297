#!/bin/sh
# Opens the pages of every sample herd in a browser: run_browser.sh PROGRAM WRITE_CHARTS WORK
# WORK is a folder under build/; the page's own checker is fetched into it once.
set -eu

program=$1
write_charts=$2
work=$3
axe_core=4.14.1

root=$(cd "${0%/*}/../.." && pwd)
cd "$root"
mkdir -p "$work/pages" "$work/seen"

checker=$work/node_modules/axe-core/axe.min.js
if ! grep -q "\"version\": \"$axe_core\"" "$work/node_modules/axe-core/package.json" 2>/dev/null; then
    npm install --prefix "$work" --no-save --no-audit --no-fund --silent "axe-core@$axe_core"
fi

pages_of() { # NAME ARGUMENTS ...: report and sheets as NAME-report.html and NAME-sheets.html
    name=$1
    shift
    rm -rf "$work/pages/$name"
    "$program" plan "$@" --out "$work/pages/$name" || [ $? -eq 3 ]
    cp "$work/pages/$name/report.html" "$work/pages/$name-report.html"
    cp "$work/pages/$name/feed-sheets.html" "$work/pages/$name-sheets.html"
}

for herd in herds/*.csv; do
    name=${herd##*/}
    pages_of "${name%.csv}" "$herd" sample-inventory
done
pages_of short tests/golden/plan-short/farm/herd.csv tests/golden/plan-short/farm --units mixed
"$program" plan herds/main-herd.csv sample-inventory --brief --out "$work/pages/brief.html"
for command in feeds needs cut worth; do
    "$program" "$command" herds/main-herd.csv sample-inventory \
        --out "$work/pages/$command.html" || [ $? -eq 3 ]
done
"$program" stock herds/main-herd.csv sample-inventory --from 2026-12-01 \
    --out "$work/pages/stock.html" || [ $? -eq 3 ]
"$program" compare herds/small-herd.csv sample-inventory sample-inventory/what-ifs/buy-barley.csv \
    --vary 'for-sale.csv,Feed barley - Wheatland Siding,price_per_tonne,180,340' \
    --out "$work/pages/compare.html"
"$write_charts" >"$work/pages/charts.html"

browser=$(command -v chromium)
check="tests/browser/check_pages.js"
node "$check" --sound "$browser" "$checker" "$work/seen"
node "$check" "$browser" "$checker" "$work/seen" "$work"/pages/*.html
