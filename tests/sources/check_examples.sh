#!/bin/sh
# check_examples.sh ROOT: every page of docs/equations but disagreements.md has a worked example
# that names, in backquotes after "(case" or "(test", the published case or the test that runs it.
set -eu

cd "$1"
pages=$(find docs/equations -name '*.md' ! -name disagreements.md | LC_ALL=C sort)
failed=0

complain() {
    echo "check-examples: $1" >&2
    failed=1
}

# The brackets after "Worked example", one name a line after its kind: "case milk in march".
names_of() {
    tr '\n' ' ' <"$1" | sed -n 's/.*\*\*Worked example\*\* (\([^)]*\)).*/\1/p' |
        sed 's/^\(case\|test\)s* */\1`/' |
        awk -F '`' '{ for (i = 3; i <= NF; i += 2) print $1, $i }'
}

for page in $pages; do
    names=$(names_of "$page")
    [ -n "$names" ] || complain "$page: no worked example that names its case or test"
    while read -r kind name; do
        case $kind in
        case) grep -hq "^$name," tests/published/*.csv ||
            complain "$page: no published case is named '$name'" ;;
        test) grep -rq "^static void $(echo "$name" | tr ' ' '_')(" tests/unit ||
            complain "$page: no test is named '$name'" ;;
        esac
    done <<EOF
$names
EOF
done
exit $failed
