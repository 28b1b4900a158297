#include "outcome/weight_words.h"
#include "base/text.h"

const char *book_weight_words(Arena *arena, const PlanQuestion *question) {
    const Stacks *stacks = &farm_counted(question->farm)->stacks;
    Text text = text_new(arena);
    for (int s = 0; s < stacks->count; s++) {
        const Stack *stack = &stacks->stacks[s];
        if (stack->density_is_books)
            text_print(&text, "%s%s (give or take %.0f %%)", text.length > 0 ? "; " : "",
                       stack->name, 100.0 * stack->weight_error_share);
    }
    return text.bytes;
}
