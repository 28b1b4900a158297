#include "base/table_text.h"
#include "base/table.h"
#include "base/text.h"
#include <string.h>

#define BYTE_ORDER_MARK "\xEF\xBB\xBF"

TableLine table_line_at(const TableText *text, const char *start) {
    const char *const stop = text->bytes + text->length;
    const char *end = start;
    while (end < stop && *end != '\n' && *end != '\r')
        end++;
    const bool is_pair = end + 1 < stop && end[0] == '\r' && end[1] == '\n';
    return (TableLine){start, end, end == stop ? stop : end + 1 + is_pair};
}

int characters_between(const char *byte, const char *end) {
    int count = 0;
    for (; byte < end; byte++)
        count += ((unsigned char)*byte & 0xC0U) != 0x80U;
    return count;
}

static bool begins_with(const TableText *text, const char *mark, size_t length) {
    return text->length >= length && memcmp(text->bytes, mark, length) == 0;
}

const char *table_first_letter(const TableText *text) {
    return text->bytes + (begins_with(text, BYTE_ORDER_MARK, 3) ? 3 : 0);
}

static Place place_of_byte(const TableText *text, size_t offset) {
    const char *const wanted = text->bytes + offset;
    TableLine line = table_line_at(text, table_first_letter(text));
    int number = 1;
    while (line.next <= wanted && line.next > line.end) {
        line = table_line_at(text, line.next);
        number++;
    }
    return (Place){text->file, number, characters_between(line.start, wanted) + 1};
}

static bool is_workbook(const TableText *text) {
    return begins_with(text, "PK\x03\x04", 4) || begins_with(text, "PK\x05\x06", 4) ||
           begins_with(text, "\xD0\xCF\x11\xE0", 4);
}

static bool is_utf16(const TableText *text) {
    return begins_with(text, "\xFF\xFE", 2) || begins_with(text, "\xFE\xFF", 2);
}

static bool refuse(Faults *faults, Place place, const char *reason) {
    fault_add(faults, place, "%s", reason);
    return false;
}

bool table_text_is_readable(Faults *faults, const TableText *text) {
    const Place whole = {text->file, 0, 0};
    if (text->length > TABLE_MOST_BYTES) {
        fault_add(faults, whole,
                  "the file has %.1f million bytes, more than the %d million that are read; is "
                  "it the right file?",
                  (double)text->length / 1e6, TABLE_MOST_BYTES / 1000000);
        return false;
    }
    if (is_workbook(text)) {
        return refuse(faults, whole,
                      "this is a workbook, not a CSV file: open it and save the sheet as "
                      "\"CSV UTF-8\"");
    }
    if (is_utf16(text)) {
        return refuse(
            faults, whole,
            "the text is in UTF-16 (\"Unicode text\"): save the sheet as \"CSV UTF-8\"");
    }
    const char *const zero = memchr(text->bytes, '\0', text->length);
    if (zero) {
        return refuse(faults, place_of_byte(text, (size_t)(zero - text->bytes)),
                      "a zero byte: this is not a text file; save the sheet as \"CSV UTF-8\"");
    }
    const long bad = text_first_bad_utf8(text->bytes, text->length);
    if (bad >= 0) {
        return refuse(faults, place_of_byte(text, (size_t)bad),
                      "from this letter on the text is not UTF-8: save the sheet as "
                      "\"CSV UTF-8\"");
    }
    return true;
}
