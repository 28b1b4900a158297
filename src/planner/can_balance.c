/* The least shortage, followed by the curved laws only until it is plain whether there is any.
 */
#include "planner/can_balance.h"
#include "planner/plan_outcome.h"
#include "planner/plan_rounds.h"
#include <stddef.h>

static void keep_states(Arena *arena, const PlanRounds *at, const PlanQuestion *question,
                        PlanStart *start) {
    if (!start->states)
        start->states = ARENA_ARRAY(arena, BlockState, question->block_count);
    for (int b = 0; b < question->block_count; b++)
        start->states[b] = at->states[b];
}

bool plan_must_be_short(const PlanQuestion *question, const PlanStart *start) {
    return shortage_proven(&start->proof, question, -1) > NOTHING_SHORT;
}

/* The limit outlives the program it was found in. */
static void keep_shortage(Arena *arena, const PlanRounds *at, const PlanQuestion *question,
                          FirstShortage *shortage) {
    outcome_largest_shortage(&at->program, &at->solution, shortage);
    for (int b = 0; shortage->limit && b < question->block_count; b++) {
        const BlockLimits *of = &at->program.blocks[b];
        int count;
        for (int i = 0; i < of->count; i++) {
            if (shortage->limit != of->limits[i])
                continue;
            shortage->limit = ration_limits(arena, question, b, at->states[b], &count)[i];
            return;
        }
    }
}

/* A scratch arena holds the work; only the start, and what falls short, outlive it. Where the
 * last round failed there is no program to tell that. */
bool plan_can_be_balanced(Arena *arena, const PlanQuestion *question, PlanStart *start,
                          FirstShortage *shortage) {
    Arena *scratch = arena_open();
    if (!start->blocks)
        start->blocks = block_start(arena);
    BlockRoom of_question = {.arena = scratch};
    PlanRounds at = plan_rounds(start->blocks);
    at.room = start->room ? start->room : &of_question;
    at.is_verdict = true;
    if (start->states) {
        at.states = ARENA_ARRAY(scratch, BlockState, question->block_count);
        for (int b = 0; b < question->block_count; b++)
            at.states[b] = start->states[b];
    }
    const bool is_solved = rounds_iterate(scratch, &at, question, AIM_LEAST_SHORTAGE);
    const bool can = is_solved && at.solution.cost <= NOTHING_SHORT;
    if (is_solved)
        keep_states(arena, &at, question, start);
    if (is_solved && !can && at.blocks && !question->choices)
        shortage_proof_take(arena, &at.program, &at.solution, &start->proof);
    if (shortage) {
        *shortage = (FirstShortage){-1, NULL};
        if (is_solved && !can && at.program.lp)
            keep_shortage(arena, &at, question, shortage);
    }
    arena_close(scratch);
    return can;
}

/* They stand together. */
PlanQuestion question_of_group(const PlanQuestion *question, int group) {
    PlanQuestion alone = *question;
    int first = 0;
    while (first < question->block_count && question->blocks[first].group != group)
        first++;
    int end = first;
    while (end < question->block_count && question->blocks[end].group == group)
        end++;
    alone.blocks += first;
    alone.block_count = end - first;
    alone.permission += (ptrdiff_t)first * question->feed_count;
    alone.barred_by += (ptrdiff_t)first * question->feed_count;
    return alone;
}

bool group_is_short_alone(const PlanQuestion *question, int group) {
    const PlanQuestion alone = question_of_group(question, group);
    if (alone.block_count == 0 || alone.block_count == question->block_count)
        return false;
    Arena *scratch = arena_open();
    PlanStart start = {0};
    const bool is_short = !plan_can_be_balanced(scratch, &alone, &start, NULL);
    arena_close(scratch);
    return is_short;
}
