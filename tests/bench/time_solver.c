/* How long one program of a winter takes, solved in several ways, in one run:
 *
 *     time_solver S|M|L SEED RUNS [whole]
 *
 * for an invented farm (support/farm_maker.h). Prints the median of RUNS of
 *
 *   by price       from nothing: the decomposition the planner uses
 *   started near   the same from what its answer left
 *   one tonne      a tonne more in a stack, from what was proposed
 *   cheapest plan  from the bytes of the files: read, asked, and the laws followed round by
 * round to the cheapest plan that keeps to them, before rations are evened out whole GLPK's
 * simplex on the whole program at once; only when asked for
 *
 * with its share of `by price`, and the counts, which are the same on every machine. Fails when
 * two ways find another cost. */
#define _POSIX_C_SOURCE 200809L
#include "base/quantity.h"
#include "entry/farm_reading.h"
#include "planner/winter_plan.h"
#include "support/farm_maker.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

enum { BY_PRICE, NEAR, ONE_TONNE, CHEAPEST, WHOLE, WAYS };
static const char *const NAMES[WAYS] = {"by price", "started near", "one tonne",
                                        "cheapest plan", "whole"};
enum { MOST_RUNS = 101 };

static double now(void) {
    struct timespec at;
    clock_gettime(CLOCK_MONOTONIC, &at);
    return (double)at.tv_sec + 1e-9 * (double)at.tv_nsec;
}

static int by_size(const void *a, const void *b) {
    const double left = *(const double *)a;
    const double right = *(const double *)b;
    return (left > right) - (left < right);
}

static void stop(const char *why) {
    fprintf(stderr, "time_solver: %s\n", why);
    exit(1);
}

static void ask(Arena *arena, const FarmRequest *request, Farm *farm, PlanQuestion *question) {
    Faults faults = faults_new(arena);
    if (!farm_read(arena, &faults, request, farm))
        stop("the farm has faults");
    *question = plan_question(arena, farm);
}

static double time_cheapest(const FarmRequest *request) {
    Arena *arena = arena_open();
    Farm farm;
    PlanQuestion question;
    const double start = now();
    ask(arena, request, &farm, &question);
    if (plan_least_cost(arena, &question).verdict == PLAN_FAILED)
        stop("no plan was found");
    const double seconds = now() - start;
    arena_close(arena);
    return seconds;
}

/* The program of the first round of a plan, its laws straightened at middling rations. */
static RationProgram program_of(Arena *arena, const FarmRequest *request, Farm *farm,
                                PlanQuestion *question) {
    ask(arena, request, farm, question);
    BlockState *states = ARENA_ARRAY(arena, BlockState, question->block_count);
    for (int b = 0; b < question->block_count; b++) {
        const Requirement *need = &question->blocks[b].need;
        states[b] = (BlockState){need->retained.mcal_per_day > 0.0 ? 1.5 : 1.45, 0.58};
    }
    return ration_program(arena, question, states, AIM_LEAST_COST);
}

static double checked(const LpSolution *solution, double expected) {
    if (solution->status != LP_OPTIMAL)
        stop("no optimal solution was found");
    if (!isnan(expected) && fabs(solution->cost - expected) > 1e-6 * (1.0 + fabs(expected)))
        stop("two ways find another cost");
    return solution->cost;
}

/* One run of all ways. Returns the counts of the first. */
static BlockEffort one_run(const RationProgram *program, bool is_whole, double *seconds) {
    Arena *arena = arena_open();
    const double start = now();
    BlockProgram *blocks = block_program(arena, program->lp, &program->shape);
    const LpSolution first = block_program_solve(blocks, arena);
    seconds[BY_PRICE] = now() - start;
    const double cost = checked(&first, (double)NAN);
    const BlockEffort effort = block_program_effort(blocks);

    BlockStart *left = block_start(arena);
    block_start_take(left, blocks);
    const double at_near = now();
    BlockProgram *near = block_program(arena, program->lp, &program->shape);
    block_program_start_from(near, left);
    const LpSolution again = block_program_solve(near, arena);
    seconds[NEAR] = now() - at_near;
    checked(&again, cost);

    const int row = program->stock[0];
    const double most = lp_row_most(program->lp, row);
    lp_set_row_bounds(program->lp, row, -NO_LIMIT, most + 1.0);
    const double at_tonne = now();
    const LpSolution more = block_program_solve(blocks, arena);
    seconds[ONE_TONNE] = now() - at_tonne;
    lp_set_row_bounds(program->lp, row, -NO_LIMIT, most);
    if (more.status != LP_OPTIMAL || more.cost > cost * (1.0 + 1e-9))
        stop("a tonne more costs more");

    const double at_whole = now();
    if (is_whole) {
        const LpSolution whole = lp_solve(program->lp, arena, START_COLD, NULL, 0);
        checked(&whole, cost);
    }
    seconds[WHOLE] = now() - at_whole;
    arena_close(arena);
    return effort;
}

int main(int count, char **words) {
    const int runs = count > 3 ? atoi(words[3]) : 0;
    if (count < 4 || runs < 1 || runs > MOST_RUNS || strlen(words[1]) != 1 ||
        !strchr("SML", words[1][0])) {
        fputs("time_solver S|M|L SEED RUNS [whole]\n", stderr);
        return 2;
    }
    const bool is_whole = count > 4;
    const FarmPreset size = words[1][0] == 'S' ? FARM_S : words[1][0] == 'M' ? FARM_M : FARM_L;
    Arena *arena = arena_open();
    FarmRequest request;
    farm_made_of_size(arena, strtoull(words[2], NULL, 10), size, &request);
    Farm farm;
    PlanQuestion question;
    const RationProgram program = program_of(arena, &request, &farm, &question);
    double times[WAYS][MOST_RUNS];
    BlockEffort effort = {0};
    for (int run = -1; run < runs; run++) { /* the first does not count */
        double seconds[WAYS];
        effort = one_run(&program, is_whole && run >= 0, seconds);
        seconds[CHEAPEST] = time_cheapest(&request);
        for (int way = 0; run >= 0 && way < WAYS; way++)
            times[way][run] = seconds[way];
    }
    printf("%s, seed %s: %d rations, %d rows, %d columns; %d rounds, %d iterations of the "
           "master, %.2f steps a ration\n",
           words[1], words[2], question.block_count, lp_row_count(program.lp),
           lp_column_count(program.lp), effort.rounds, effort.master_iterations,
           (double)effort.block_steps / (double)effort.block_solves);
    double by_price = 1.0;
    for (int way = 0; way < (is_whole ? WAYS : WHOLE); way++) {
        qsort(times[way], (size_t)runs, sizeof(double), by_size);
        const double median = times[way][runs / 2];
        by_price = way == BY_PRICE ? median : by_price;
        printf("  %-13s %9.4f s  %8.3f times by price\n", NAMES[way], median,
               median / by_price);
    }
    arena_close(arena);
    return 0;
}
