#include "outcome/sampling_words.h"
#include "base/text.h"
#include "stock/stack_sampling.h"

static const char *between(const Text *list) { return list->length > 0 ? "; " : ""; }

static void add_thin(Text *list, const Stack *stack) {
    switch (stack_sampling(stack)) {
    case SAMPLING_TOO_FEW:
        text_print(list, "%s%s (%.0f of %.0f)", between(list), stack->name,
                   stack->feed.core_count, stack_cores_wanted(stack));
        return;
    case SAMPLING_NOT_SAID:
        text_print(list, "%s%s (not said)", between(list), stack->name);
        return;
    case SAMPLING_NOTHING_TO_SAY:
        return;
    }
}

static void add_old(Text *list, const Stack *stack) {
    int days;
    if (stack_test_is_old(stack) && stack_test_days(stack, &days))
        text_print(list, "%s%s (%d days)", between(list), stack->name, days);
}

const char *sampling_words(Arena *arena, const WinterPlan *plan) {
    const PlanQuestion *question = plan->question;
    Text thin = text_new(arena);
    Text old = text_new(arena);
    for (int f = 0; f < question->own_count; f++) {
        if (plan->taken_kg[f] <= 0.0)
            continue;
        const Stack *stack = &question->farm->inventory.stacks.stacks[question->feeds[f].place];
        add_thin(&thin, stack);
        add_old(&old, stack);
    }
    Text words = text_new(arena);
    text_add(&words, "");
    if (thin.length > 0)
        text_print(&words, "Sampled from few bales or places: %s", thin.bytes);
    if (old.length > 0)
        text_print(&words, "%sTested long before it is first fed: %s",
                   thin.length > 0 ? ". " : "", old.bytes);
    return words.bytes;
}
