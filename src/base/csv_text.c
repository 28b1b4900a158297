#include "base/csv_text.h"
#include <string.h>

void csv_cell_add(Text *out, const char *cell, char separator) {
    const bool needs_quotes =
        cell[0] != '\0' && (strchr(cell, separator) || strpbrk(cell, "\"\r\n") ||
                            cell[0] == '#' || cell[0] == ' ');
    if (!needs_quotes) {
        text_add(out, cell);
        return;
    }
    csv_quoted_add(out, cell);
}

void csv_quoted_add(Text *out, const char *cell) {
    text_add(out, "\"");
    for (const char *byte = cell; *byte; byte++)
        text_add_bytes(out, *byte == '"' ? "\"\"" : byte, *byte == '"' ? 2 : 1);
    text_add(out, "\"");
}
