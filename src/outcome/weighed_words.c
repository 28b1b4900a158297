#include "outcome/weighed_words.h"
#include "base/text.h"
#include "outcome/measure.h"

const char *weighed_words(Arena *arena, double least, double most) {
    if (!(most >= WORTH_WEIGHING))
        return "";
    const char *from = money_words(arena, least, 0);
    const char *to = money_words(arena, most, 0);
    return arena_print(
        arena,
        " The totals count what the caution lines passed weigh, %s%s. That is no "
        "money; but what is saved by feeding nearer the hard limits is not called "
        "cheaper for nothing.",
        from, text_same(from, to) ? "" : arena_print(arena, " to %s", to));
}

const char *weighed_part_words(Arena *arena, double dollars) {
    return dollars >= WORTH_WEIGHING
               ? arena_print(arena, " (%s of it no money: what caution lines passed weigh)",
                             money_words(arena, dollars, 0))
               : "";
}
