#include "base/heading.h"

#include "base/text.h"
#include <string.h>

static bool is_word_letter(char letter) {
    return (letter >= 'a' && letter <= 'z') || (letter >= '0' && letter <= '9') ||
           (unsigned char)letter >= 0x80;
}

/* Signs that carry a meaning in a heading, and what they are in words. */
static const struct {
    const char *sign, *words;
} SIGNS[] = {
    {"%", "_pct_"},        {"/", "_per_"}, {"\xC2\xB0", "_"}, /* degree sign */
    {"\xC2\xA0", "_"},                                        /* no-break space */
    {"\xC2\xB3", "3"},                                        /* superscript three */
    {"\xE2\x82\x83", "3"},                                    /* subscript three, as in NO3 */
};

static const char *with_signs_in_words(Arena *arena, const char *written) {
    Text text = text_new(arena);
    for (const char *byte = written; *byte;) {
        size_t sign = 0, length = 0;
        for (; sign < sizeof SIGNS / sizeof SIGNS[0]; sign++) {
            length = strlen(SIGNS[sign].sign);
            if (strncmp(byte, SIGNS[sign].sign, length) == 0)
                break;
        }
        if (sign < sizeof SIGNS / sizeof SIGNS[0]) {
            text_add(&text, SIGNS[sign].words);
            byte += length;
        } else {
            text_add_bytes(&text, byte++, 1);
        }
    }
    return text.bytes;
}

const char *heading_plain(Arena *arena, const char *written) {
    Text text = text_new(arena);
    bool is_between_words = false;
    for (const char *byte = with_signs_in_words(arena, written); *byte; byte++) {
        const char letter = *byte >= 'A' && *byte <= 'Z' ? (char)(*byte - 'A' + 'a') : *byte;
        if (is_word_letter(letter)) {
            if (is_between_words && text.length > 0)
                text_add(&text, "_");
            text_add_bytes(&text, &letter, 1);
        }
        is_between_words = !is_word_letter(letter);
    }
    return text.bytes;
}

bool heading_is_own(const char *plain) { return plain[0] == 'x' && plain[1] == '_'; }

/* What follows the stem, or NULL when the heading does not begin with it. */
static const char *after_stem(const char *plain, const SheetColumn *column) {
    const size_t length = strlen(column->stem);
    return strncmp(plain, column->stem, length) == 0 ? plain + length : NULL;
}

bool heading_match(const char *plain, const SheetColumn *columns, int count, int *column,
                   const UnitForm **form) {
    for (int i = 0; i < count; i++) {
        const char *const rest = after_stem(plain, &columns[i]);
        if (!rest)
            continue;
        int form_count;
        const UnitForm *const forms = unit_forms(columns[i].family, &form_count);
        for (int k = 0; k < form_count; k++) {
            if (!text_same(rest, forms[k].suffix))
                continue;
            *column = i;
            *form = &forms[k];
            return true;
        }
    }
    return false;
}

const char *heading_names(Arena *arena, const SheetColumn *column) {
    Text names = text_new(arena);
    int count;
    const UnitForm *const forms = unit_forms(column->family, &count);
    for (int i = 0; i < count; i++) {
        text_print(&names, "%s%s%s",
                   i == 0           ? ""
                   : i == count - 1 ? " or "
                                    : ", ",
                   column->stem, forms[i].suffix);
    }
    return names.bytes;
}

/* The column whose stem the heading begins with, the longest if there are several. */
static const SheetColumn *column_of_stem(const char *plain, const SheetColumn *columns,
                                         int count) {
    const SheetColumn *best = NULL;
    for (int i = 0; i < count; i++) {
        const char *const rest = after_stem(plain, &columns[i]);
        if (!rest || columns[i].family == UNIT_PLAIN)
            continue;
        if (*rest != '\0' && *rest != '_')
            continue;
        if (!best || strlen(columns[i].stem) > strlen(best->stem))
            best = &columns[i];
    }
    return best;
}

static const char *nearest_heading(Arena *arena, const char *plain, const SheetColumn *columns,
                                   int count) {
    int total = 0, filled = 0, form_count;
    for (int i = 0; i < count; i++) {
        unit_forms(columns[i].family, &form_count);
        total += form_count;
    }
    const char **names = ARENA_ARRAY(arena, const char *, total);
    for (int i = 0; i < count; i++) {
        const UnitForm *const forms = unit_forms(columns[i].family, &form_count);
        for (int k = 0; k < form_count; k++) {
            names[filled++] = arena_print(arena, "%s%s", columns[i].stem, forms[k].suffix);
        }
    }
    return text_nearest(plain, names, filled);
}

/* Every heading of the file; of several units the first, the others as endings: weight_kg/_lb.
 */
static const char *all_headings(Arena *arena, const SheetColumn *columns, int count) {
    Text all = text_new(arena);
    for (int i = 0; i < count; i++) {
        int form_count;
        const UnitForm *const forms = unit_forms(columns[i].family, &form_count);
        text_print(&all, "%s%s", i == 0 ? "" : ", ", columns[i].stem);
        for (int k = 0; k < form_count; k++) {
            text_print(&all, "%s%s", k == 0 ? "" : "/", forms[k].suffix);
        }
    }
    return all.bytes;
}

const char *heading_cure(Arena *arena, const char *written, const SheetColumn *columns,
                         int count) {
    const char *const shown = text_excerpt(arena, written);
    const char *const plain = heading_plain(arena, written);
    const SheetColumn *const column = column_of_stem(plain, columns, count);
    /* The nearest spelling must not decide between nitrate and nitrate nitrogen. */
    if (column && column->family == UNIT_NITRATE_ION) {
        return arena_print(arena, "'%s' has to say as what the nitrate was reported: %s", shown,
                           heading_names(arena, column));
    }
    if (column && text_same(plain, column->stem)) {
        return arena_print(arena, "'%s' needs its unit: %s", shown,
                           heading_names(arena, column));
    }
    const char *const nearest = nearest_heading(arena, plain, columns, count);
    if (nearest) {
        return arena_print(arena, "'%s' is not a heading of this file; did you mean '%s'?",
                           shown, nearest);
    }
    if (column) {
        return arena_print(arena, "'%s' has a unit that is not read here: write %s", shown,
                           heading_names(arena, column));
    }
    return arena_print(arena,
                       "'%s' is not a heading of this file (a column of your own begins with "
                       "x_); the headings are: %s",
                       shown, all_headings(arena, columns, count));
}
