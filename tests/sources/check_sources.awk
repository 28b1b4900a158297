# Every publication cited is a row of source.def, and every row of source.def is cited.
# Give source.def first, then src/ files, pages (.md) and tables (.csv), in any order.
#
# A citation is [KEY ...] in a comment or a page; a leading KEY ... of a `source` cell of a table;
# or KEY or SOURCE_KEY in code, which the compiler has checked already. A key has at least three
# of A-Z 0-9 _. In brackets, further keys come after a comma or semicolon.

function complain(what) {
    printf "%s:%d: %s\n", FILENAME, FNR, what
    bad = 1
}

function is_key(word) {
    return word ~ /^[A-Z][A-Z0-9_]+$/ && length(word) >= 3
}

function cite(word) {
    if (word in listed)
        cited[word] = 1
    else
        complain("[" word "] is not in source.def")
}

# Brackets after an identifier are an index, not a citation: limit[NUTRIENT_NEM].
function cite_brackets(text,    inside, pieces, count, i, word, before) {
    while ((i = index(text, "[")) > 0) {
        before = substr(text, i - 1, i > 1)
        text = substr(text, i + 1)
        inside = text
        sub(/\].*/, "", inside)
        if (before ~ /[A-Za-z0-9_)\]]/)
            continue
        count = split(inside, pieces, /[;,] */)
        for (i = 1; i <= count; i++) {
            word = pieces[i]
            sub(/[^A-Za-z0-9_].*/, "", word)
            if (!is_key(word) || word ~ /_COUNT$/)
                continue
            if (i == 1 || word ~ /_/ || (word in listed))
                cite(word)
        }
    }
}

function cite_code(code,    word) {
    while (match(code, /[A-Za-z_][A-Za-z0-9_]*/)) {
        word = substr(code, RSTART, RLENGTH)
        code = substr(code, RSTART + RLENGTH)
        sub(/^SOURCE_/, "", word)
        if (word in listed)
            cited[word] = 1
    }
}

# Splits a line of C into comment and code; strings belong to neither.
function read_c(line,    character, pair) {
    comment = ""
    code = ""
    while (line != "") {
        character = substr(line, 1, 1)
        pair = substr(line, 1, 2)
        if (in_comment && pair == "*/") {
            in_comment = 0
            line = substr(line, 3)
        } else if (in_comment) {
            comment = comment character
            line = substr(line, 2)
        } else if (pair == "/*") {
            in_comment = 1
            line = substr(line, 3)
            comment = comment " "
        } else if (pair == "//") {
            comment = comment " " substr(line, 3)
            line = ""
        } else if (match(line, /^"([^"\\]|\\.)*"/) || match(line, /^'([^'\\]|\\.)+'/)) {
            line = substr(line, RLENGTH + 1)
        } else {
            code = code character
            line = substr(line, 2)
        }
    }
}

# cells[1..n] of a line of comma separated text.
function split_cells(line,    count, cell) {
    sub(/\r$/, "", line)
    count = 0
    do {
        if (match(line, /^"([^"]|"")*"/)) {
            cell = substr(line, 2, RLENGTH - 2)
            gsub(/""/, "\"", cell)
        } else {
            match(line, /^[^,]*/)
            cell = substr(line, 1, RLENGTH)
        }
        line = substr(line, RLENGTH + 1)
        cells[++count] = cell
    } while (sub(/^,/, "", line))
    return count
}

function read_table(line,    count, i, words, word_count, word, found) {
    if (line ~ /^[ \t\r]*$/ || line ~ /^[ \t]*#/)
        return
    count = split_cells(line)
    if (!has_heading) {
        has_heading = 1
        source_column = 0
        for (i = 1; i <= count; i++)
            if (cells[i] == "source")
                source_column = i
        if (!source_column)
            complain("a table without a source column")
        return
    }
    if (!source_column)
        return
    word_count = source_column > count ? 0 : split(cells[source_column], words, /[ \t,;|]+/)
    found = 0
    for (i = 1; i <= word_count; i++) {
        word = words[i]
        gsub(/[\[\]]/, "", word)
        if (word == "" && i == 1)
            continue
        if (!is_key(word))
            break
        cite(word)
        found = 1
    }
    if (!found)
        complain("a row without a source")
}

FNR == 1 {
    in_comment = 0
    has_heading = 0
    kind = FILENAME
    sub(/.*\./, "", kind)
    is_list = FILENAME ~ /source\.def$/
}

is_list {
    if (match($0, /^SOURCE\([ \t]*[A-Za-z0-9_]+/)) {
        word = substr($0, RSTART + 7, RLENGTH - 7)
        gsub(/[ \t]/, "", word)
        if (!is_key(word))
            complain(word " is not a key: capitals, digits and underscores, at least three")
        if (word in listed)
            complain(word " is there twice")
        listed[word] = FNR
        list_file = FILENAME
    }
    next
}

kind == "csv" { read_table($0); next }
kind == "md" { cite_brackets($0); next }

{
    read_c($0)
    cite_brackets(comment)
    cite_code(code)
}

END {
    for (word in listed)
        if (!(word in cited)) {
            printf "%s:%d: %s is cited nowhere\n", list_file, listed[word], word
            bad = 1
        }
    exit bad
}
