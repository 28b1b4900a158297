/* Writes the question of one farm for other solvers, and our answer to it:
 *
 *     write_question OUT farm HERD.csv INVENTORY
 *     write_question OUT made SEED SIZE
 *
 * SIZE is S, M, or GROUPS,STACKS,OFFERS,DAYS, and a '+' behind them for a generous farm
 * (support/farm_maker.h).
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
#include "planner/winter_plan.h"
#include "support/farm_maker.h"
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

static FarmRequest farm_of_seed(Arena *arena, unsigned long long seed, const char *words) {
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
    return request;
}

/* ---- the data of models/winter-plan.mod */

/* A name between quotes; the language takes at most 100 characters of ASCII. */
static const char *quoted(Arena *arena, const char *name) {
    char *text = arena_print(arena, "'%.90s'", name);
    for (char *at = text + 1; at[1]; at++) {
        if (*at < ' ' || *at > '~' || *at == '\'')
            *at = '_';
    }
    return text;
}

static void begin(Text *out, const char *parameter) {
    text_print(out, "param %s :=\n", parameter);
}

static void end(Text *out) { text_add(out, ";\n"); }

static void add_feed_facts(Arena *arena, Text *out, const PlanQuestion *question) {
    begin(out, ": feed_name class book_feed dry_matter waste shrink price own_value hauling "
               "available use_from use_until");
    for (int f = 0; f < question->feed_count; f++) {
        const PlanFeed *of = &question->feeds[f];
        const Day first = question->farm->winter.first_day;
        text_print(out, "%d %s %s %s %.17g %.17g %.17g %.17g %.17g %.17g %.17g %d %d\n", f + 1,
                   quoted(arena, of->name), feed_class_kind(of->feed->feed_class)->key,
                   quoted(arena, of->feed->book_feed), of->dry_share, of->waste_share,
                   of->shrink_share, of->price_per_kg * KG_PER_TONNE,
                   of->value_per_kg * KG_PER_TONNE, of->haul_per_kg * KG_PER_TONNE,
                   isfinite(of->available_kg) ? of->available_kg / KG_PER_TONNE : -1.0,
                   calendar_days_between(first, of->allowance->from) + 1,
                   calendar_days_between(first, of->allowance->until) + 1);
    }
    end(out);
}

static void add_analyses(Text *out, const PlanQuestion *question) {
    text_add(out, "param analysis :");
    for (int n = 0; n < NUTRIENT_COUNT; n++)
        text_print(out, " %s", nutrient_kind((Nutrient)n)->stem);
    text_add(out, " :=\n");
    for (int f = 0; f < question->feed_count; f++) {
        text_print(out, "%d", f + 1);
        for (int n = 0; n < NUTRIENT_COUNT; n++) {
            const double value = question->feeds[f].eaten[n];
            if (isnan(value))
                text_add(out, " .");
            else
                text_print(out, " %.17g", value);
        }
        text_add(out, "\n");
    }
    end(out);
}

static void add_feeds(Arena *arena, Text *out, const PlanQuestion *question) {
    const Herd *herd = &question->farm->herd;
    text_add(out, "set FEEDS :=");
    for (int f = 0; f < question->feed_count; f++)
        text_print(out, " %d", f + 1);
    text_add(out, ";\nset OWN :=");
    for (int f = 0; f < question->own_count; f++)
        text_print(out, " %d", f + 1);
    text_add(out, ";\nset NUTRIENTS :=");
    for (int n = 0; n < NUTRIENT_COUNT; n++)
        text_print(out, " %s", nutrient_kind((Nutrient)n)->stem);
    end(out);
    add_feed_facts(arena, out, question);
    add_analyses(out, question);
    text_add(out, "set WATCHED_FOR :=\n");
    for (int f = 0; f < question->feed_count; f++) {
        for (int watch = 0; watch < FEED_WATCH_COUNT; watch++) {
            if (question->feeds[f].feed->watch & WATCH_BIT(watch))
                text_print(out, "(%d,'%s')\n", f + 1, feed_watch_name((FeedWatch)watch));
        }
    }
    end(out);
    text_add(out, "set MEANT_FOR :=\n");
    for (int f = 0; f < question->feed_count; f++) {
        for (int g = 0; g < herd->count; g++) {
            if (allowance_covers(question->feeds[f].allowance, herd->groups[g].name))
                text_print(out, "(%d,%d)\n", f + 1, g + 1);
        }
    }
    end(out);
}

static void add_groups(Arena *arena, Text *out, const PlanQuestion *question) {
    const Herd *herd = &question->farm->herd;
    text_add(out, "set GROUPS :=");
    for (int g = 0; g < herd->count; g++)
        text_print(out, " %d", g + 1);
    end(out);
    begin(out, ": group_name is_mixed");
    for (int g = 0; g < herd->count; g++)
        text_print(out, "%d %s %d\n", g + 1, quoted(arena, herd->groups[g].name),
                   herd->groups[g].delivery == DELIVERY_MIXED);
    end(out);
}

static void add_stages(Text *out, const char *set, int number, StageSet stages) {
    text_print(out, "set %s[%d] :=", set, number);
    for (int stage = 0; stage < STAGE_COUNT; stage++) {
        if (stages & STAGE_BIT(stage))
            text_print(out, " %s", stage_name((Stage)stage));
    }
    end(out);
}

static void add_needs(Text *out, const PlanQuestion *question) {
    begin(out, ": group first_day last_day head live_weight shrunk_weight energy_maintenance "
               "energy_cold energy_pregnancy energy_milk energy_condition energy_retained "
               "protein_maintenance protein_pregnancy protein_milk protein_gain calcium_need "
               "phosphorus_need fibre_most");
    for (int b = 0; b < question->block_count; b++) {
        const PlanBlock *block = &question->blocks[b];
        const Requirement *need = &block->need;
        const Day first = question->farm->winter.first_day;
        text_print(out, "%d %d %d %d %.17g %.17g %.17g", b + 1, block->group + 1,
                   calendar_days_between(first, block->from) + 1,
                   calendar_days_between(first, block->to) + 1, block->head,
                   need->live_weight.kg, need->shrunk.kg);
        text_print(out, " %.17g %.17g %.17g %.17g %.17g %.17g", need->energy.maintenance,
                   need->energy.cold, need->energy.pregnancy, need->energy.milk,
                   need->energy.condition, need->retained.mcal_per_day);
        text_print(out, " %.17g %.17g %.17g %.17g %.17g %.17g %.17g\n",
                   need->protein.maintenance, need->protein.pregnancy, need->protein.milk,
                   need->protein.gain, need->calcium.g_per_day, need->phosphorus.g_per_day,
                   need->ndf_most_kg);
    }
    end(out);
    text_add(out, "param least_in_diet :=\n");
    for (int b = 0; b < question->block_count; b++) {
        for (int n = 0; n < NUTRIENT_COUNT; n++) {
            const double least = question->blocks[b].need.mineral_least[n];
            if (least > 0.0)
                text_print(out, "[%d,%s] %.17g\n", b + 1, nutrient_kind((Nutrient)n)->stem,
                           least);
        }
    }
    end(out);
}

static void add_intake_end(Text *out, int block, const char *which, const IntakeLaw *law) {
    text_print(out, "%d %s %.17g %.17g %.17g %.17g\n", block + 1, which, law->square,
               law->linear, law->constant, law->added);
}

static void add_intake(Text *out, const PlanQuestion *question, const WinterPlan *plan) {
    begin(out, ": given_total given_density given_upkeep given_gain");
    for (int b = 0; b < question->block_count; b++) {
        const BlockState *state = &plan->blocks[b].state;
        text_print(out, "%d %.17g %.17g %.17g %.17g\n", b + 1, state->dry_matter_kg,
                   state->diet_nem, state->maintenance_share, state->gain_per_upkeep);
    }
    end(out);
    begin(out, ": square linear constant added");
    for (int b = 0; b < question->block_count; b++) {
        add_intake_end(out, b, "most", &question->blocks[b].need.most);
        add_intake_end(out, b, "least", &question->blocks[b].need.least);
    }
    end(out);
}

static void add_blocks(Text *out, const PlanQuestion *question, const WinterPlan *plan) {
    text_add(out, "set BLOCKS :=");
    for (int b = 0; b < question->block_count; b++)
        text_print(out, " %d", b + 1);
    end(out);
    for (int b = 0; b < question->block_count; b++)
        add_stages(out, "STAGES", b + 1, question->blocks[b].need.stages);
    add_needs(out, question);
    add_intake(out, question, plan);
}

static const char *kind_name(LimitKind kind) {
    switch (kind) {
    case LIMIT_CONCENTRATION:
        return "concentration";
    case LIMIT_EACH_FEED:
        return "each_feed";
    case LIMIT_SHARE:
        return "share";
    case LIMIT_SHARE_ABOVE:
        return "share_above";
    case LIMIT_WEIGHT_SHARE:
        return "weight_share";
    case LIMIT_RATIO:
        return "ratio";
    case LIMIT_WATER:
        return "water";
    case LIMIT_FACILITY:
    case LIMIT_KIND_COUNT:
        break;
    }
    return "facility";
}

/* The table as it stands for the practices the farm follows: which lines hold for whom is the
 * model's to find out. */
static void add_limits(Arena *arena, Text *out, const SafetyLimits *limits) {
    text_add(out, "set LIMITS :=");
    for (int i = 0; i < limits->count; i++)
        text_print(out, " %d", i + 1);
    end(out);
    begin(out, ": kind subject above condition side bound");
    for (int i = 0; i < limits->count; i++) {
        const SafetyLimit *limit = &limits->limits[i];
        const char *subject =
            arena_copy(arena, limit->subject_text, strcspn(limit->subject_text, ">"));
        text_print(out, "%d %s %s %.17g %s %s %.17g # %s\n", i + 1, kind_name(limit->kind),
                   quoted(arena, subject), limit->above,
                   limit->condition == CONDITION_NOT_MIXED ? "not_mixed" : "none",
                   limit->side == SIDE_MOST ? "most" : "least", limit->hard, limit->id);
    }
    end(out);
    for (int i = 0; i < limits->count; i++)
        add_stages(out, "HOLDS_FOR", i + 1, limits->limits[i].stages);
}

static void write_data(Arena *arena, const char *file, const WinterPlan *plan) {
    const PlanQuestion *question = plan->question;
    const Winter *winter = &question->farm->winter;
    Text out = text_new(arena);
    text_add(&out, "data;\n");
    add_groups(arena, &out, question);
    add_feeds(arena, &out, question);
    add_blocks(&out, question, plan);
    add_limits(arena, &out, &question->farm->limits);
    text_print(&out, "param water_nitrate := %.17g;\nparam water_sulfate := %.17g;\n",
               winter->water_nitrate_mg_per_l, winter->water_sulfate_mg_per_l);
    text_print(&out, "param carry_over := %.17g;\nend;\n",
               winter->carry_over_kg / KG_PER_TONNE);
    write_text(arena, file, ".dat", &out);
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
    const LpSolution solution = lp_solve(program.lp, arena, START_COLD, NULL, 0);
    if (solution.status != LP_OPTIMAL)
        stop(file, "the program of least shortage has no solution");
    return solution.cost;
}

static void write_answer(Arena *arena, const char *file, const WinterPlan *plan) {
    if (plan->verdict == PLAN_FAILED)
        stop(file, plan->remark);
    write_program(arena, file, ".mps", plan->program->lp);
    if (plan->verdict == PLAN_SHORT) {
        printf("short %.12g %.12g\n", plan->solution.cost, write_shortage(arena, file, plan));
        return;
    }
    if (plan->least_cost != plan->solution.cost)
        stop(file, "the least cost of the plan is not that of its program");
    write_data(arena, file, plan);
    write_rations(arena, file, plan);
    const double allowed = plan->least_cost * (1.0 + STEADY_COST_SHARE);
    printf("balanced %.12g %.12g %.12g\n", plan->least_cost,
           plan->cost.total - plan->cost.yardage, allowed + 1e-6 * fmax(allowed, 1.0));
}

int main(int count, char **words) {
    if (count != 5)
        stop("usage", "OUT farm HERD.csv INVENTORY, or OUT made SEED SIZE");
    Arena *arena = arena_open();
    Faults faults = faults_new(arena);
    FarmRequest request;
    if (strcmp(words[2], "farm") == 0)
        request = farm_of_files(arena, words[3], words[4]);
    else
        request = farm_of_seed(arena, strtoull(words[3], NULL, 10), words[4]);
    Farm farm;
    if (!farm_read(arena, &faults, &request, &farm)) {
        const Fault **sorted = faults_sorted(&faults, arena);
        stop(place_text(sorted[0]->place, arena), sorted[0]->text);
    }
    if (farm.winter.microbial_form != MICROBIAL_TEN_PERCENT)
        stop("protein", "the model knows microbial protein as 10 % of TDN only");
    const PlanQuestion question = plan_question(arena, &farm);
    const WinterPlan plan = plan_winter(arena, &question);
    write_answer(arena, words[1], &plan);
    arena_close(arena);
    return 0;
}
