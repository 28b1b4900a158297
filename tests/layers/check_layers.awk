# Who may include whom, and what may be called below entry. Set LAYERS and ROOT (ends with "/").
# Reads the .c, .h and .def files of src/; comments and the text of strings do not count.

function complain(what) {
    printf "%s:%d: %s\n", file, FNR, what
    bad = 1
}

# The line without comments and with strings emptied, except in #include lines.
function code_of(line,    code, character, pair) {
    code = ""
    while (line != "") {
        character = substr(line, 1, 1)
        pair = substr(line, 1, 2)
        if (in_comment) {
            if (pair == "*/") {
                in_comment = 0
                line = substr(line, 3)
                code = code " "
            } else {
                line = substr(line, 2)
            }
        } else if (pair == "/*") {
            in_comment = 1
            line = substr(line, 3)
        } else if (pair == "//") {
            break
        } else if (match(line, /^"([^"\\]|\\.)*"/)) {
            code = code (code ~ /^[ \t]*#[ \t]*include[ \t]*$/ ? substr(line, 1, RLENGTH) : "\"\"")
            line = substr(line, RLENGTH + 1)
        } else if (match(line, /^'([^'\\]|\\.)+'/)) {
            code = code "''"
            line = substr(line, RLENGTH + 1)
        } else {
            code = code character
            line = substr(line, 2)
        }
    }
    return code
}

function check_project_include(path,    target) {
    target = path
    if (!sub(/\/.*/, "", target) || !(target in rank)) {
        complain("\"" path "\" is not of a layer: write \"layer/file.h\"")
    } else if (rank[target] > rank[layer]) {
        complain(layer " may not include " path ", which is above it")
    } else if (layer == "stock" && target == "cattle") {
        complain("stock may not include " path ": waste is a property of the stack")
    } else if (layer == "present" && target != "base" && target != "present" &&
               path != "outcome/report.h" && path != "outcome/figure.h") {
        complain("present may not include " path ": presenters compute nothing")
    }
}

function check_system_include(path) {
    if (path == "csv.h" && name != "base/table.c")
        complain("only base/table.c includes <csv.h>")
    if (path == "glpk.h" && name != "planner/linear_program.c")
        complain("only planner/linear_program.c includes <glpk.h>")
    if (layer != "entry" && (path in outside_header))
        complain("<" path "> belongs to entry: below it everything is a function of its arguments")
}

# Names called, or used as a type, that reach outside of the program.
function check_names(code,    rest, word, before, after, start) {
    rest = code
    before = ""
    while (match(rest, /[A-Za-z_][A-Za-z_0-9]*/)) {
        start = RSTART
        word = substr(rest, RSTART, RLENGTH)
        if (start > 1)
            before = substr(rest, 1, start - 1)
        rest = substr(rest, RSTART + RLENGTH)
        after = rest
        if ((word in outside_name) ||
            ((word in outside_call) && after ~ /^[ \t]*\(/ && before !~ /(\.|->)[ \t]*$/))
            complain(word " below entry: no files, clock, locale, environment or chance there")
        before = ""
    }
    if (code ~ /^[ \t]*static[ \t]/ && code !~ /\(/ && code ~ /[;=]/ &&
        code !~ /(^|[ \t])const[ \t*]/ && code !~ /_Thread_local/)
        complain("a static that can change: everything is a function of its arguments")
}

function list_into(set, text,    words, count, i) {
    count = split(text, words, " ")
    for (i = 1; i <= count; i++)
        set[words[i]] = i
}

BEGIN {
    list_into(rank, LAYERS)
    list_into(outside_header, "time.h sys/time.h locale.h unistd.h fcntl.h sys/stat.h dirent.h")
    list_into(outside_name, "FILE stdin stdout stderr environ")
    list_into(outside_call, "printf fprintf vprintf vfprintf dprintf vdprintf sprintf vsprintf " \
        "puts fputs putchar putc fputc fopen freopen fdopen fmemopen open_memstream tmpfile " \
        "fclose fflush fread fwrite fgets gets getc getchar fgetc getline scanf fscanf sscanf " \
        "perror remove rename open read write time clock clock_gettime gettimeofday localtime " \
        "localtime_r gmtime gmtime_r mktime strftime getenv secure_getenv setenv putenv " \
        "setlocale newlocale uselocale localeconv rand srand rand_r random srandom drand48 system popen")
}

FNR == 1 {
    file = FILENAME
    name = substr(file, length(ROOT "src/") + 1)
    layer = name
    sub(/\/.*/, "", layer)
    in_comment = 0
    if (!(layer in rank))
        complain("src/" layer " is not a layer: " LAYERS)
}

{
    code = code_of($0)
    if (code ~ /^[ \t]*#[ \t]*include/) {
        target = code
        sub(/^[ \t]*#[ \t]*include[ \t]*/, "", target)
        if (target ~ /^"/) {
            gsub(/"|[ \t]+$/, "", target)
            check_project_include(target)
        } else {
            gsub(/[<>]|[ \t]+$/, "", target)
            check_system_include(target)
        }
    } else if (layer != "entry") {
        check_names(code)
    }
}

END { exit bad }
