#include "base/heading_alias.h"

#include "base/text.h"
#include <assert.h>
#include <string.h>

typedef enum { ALIAS_SAME, ALIAS_LIKE } AliasKind;

static const struct {
    const char *written, *heading;
    AliasKind kind;
} ALIASES[] = {
#define HEADING_ALIAS(written, heading, kind) {written, heading, ALIAS_##kind},
#include "base/heading_alias.def"
#undef HEADING_ALIAS
};

#define ALIAS_COUNT (sizeof ALIASES / sizeof ALIASES[0])

/* Whole words only: "p" begins p_pct, not price. */
static bool begins_with(const char *plain, const char *words) {
    const size_t length = strlen(words);
    return strncmp(plain, words, length) == 0 &&
           (plain[length] == '_' || plain[length] == '\0');
}

static size_t longest_that_begins(const char *plain) {
    size_t longest = 0;
    for (size_t i = 0; i < ALIAS_COUNT; i++) {
        const size_t length = strlen(ALIASES[i].written);
        if (length > longest && begins_with(plain, ALIASES[i].written))
            longest = length;
    }
    return longest;
}

int heading_aliases(Arena *arena, const char *plain, HeadingAlias found[HEADING_ALIASES_MOST]) {
    const size_t longest = longest_that_begins(plain);
    int count = 0;
    for (size_t i = 0; longest > 0 && i < ALIAS_COUNT; i++) {
        if (strlen(ALIASES[i].written) != longest || !begins_with(plain, ALIASES[i].written))
            continue;
        assert(count < HEADING_ALIASES_MOST);
        found[count++] = (HeadingAlias){
            arena_print(arena, "%s%s", ALIASES[i].heading, plain + longest),
            ALIASES[i].kind == ALIAS_SAME,
        };
    }
    return count;
}
