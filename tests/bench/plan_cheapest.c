/* The cheapest plan of a farm's files, before its rations are evened out, as a process of its
 * own to be timed beside a solver on the same program:
 *
 *     plan_cheapest HERD.csv INVENTORY [OUT.mps]
 *
 * Prints its least cost, cautions weighed, and writes the program of its last round. */
#include "entry/file_bytes.h"
#include "planner/winter_plan.h"
#include "support/farm_files.h"
#include <stdio.h>

int main(int count, char **words) {
    if (count != 3 && count != 4) {
        fputs("plan_cheapest HERD.csv INVENTORY [OUT.mps]\n", stderr);
        return 2;
    }
    Arena *arena = arena_open();
    Faults faults = faults_new(arena);
    const FarmRequest request = farm_of_files(arena, words[1], words[2]);
    Farm farm;
    if (!farm_read(arena, &faults, &request, &farm)) {
        fputs("plan_cheapest: the farm has faults\n", stderr);
        return 1;
    }
    const PlanQuestion question = plan_question(arena, &farm);
    const WinterPlan plan = plan_least_cost(arena, &question);
    if (plan.verdict == PLAN_FAILED) {
        fprintf(stderr, "plan_cheapest: %s\n", plan.remark);
        return 1;
    }
    printf("%s %.12g\n", plan.verdict == PLAN_SHORT ? "short" : "balanced", plan.solution.cost);
    if (count == 4) {
        Text out = text_new(arena);
        lp_mps_text(plan.program->lp, &out);
        const char *why = file_write(arena, words[3], out.bytes, out.length);
        if (why) {
            fprintf(stderr, "plan_cheapest: %s: %s\n", words[3], why);
            return 1;
        }
    }
    arena_close(arena);
    return 0;
}
