# Writes docs/references.md from source.def: awk -f references.awk src/base/source.def

# The text of all string literals of a row, joined.
function strings_of(row,    text, piece) {
    text = ""
    while (match(row, /"([^"\\]|\\.)*"/)) {
        piece = substr(row, RSTART + 1, RLENGTH - 2)
        row = substr(row, RSTART + RLENGTH)
        gsub(/\\"/, "\"", piece)
        gsub(/\\\\/, "\\", piece)
        text = text piece
    }
    return text
}

function end_row(    head, parts) {
    if (row == "")
        return
    head = row
    sub(/".*/, "", head)
    gsub(/SOURCE\(|[ \t]/, "", head)
    split(head, parts, ",")
    count[parts[2]]++
    entry[parts[2], count[parts[2]]] = "- **" parts[1] "**: " strings_of(row)
    row = ""
}

function section(how, heading, what,    i, j, swap) {
    if (!count[how])
        return
    print "\n## " heading "\n\n" what "\n"
    for (i = 2; i <= count[how]; i++) # by key
        for (j = i; j > 1 && entry[how, j] < entry[how, j - 1]; j--) {
            swap = entry[how, j]
            entry[how, j] = entry[how, j - 1]
            entry[how, j - 1] = swap
        }
    for (i = 1; i <= count[how]; i++)
        print entry[how, i]
}

/^SOURCE\(/ { end_row(); row = $0; next }
row != "" && /^[ \t]*"/ { row = row $0; next }
{ end_row() }

END {
    end_row()
    print "# References\n"
    print "The publications this project takes numbers from, by the key they are cited with. This page"
    print "is made from `src/base/source.def` by `make references`."
    section("PAGE", "Read on a published page", \
        "The numbers taken from these were read on the page named.")
    section("MEMORY", "Named from memory", \
        "The page was not seen: numbers from these want checking against the publication.")
    section("PRACTICE", "Common practice", "Widely done, with no publication behind it.")
    section("CHOICE", "This project's own choice", "The reason stands beside each.")
}
