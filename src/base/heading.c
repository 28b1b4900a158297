#include "base/heading.h"

#include "base/heading_alias.h"
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

static bool match_exactly(const char *plain, const SheetColumn *columns, int count, int *column,
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

bool heading_match(Arena *arena, const char *plain, const SheetColumn *columns, int count,
                   int *column, const UnitForm **form) {
    if (match_exactly(plain, columns, count, column, form))
        return true;
    HeadingAlias aliases[HEADING_ALIASES_MOST];
    const int alias_count = heading_aliases(arena, plain, aliases);
    for (int i = 0; i < alias_count; i++) {
        if (aliases[i].is_same &&
            match_exactly(aliases[i].heading, columns, count, column, form))
            return true;
    }
    return false;
}

/* ---- what to write instead ---- */

static bool form_begins(const UnitForm *form, const char *rest, size_t length) {
    return strncmp(form->suffix, rest, length) == 0 &&
           (form->suffix[length] == '_' || form->suffix[length] == '\0');
}

/* How much of what follows the stem begins one of its units: all of "_n" in nitrate_n, two
 * letters of "_n_mg_per_kg", nothing of "_pct". */
static size_t known_part(const SheetColumn *column, const char *rest) {
    int count;
    const UnitForm *const forms = unit_forms(column->family, &count);
    for (size_t length = strlen(rest); length > 0; length--) {
        if (rest[length] != '_' && rest[length] != '\0')
            continue;
        for (int i = 0; i < count; i++) {
            if (form_begins(&forms[i], rest, length))
                return length;
        }
    }
    return 0;
}

/* The headings of a column whose unit begins so; all of them when nothing is known of it. */
static const char *names_beginning(Arena *arena, const SheetColumn *column, const char *rest,
                                   size_t length) {
    Text names = text_new(arena);
    int count, fitting = 0, named = 0;
    const UnitForm *const forms = unit_forms(column->family, &count);
    for (int i = 0; i < count; i++)
        fitting += form_begins(&forms[i], rest, length);
    for (int i = 0; i < count; i++) {
        if (!form_begins(&forms[i], rest, length))
            continue;
        text_print(&names, "%s%s%s",
                   named == 0             ? ""
                   : named == fitting - 1 ? " or "
                                          : ", ",
                   column->stem, forms[i].suffix);
        named++;
    }
    return names.bytes;
}

const char *heading_names(Arena *arena, const SheetColumn *column) {
    return names_beginning(arena, column, "", 0);
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

const char *heading_list(Arena *arena, const SheetColumn *columns, int count) {
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

/* A heading that begins with the stem of a column, but has no unit or another. */
static const char *unit_cure(Arena *arena, const char *shown, const char *plain,
                             const SheetColumn *column) {
    const char *const rest = after_stem(plain, column);
    const size_t known = known_part(column, rest);
    const char *const names = names_beginning(arena, column, rest, known);
    if (column->family == UNIT_NITRATE_ION && known == 0)
        return arena_print(arena, "'%s' has to say as what the nitrate was reported: %s", shown,
                           names);
    if (rest[known] == '\0')
        return arena_print(arena, "'%s' needs its unit: %s", shown, names);
    return arena_print(arena, "'%s' has a unit that is not read here: write %s", shown, names);
}

/* NULL when no other word of a column begins it. */
static const char *alias_cure(Arena *arena, const char *shown, const char *plain,
                              const SheetColumn *columns, int count, bool *is_meant) {
    HeadingAlias aliases[HEADING_ALIASES_MOST];
    const int alias_count = heading_aliases(arena, plain, aliases);
    Text names = text_new(arena);
    for (int i = 0; i < alias_count; i++) {
        const char *name = aliases[i].heading;
        int column;
        const UnitForm *form;
        if (!match_exactly(name, columns, count, &column, &form)) {
            const SheetColumn *const of = column_of_stem(name, columns, count);
            if (!of)
                continue;
            const char *const rest = after_stem(name, of);
            column = (int)(of - columns);
            name = names_beginning(arena, of, rest, known_part(of, rest));
        }
        is_meant[column] = true;
        text_print(&names, "%s%s", names.length > 0 ? " or " : "", name);
    }
    if (names.length == 0)
        return NULL;
    return arena_print(arena, "'%s' is not a heading of this file: write %s", shown,
                       names.bytes);
}

/* NULL when none is near. */
static const char *nearest_cure(Arena *arena, const char *shown, const char *plain,
                                const SheetColumn *columns, int count, bool *is_meant) {
    int total = 0, filled = 0, form_count, column = 0;
    for (int i = 0; i < count; i++) {
        unit_forms(columns[i].family, &form_count);
        total += form_count;
    }
    const char **names = ARENA_ARRAY(arena, const char *, total);
    int *columns_of = ARENA_ARRAY(arena, int, total);
    for (int i = 0; i < count; i++) {
        const UnitForm *const forms = unit_forms(columns[i].family, &form_count);
        for (int k = 0; k < form_count; k++) {
            columns_of[filled] = i;
            names[filled++] = arena_print(arena, "%s%s", columns[i].stem, forms[k].suffix);
        }
    }
    const char *nearest = text_nearest(plain, names, filled);
    if (!nearest)
        return NULL;
    for (int i = 0; i < filled; i++) {
        if (names[i] == nearest)
            column = columns_of[i];
    }
    is_meant[column] = true;
    /* The nearest spelling must not decide between nitrate and nitrate nitrogen. */
    if (columns[column].family == UNIT_NITRATE_ION)
        return arena_print(arena, "'%s' is not a heading of this file; if nitrate is meant: %s",
                           shown, heading_names(arena, &columns[column]));
    return arena_print(arena, "'%s' is not a heading of this file; did you mean '%s'?", shown,
                       nearest);
}

const char *heading_cure(Arena *arena, const char *written, const SheetColumn *columns,
                         int count, bool *is_meant) {
    const char *const shown = text_excerpt(arena, written);
    const char *const plain = heading_plain(arena, written);
    const SheetColumn *const column = column_of_stem(plain, columns, count);
    if (column)
        is_meant[column - columns] = true;
    if (column && (column->family == UNIT_NITRATE_ION || text_same(plain, column->stem)))
        return unit_cure(arena, shown, plain, column);
    const char *cure = alias_cure(arena, shown, plain, columns, count, is_meant);
    if (!cure)
        cure = nearest_cure(arena, shown, plain, columns, count, is_meant);
    return cure || !column ? cure : unit_cure(arena, shown, plain, column);
}
