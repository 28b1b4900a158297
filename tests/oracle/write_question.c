/* Writes the question of one farm for other solvers, and our answer to it:
 *
 *     write_question OUT farm HERD.csv INVENTORY
 *     write_question OUT even HERD.csv INVENTORY
 *     write_question OUT made SEED SIZE
 *     write_question OUT cut HERD.csv INVENTORY
 *     write_question OUT made-cut SEED SIZE
 *
 * The second writes OUT-even.mps besides, the program of the least changing rations
 * (support/even_program.h). The last two plan next year's fields; our answer is then not evened
 * out, and what is written as printed rations are those of least cost again. SIZE is S, M, or
 * GROUPS,STACKS,OFFERS,DAYS, and a '+' behind them for a generous farm (support/farm_maker.h).
 *
 * OUT.dat            the question, as data of models/winter-plan.mod
 * OUT-rations.dat    our rations of least cost, as data that model tries
 * OUT-steady.dat     the rations we print, which cost a little more and change less
 * OUT.mps            our own last program; OUT-shortage.mps: the program of least shortage
 *
 * and prints one line: "balanced COST STEADY_COST STEADY_COST_ALLOWED" or "short COST
 * SHORTAGE". */
#include "entry/farm_reading.h"
#include "entry/file_bytes.h"
#include "planner/cut_plan.h"
#include "support/even_program.h"
#include "support/field_maker.h"
#include "support/model_data.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static _Noreturn void stop(const char *what, const char *why) {
    fprintf(stderr, "write_question: %s: %s\n", what, why);
    exit(1);
}

static void write_text(Arena *arena, const char *out, const char *ending, const Text *text) {
    const char *path = arena_print(arena, "%s%s", out, ending);
    const char *why = file_write(arena, path, text->bytes, text->length);
    if (why)
        stop(path, why);
}

static FileBytes whole_file(Arena *arena, const char *path, bool is_needed) {
    const ReadFile read = file_read(arena, path);
    if (read.outcome == READ_MISSING && !is_needed)
        return (FileBytes){path, NULL, 0};
    if (read.outcome != READ_DONE)
        stop(path, read.why);
    return (FileBytes){path, read.bytes, read.length};
}

static FarmRequest farm_of_files(Arena *arena, const char *herd, const char *folder) {
    FarmRequest request = {.units = UNITS_METRIC};
    request.file[FARM_HERD] = whole_file(arena, herd, true);
    for (int i = FARM_HERD + 1; i < FARM_FILE_COUNT; i++)
        request.file[i] = whole_file(arena, path_in_folder(arena, folder, FARM_FILE_NAME[i]),
                                     FARM_FILE_NEEDED[i]);
    return request;
}

static FarmRequest farm_of_seed(Arena *arena, unsigned long long seed, const char *words,
                                bool with_fields) {
    FarmRequest request;
    FarmSize size = {.is_generous = strchr(words, '+') != NULL};
    if (strcmp(words, "S") == 0)
        farm_made_of_size(arena, seed, FARM_S, &request);
    else if (strcmp(words, "M") == 0)
        farm_made_of_size(arena, seed, FARM_M, &request);
    else if (sscanf(words, "%d,%d,%d,%d", &size.groups, &size.stacks, &size.offers,
                    &size.days) == 4)
        farm_made(arena, seed, size, &request);
    else
        stop(words, "is not a size");
    if (with_fields)
        fields_made(arena, seed, farm_drafted(arena, seed, size), &request);
    return request;
}

/* ---- our answer */

static void add_ration(Text *out, int block, int feed, double eaten) {
    text_print(out, "[%d,%d] %.17g\n", block + 1, feed + 1, eaten);
}

static void write_rations(Arena *arena, const char *file, const WinterPlan *plan) {
    const int feeds = plan->question->feed_count;
    Text vertex = text_new(arena);
    Text steady = text_new(arena);
    text_add(&vertex, "data;\nparam ration :=\n");
    text_add(&steady, "data;\nparam ration :=\n");
    for (int b = 0; b < plan->question->block_count; b++) {
        for (int f = 0; f < feeds; f++) {
            const int column = plan->program->eaten[b * feeds + f];
            const double eaten = column < 0 ? 0.0 : plan->solution.value[column];
            add_ration(&vertex, b, f, fmax(eaten, 0.0));
            add_ration(&steady, b, f, plan->blocks[b].eaten[f]);
        }
    }
    text_add(&vertex, ";\nend;\n");
    text_add(&steady, ";\nend;\n");
    write_text(arena, file, "-rations.dat", &vertex);
    write_text(arena, file, "-steady.dat", &steady);
}

static void write_program(Arena *arena, const char *file, const char *ending,
                          const LinearProgram *lp) {
    Text out = text_new(arena);
    lp_mps_text(lp, &out);
    write_text(arena, file, ending, &out);
}

/* The last program of a short winter already holds the shortage, so the program that finds it
 * is made anew, at the states the last one was made of. */
static double write_shortage(Arena *arena, const char *file, const WinterPlan *plan) {
    BlockState *states = ARENA_ARRAY(arena, BlockState, plan->question->block_count);
    for (int b = 0; b < plan->question->block_count; b++)
        states[b] = plan->blocks[b].state;
    const RationProgram program =
        ration_program(arena, plan->question, states, AIM_LEAST_SHORTAGE);
    write_program(arena, file, "-shortage.mps", program.lp);
    BlockProgram *blocks;
    const LpSolution solution = ration_program_solve(arena, &program, NULL, 0.0, &blocks);
    if (solution.status != LP_OPTIMAL)
        stop(file, "the program of least shortage has no solution");
    return solution.cost;
}

static void write_answer(Arena *arena, const char *file, const WinterPlan *plan,
                         double printed_cost) {
    if (plan->verdict == PLAN_FAILED)
        stop(file, plan->remark);
    write_program(arena, file, ".mps", plan->program->lp);
    if (plan->verdict == PLAN_SHORT) {
        printf("short %.12g %.12g\n", plan->solution.cost, write_shortage(arena, file, plan));
        return;
    }
    const double least = plan_least(plan);
    if (fabs(least - plan->solution.cost) > 1e-9 * fabs(least))
        stop(file, "the least cost of the plan is not that of its program");
    Text data = text_new(arena);
    model_data(arena, plan, &data);
    write_text(arena, file, ".dat", &data);
    write_rations(arena, file, plan);
    const double allowed = least + plan->question->farm->winter.steady_cost_share * fabs(least);
    printf("balanced %.12g %.12g %.12g\n", least, printed_cost,
           allowed + 1e-6 * fmax(fabs(allowed), 1.0));
}

int main(int count, char **words) {
    if (count != 5)
        stop("usage", "OUT farm|even|cut HERD.csv INVENTORY, or OUT made|made-cut SEED SIZE");
    Arena *arena = arena_open();
    Faults faults = faults_new(arena);
    FarmRequest request;
    const bool is_cut = strstr(words[2], "cut") != NULL;
    if (strncmp(words[2], "made", 4) != 0)
        request = farm_of_files(arena, words[3], words[4]);
    else
        request = farm_of_seed(arena, strtoull(words[3], NULL, 10), words[4], is_cut);
    Farm farm;
    if (!farm_read(arena, &faults, &request, &farm)) {
        const Fault **sorted = faults_sorted(&faults, arena);
        stop(place_text(sorted[0]->place, arena), sorted[0]->text);
    }
    if (is_cut) {
        const CutQuestion question = cut_question(arena, &farm, growing_year_expected());
        const CutFuture any = {.days = CUT_AS_PLANNED, .barred_offer = -1};
        const CutPlan cut = cut_plan(arena, &question, any, NULL);
        write_answer(arena, words[1], &cut.plan, cut.cost.total - cut.cost.yardage);
    } else {
        const PlanQuestion question = plan_question(arena, &farm);
        const WinterPlan plan = plan_winter(arena, &question);
        if (strcmp(words[2], "even") == 0 && plan.verdict == PLAN_BALANCED) {
            write_program(arena, words[1], "-even.mps", even_program(arena, &plan));
            printf("even %.12g\n", even_program_aim_of(&plan));
        }
        write_answer(arena, words[1], &plan,
                     plan.cost.total + plan.cost.cautions - plan.cost.yardage);
    }
    arena_close(arena);
    return 0;
}
