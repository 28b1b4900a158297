#!/bin/sh
# The first screen of the sample farm's report as a picture: make_picture.sh PROGRAM WORK PNG
set -eu

program=$1
work=$2
picture=$3

root=$(cd "${0%/*}/../.." && pwd)
cd "$root"
mkdir -p "$work"
page=$work/picture.html
"$program" plan herds/main-herd.csv sample-inventory --format html --out "$page"
chromium --headless --no-sandbox --disable-gpu --hide-scrollbars --window-size=1040,760 \
    --screenshot="$picture" "file://$root/$page" >/dev/null 2>&1
echo "wrote $picture"
