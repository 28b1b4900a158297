# Turns files into the C file that carries them in the program (src/entry/embedded.h).
# Usage: awk -f embed.awk FILE ...   (no FILE at all is allowed)
# One string literal a line, so that a change of one row is a change of one line.

function begin_file(path) {
    name[++count] = path
    sub(/^.*\//, "", name[count])
    printf "static const char bytes_%d[] = /* %s */\n    \"\"", count, path
}

BEGIN {
    print "/* Made by make from models/coefficients/. */"
    print "#include \"entry/embedded.h\""
    print "#include <string.h>\n"
    for (i = 1; i < ARGC; i++) {
        begin_file(ARGV[i])
        while ((status = (getline line < ARGV[i])) > 0) {
            gsub(/\\/, "&&", line)
            gsub(/"/, "\\\"", line)
            gsub(/\?/, "\\?", line) # no trigraphs
            gsub(/\r/, "\\r", line)
            gsub(/\t/, "\\t", line)
            printf "\n    \"%s\\n\"", line
        }
        if (status < 0) {
            print "embed.awk: cannot read " ARGV[i] > "/dev/stderr"
            exit 1
        }
        close(ARGV[i])
        print ";\n"
    }
    print "static const EmbeddedFile FILES[] = {"
    for (i = 1; i <= count; i++)
        printf "    {\"%s\", bytes_%d, sizeof bytes_%d - 1},\n", name[i], i, i
    print "    {NULL, NULL, 0},\n};\n"
    print "const EmbeddedFile *embedded_all(int *count)\n{"
    printf "    *count = %d;\n    return FILES;\n}\n\n", count
    print "const EmbeddedFile *embedded_find(const char *name)\n{"
    print "    for (const EmbeddedFile *file = FILES; file->name != NULL; file++) {"
    print "        if (strcmp(file->name, name) == 0)\n            return file;\n    }"
    print "    return NULL;\n}"
    exit 0
}
