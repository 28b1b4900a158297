/* The program of an invented farm with rules of the yard on, for another solver: PATH SEED
 * GROUPS STACKS DAYS writes PATH.mps with its whole columns, PATH-held.mps with them at what we
 * chose, and prints "kept RULES COST BOUND" or "none". */
#include "support/planned_farm.h"
#include <stdio.h>
#include <stdlib.h>

static void write_text(const char *path, const char *ending, const Text *text) {
    char name[512];
    snprintf(name, sizeof name, "%s%s", path, ending);
    FILE *file = fopen(name, "wb");
    if (!file || fwrite(text->bytes, 1, text->length, file) != text->length ||
        fclose(file) != 0) {
        perror(name);
        exit(1);
    }
}

static void write_program(Arena *arena, const LinearProgram *lp, const char *path,
                          const char *ending) {
    Text text = text_new(arena);
    lp_mps_text(lp, &text);
    write_text(path, ending, &text);
}

int main(int count, char **words) {
    if (count != 6) {
        fputs("usage: write_yard PATH SEED GROUPS STACKS DAYS\n", stderr);
        return 2;
    }
    Arena *arena = arena_open();
    const unsigned long long seed = strtoull(words[2], NULL, 10);
    const FarmSize size = {atoi(words[3]), atoi(words[4]), 6, atoi(words[5]), true};
    const PlannedFarm *farm = ruled_farm(arena, farm_drafted(arena, seed, size), seed);
    const struct YardOutcome *yard = farm->plan.yard;
    if (!yard || yard_rules_count(&yard->kept) == 0) {
        puts("none");
    } else {
        write_program(arena, yard->program, words[1], ".mps");
        LinearProgram *held = lp_copy(yard->program, arena);
        for (int j = 0; j < lp_column_count(held); j++) {
            if (isfinite(yard->choice.fixed[j]))
                lp_set_column_bounds(held, j, yard->choice.fixed[j], yard->choice.fixed[j]);
            lp_set_whole(held, j, false);
        }
        write_program(arena, held, words[1], "-held.mps");
        printf("kept %d %.9g %.9g\n", yard_rules_count(&yard->kept), yard->choice.cost,
               yard->choice.bound);
    }
    arena_close(arena);
    return 0;
}
