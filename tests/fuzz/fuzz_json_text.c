/* Any bytes as key and text of a figure: what is written is one JSON string in valid UTF-8
 * without a control character, and read back it is the bytes again wherever they were valid. */
#include "present/present.h"

#include <assert.h>
#include <stdint.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static unsigned hexadecimal(const char *digits) {
    unsigned value = 0;
    for (int i = 0; i < 4; i++) {
        const char *const found = strchr("0123456789abcdef", digits[i]);
        assert(digits[i] && found);
        value = value * 16 + (unsigned)(found - "0123456789abcdef");
    }
    return value;
}

/* The byte or two of an escaped control character. */
static void put_code_point(Text *out, unsigned letter) {
    assert(letter > 0 && (letter < 0x20 || (letter >= 0x7F && letter < 0xA0)));
    const char pair[] = {(char)0xC2, (char)letter};
    if (letter < 0x80)
        text_add_bytes(out, pair + 1, 1);
    else
        text_add_bytes(out, pair, 2);
}

/* Reads the string that begins at `at` into `out`; returns what follows its closing quote. */
static const char *read_string(const char *at, Text *out) {
    assert(*at == '"');
    for (at++; *at != '"'; at++) {
        assert((unsigned char)*at >= 0x20 && *at != 0x7F);
        if (*at != '\\') {
            text_add_bytes(out, at, 1);
            continue;
        }
        at++;
        if (*at == 'u') {
            put_code_point(out, hexadecimal(at + 1));
            at += 4;
            continue;
        }
        const char *const kind = strchr("\"\\bfnrt", *at);
        assert(*at && kind);
        text_add_bytes(out, &"\"\\\b\f\n\r\t"[kind - "\"\\bfnrt"], 1);
    }
    return at + 1;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    Arena *const arena = arena_open();
    const char *const text = arena_copy(arena, (const char *)data, size);
    Report *const report = report_new(arena, "");
    figure_text(report->figures, text, text);
    Text json = text_new(arena);
    present_json(report, &json);
    assert(text_first_bad_utf8(json.bytes, json.length) == -1);

    Text key = text_new(arena), value = text_new(arena);
    assert(strncmp(json.bytes, "{\n  ", 4) == 0);
    const char *at = read_string(json.bytes + 4, &key);
    assert(strncmp(at, ": ", 2) == 0);
    at = read_string(at + 2, &value);
    assert(strcmp(at, "\n}\n") == 0);
    assert(strcmp(key.bytes, value.bytes) == 0);
    if (text_first_bad_utf8(text, strlen(text)) == -1)
        assert(strcmp(value.bytes, text) == 0);
    arena_close(arena);
    return 0;
}
