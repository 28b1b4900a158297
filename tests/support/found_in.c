#include "support/found_in.h"
#include "support/unit.h"
#include <string.h>

int found_feed(const PlanQuestion *question, const char *name) {
    for (int f = 0; f < question->feed_count; f++) {
        if (strcmp(question->feeds[f].name, name) == 0)
            return f;
    }
    fail_msg("no feed %s", name);
    return -1;
}

int found_block(const PlanQuestion *question, const char *group, Day day) {
    for (int b = 0; b < question->block_count; b++) {
        const PlanBlock *block = &question->blocks[b];
        if (strcmp(question->farm->herd.names[block->group], group) == 0 &&
            calendar_days_between(block->from, day) >= 0 &&
            calendar_days_between(day, block->to) >= 0)
            return b;
    }
    fail_msg("no period of %s", group);
    return -1;
}
