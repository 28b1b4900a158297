#include "base/source.h"

#include "base/text.h"
#include <assert.h>
#include <string.h>

enum {
    HOW_PAGE = KNOWN_FROM_PAGE,
    HOW_MEMORY = KNOWN_FROM_MEMORY,
    HOW_PRACTICE = KNOWN_AS_PRACTICE,
    HOW_CHOICE = KNOWN_AS_CHOICE
};

typedef struct {
    const char *key, *citation;
    HowKnown how_known;
} Source;

static const Source SOURCES[SOURCE_COUNT] = {
    [SOURCE_NONE] = {"", "", KNOWN_AS_CHOICE},
#define SOURCE(id, how, publication) [SOURCE_##id] = {#id, publication, (HowKnown)HOW_##how},
#include "base/source.def"
#undef SOURCE
};

static const Source *source_row(SourceKey source) {
    assert((int)source >= 0 && source < SOURCE_COUNT);
    return &SOURCES[source];
}

const char *source_key(SourceKey source) { return source_row(source)->key; }
const char *source_citation(SourceKey source) { return source_row(source)->citation; }
HowKnown source_how_known(SourceKey source) { return source_row(source)->how_known; }

bool source_find(const char *key, SourceKey *source) {
    for (int i = SOURCE_NONE + 1; i < SOURCE_COUNT; i++) {
        if (!text_same(SOURCES[i].key, key))
            continue;
        *source = (SourceKey)i;
        return true;
    }
    return false;
}

SourceKey source_first(const char *keys) {
    const size_t length = strcspn(keys, " ");
    for (int i = SOURCE_NONE + 1; i < SOURCE_COUNT; i++) {
        if (strlen(SOURCES[i].key) == length && strncmp(SOURCES[i].key, keys, length) == 0)
            return (SourceKey)i;
    }
    return SOURCE_NONE;
}
