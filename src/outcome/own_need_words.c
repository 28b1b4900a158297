#include "outcome/own_need_words.h"
#include "base/text.h"
#include "outcome/day_words.h"

/* "metabolizable_protein" as a person says it. */
static const char *plain_words(Arena *arena, const char *name) {
    Text words = text_new(arena);
    for (const char *at = name; *at; at++)
        text_add_bytes(&words, *at == '_' ? " " : at, 1);
    return words.bytes;
}

const char *own_need_words(Arena *arena, const Farm *farm, int group) {
    Text text = text_new(arena);
    for (int i = 0; i < farm->own_needs.count; i++) {
        const OwnNeed *own = &farm->own_needs.needs[i];
        if (own->group != group)
            continue;
        text_print(&text, "%s%s %.5g %s", text.length > 0 ? "; " : "",
                   plain_words(arena, own->need), own->value, own_need_unit(own));
        if (own->has_from)
            text_print(&text, " from %s", day_words(arena, own->from));
        if (own->has_until)
            text_print(&text, " to %s", day_words(arena, own->until));
    }
    return text.bytes;
}
