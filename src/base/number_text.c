#include "base/number_text.h"

#include "base/text.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

#define NUMBER_MOST_BYTES 64

static const char *skip_digits(const char *byte) {
    while (*byte >= '0' && *byte <= '9')
        byte++;
    return byte;
}

static const char *skip_sign(const char *byte) {
    return *byte == '-' || *byte == '+' ? byte + 1 : byte;
}

/* Behind the longest number at the start; the start itself when there is none. */
static const char *number_end(const char *text) {
    const char *const whole = skip_sign(text);
    const char *end = skip_digits(whole);
    ptrdiff_t digits = end - whole;
    if (*end == '.') {
        const char *const fraction = end + 1;
        end = skip_digits(fraction);
        digits += end - fraction;
    }
    if (digits == 0)
        return text;
    if (*end != 'e' && *end != 'E')
        return end;
    const char *const exponent = skip_sign(end + 1);
    const char *const exponent_end = skip_digits(exponent);
    return exponent_end > exponent ? exponent_end : end;
}

bool number_read(const char *text, bool comma_is_point, double *value) {
    char bytes[NUMBER_MOST_BYTES] = "";
    const size_t length = strlen(text);
    if (length == 0 || length >= sizeof bytes)
        return false;
    memcpy(bytes, text, length);
    char *const comma = comma_is_point && !strchr(bytes, '.') ? strchr(bytes, ',') : NULL;
    if (comma)
        *comma = '.';
    /* strtod alone would take 0x1p3, inf, nan and leading blanks as well */
    if (number_end(bytes) != bytes + length)
        return false;
    const double read = strtod(bytes, NULL);
    if (!isfinite(read))
        return false;
    *value = read;
    return true;
}

static bool means_unknown(const char *text) {
    static const char *const WORDS[] = {"n/a",  "#n/a",    "na",  "nd",
                                        "n.d.", "-",       "--",  "?",
                                        "none", "unknown", "nil", "\xE2\x80\x93"};
    for (size_t i = 0; i < sizeof WORDS / sizeof WORDS[0]; i++) {
        if (text_same_letters(text, WORDS[i]))
            return true;
    }
    return false;
}

/* Marks people set in numbers, in the order in which they are named. */
static const struct {
    const char *mark, *reason;
} MARKS[] = {
    {"$", "has a $ sign: leave it out and"},
    {"%", "has a % sign: leave it out and"},
    {" ", "has a blank in it:"},
    {"\xC2\xA0", "has a blank in it:"},
    {"\xE2\x80\xAF", "has a blank in it:"}, /* narrow no-break space */
    {"'", "has an apostrophe in it:"},
    {",", "has a comma in it:"},
};
#define MARK_COUNT (sizeof MARKS / sizeof MARKS[0])

/* "1.250,5": a comma behind the last point is the decimal one. */
static bool points_part_thousands(const char *text) {
    const char *const point = strrchr(text, '.'), *const comma = strrchr(text, ',');
    return point && comma && comma > point;
}

/* "1,250": three digits and no more behind each comma. */
static bool commas_part_thousands(const char *text) {
    for (const char *comma = strchr(text, ','); comma; comma = strchr(comma + 1, ',')) {
        if (skip_digits(comma + 1) - comma != 4)
            return false;
    }
    return true;
}

static size_t mark_at(const char *byte) {
    size_t mark = 0;
    while (mark < MARK_COUNT && strncmp(byte, MARKS[mark].mark, strlen(MARKS[mark].mark)) != 0)
        mark++;
    return mark;
}

/* The text without its marks; *reason is NULL when it has none. */
static const char *without_marks(Arena *arena, const char *text, const char **reason) {
    Text bare = text_new(arena);
    const bool drop_points = points_part_thousands(text);
    const bool drop_commas = !drop_points && commas_part_thousands(text);
    size_t first = MARK_COUNT;
    for (const char *byte = text; *byte;) {
        const size_t mark = mark_at(byte);
        if (mark < first)
            first = mark;
        if (*byte == ',' && !drop_commas)
            text_add(&bare, ".");
        if (mark == MARK_COUNT && !(*byte == '.' && drop_points))
            text_add_bytes(&bare, byte, 1);
        byte += mark == MARK_COUNT ? 1 : strlen(MARKS[mark].mark);
    }
    *reason = first < MARK_COUNT ? MARKS[first].reason : NULL;
    return bare.bytes;
}

/* "12 kg", but not "1o.2" or "10O", where a letter was struck for a digit. */
static bool is_unit(const char *text) {
    if (text_same_letters(text, "o") || text_same_letters(text, "l"))
        return false;
    static const char LETTERS[] = " ./abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ";
    return *text && text[strspn(text, LETTERS)] == '\0';
}

const char *number_cure(Arena *arena, const char *text) {
    double value;
    if (means_unknown(text))
        return "is not a number: leave the cell empty when it is not known";
    if (*text == '<' || *text == '>') {
        return "is a limit, not a number: write the value to reckon with, or leave the cell "
               "empty";
    }
    const char *reason;
    const char *const bare = without_marks(arena, text, &reason);
    if (reason && number_read(bare, false, &value)) {
        return arena_print(arena, "%s write %s", reason, bare);
    }
    const char *const end = number_end(text);
    if (end > text && is_unit(end))
        return "has letters in it: write the number alone, in the unit of the heading";
    return "is not a number";
}
