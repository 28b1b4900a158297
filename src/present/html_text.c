#include "present/html_text.h"

#include <string.h>

static const char REPLACEMENT[] = "\xEF\xBF\xBD"; /* U+FFFD */

static const char *entity_of(char letter) {
    switch (letter) {
    case '&':
        return "&amp;";
    case '<':
        return "&lt;";
    case '>':
        return "&gt;";
    case '"':
        return "&quot;";
    case '\'':
        return "&#39;";
    default:
        return NULL;
    }
}

/* Bytes of a control character at `at`, of one byte or (U+0080 to U+009F) of two, or of one
 * that turns the direction of writing; else 0. */
static size_t control_bytes(const unsigned char *at) {
    if (at[0] < 0x20 || at[0] == 0x7F)
        return 1;
    return at[0] == 0xC2 && at[1] >= 0x80 && at[1] < 0xA0
               ? 2
               : text_turning_bytes((const char *)at);
}

static void put_valid(Text *out, const char *bytes, size_t length) {
    for (size_t at = 0; at < length;) {
        const size_t control = control_bytes((const unsigned char *)bytes + at);
        const char *entity = entity_of(bytes[at]);
        if (control > 0)
            text_add(out, " ");
        else if (entity)
            text_add(out, entity);
        else
            text_add_bytes(out, bytes + at, 1);
        at += control > 0 ? control : 1;
    }
}

void html_text(Text *out, const char *words) {
    size_t rest = strlen(words);
    for (long bad; (bad = text_first_bad_utf8(words, rest)) >= 0;) {
        put_valid(out, words, (size_t)bad);
        text_add(out, REPLACEMENT);
        words += bad + 1;
        rest -= (size_t)bad + 1;
    }
    put_valid(out, words, rest);
}

void html_element(Text *out, const char *tag, const char *class_name, const char *words) {
    text_print(out, "<%s", tag);
    if (class_name)
        text_print(out, " class=\"%s\"", class_name);
    text_add(out, ">");
    html_text(out, words);
    text_print(out, "</%s>\n", tag);
}
