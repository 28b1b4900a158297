#include "support/model_data.h"
#include "cattle/protein_requirement.h"
#include "planner/field_columns.h"
#include <string.h>

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
               "available use_from use_until lies_since hauled_until");
    for (int f = 0; f < question->feed_count; f++) {
        const PlanFeed *of = &question->feeds[f];
        const Day first = question->farm->winter.first_day;
        text_print(out, "%d %s %s %s %.17g %.17g %.17g %.17g %.17g %.17g %.17g %d %d %d %d\n",
                   f + 1, quoted(arena, of->name), feed_class_kind(of->feed->feed_class)->key,
                   quoted(arena, of->feed->book_feed), of->dry_share, of->waste_share,
                   of->shrink_share, of->price_per_kg * KG_PER_TONNE,
                   of->value_per_kg * KG_PER_TONNE, of->haul_per_kg * KG_PER_TONNE,
                   isfinite(of->available_kg) ? of->available_kg / KG_PER_TONNE : -1.0,
                   calendar_days_between(first, of->allowance->from) + 1,
                   calendar_days_between(first, of->allowance->until) + 1,
                   calendar_days_between(first, of->put_up) + 1,
                   of->delivered_until ? calendar_days_between(first, *of->delivered_until) + 1
                                       : 1);
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
    text_add(out, "set MOISTURE_TESTED :=");
    for (int f = 0; f < question->feed_count; f++) {
        if (question->feeds[f].feed->analysis.dry_matter.origin == FROM_LABORATORY)
            text_print(out, " %d", f + 1);
    }
    text_add(out, ";\nset KEPT_AS_SILAGE :=");
    for (int f = 0; f < question->feed_count; f++) {
        if (question->feeds[f].feed->is_kept_as_silage)
            text_print(out, " %d", f + 1);
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
               "energy_activity energy_cold energy_pregnancy energy_milk energy_condition "
               "energy_retained "
               "protein_maintenance protein_pregnancy protein_milk protein_gain calcium_need "
               "phosphorus_need fibre_most");
    for (int b = 0; b < question->block_count; b++) {
        const PlanBlock *block = &question->blocks[b];
        const Requirement *need = &block->by_equations;
        const Day first = question->farm->winter.first_day;
        text_print(out, "%d %d %d %d %.17g %.17g %.17g", b + 1, block->group + 1,
                   calendar_days_between(first, block->from) + 1,
                   calendar_days_between(first, block->to) + 1, block->head,
                   need->live_weight.kg, need->shrunk.kg);
        text_print(out, " %.17g %.17g %.17g %.17g %.17g %.17g %.17g", need->energy.maintenance,
                   need->energy.activity, need->energy.cold, need->energy.pregnancy,
                   need->energy.milk, need->energy.condition, need->retained.mcal_per_day);
        text_print(out, " %.17g %.17g %.17g %.17g %.17g %.17g %.17g\n",
                   need->protein.maintenance, need->protein.pregnancy, need->protein.milk,
                   need->protein.gain, need->calcium.g_per_day, need->phosphorus.g_per_day,
                   need->ndf_most_kg);
    }
    end(out);
    text_add(out, "param least_in_diet :=\n");
    for (int b = 0; b < question->block_count; b++) {
        for (int n = 0; n < NUTRIENT_COUNT; n++) {
            const double least = question->blocks[b].by_equations.mineral_least[n];
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
    begin(out, ": given_density given_gain");
    for (int b = 0; b < question->block_count; b++) {
        const BlockState *state = &plan->blocks[b].state;
        text_print(out, "%d %.17g %.17g\n", b + 1, state->diet_nem, state->gain_per_upkeep);
    }
    end(out);
    begin(out, ": square linear constant added");
    for (int b = 0; b < question->block_count; b++) {
        add_intake_end(out, b, "most", &question->blocks[b].by_equations.most);
        add_intake_end(out, b, "least", &question->blocks[b].by_equations.least);
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

/* What the published table says, where the farm goes by it and it has a line. */
static void add_table_needs(Text *out, const PlanQuestion *question) {
    begin(out, ": table_energy table_protein table_calcium table_phosphorus");
    for (int b = 0; b < question->block_count; b++) {
        const TableNeed *table = &question->blocks[b].by_table;
        if (question->farm->winter.needs_way == NEEDS_BY_TABLE && table->is_printed)
            text_print(out, "%d %.17g %.17g %.17g %.17g\n", b + 1, table->nem.mcal_per_day,
                       table->protein.g_per_day, table->calcium.g_per_day,
                       table->phosphorus.g_per_day);
    }
    end(out);
}

/* needs.csv row by row: what it makes of a period is the model's to find out. */
static void add_figures(Text *out, const PlanQuestion *question) {
    const OwnNeeds *own = &question->farm->own_needs;
    const Day first = question->farm->winter.first_day;
    text_add(out, "set FIGURES :=");
    for (int i = 0; i < own->count; i++)
        text_print(out, " %d", i + 1);
    end(out);
    begin(out, ": figure_group figure_need figure_from figure_until figure_value");
    for (int i = 0; i < own->count; i++) {
        const OwnNeed *of = &own->needs[i];
        text_print(out, "%d %d %s %d %d %.17g\n", i + 1, of->group + 1, of->need,
                   calendar_days_between(first, of->from) + 1,
                   calendar_days_between(first, of->until) + 1, of->value);
    }
    end(out);
}

static void add_microbes(Text *out, MicrobialForm form) {
    static const struct {
        double share, constant;
    } FORMS[] = {
        [MICROBIAL_TEN_PERCENT] = {0.10, 0.0},
        [MICROBIAL_THIRTEEN_PERCENT] = {0.13, 0.0},
        [MICROBIAL_2016] = {0.087, 42.73},
    };
    text_print(out, "param microbial_share := %.17g;\nparam microbial_constant := %.17g;\n",
               FORMS[form].share, FORMS[form].constant);
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
    case LIMIT_DAYS_KEPT:
        return "days_kept";
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
    begin(out, ": kind subject above condition side bound warn caution_price");
    for (int i = 0; i < limits->count; i++) {
        const SafetyLimit *limit = &limits->limits[i];
        const char *subject =
            arena_copy(arena, limit->subject_text, strcspn(limit->subject_text, ">"));
        text_print(out, "%d %s %s %.17g %s %s %.17g %.17g %.17g # %s\n", i + 1,
                   kind_name(limit->kind), quoted(arena, subject), limit->above,
                   limit->condition == CONDITION_NOT_MIXED ? "not_mixed" : "none",
                   limit->side == SIDE_MOST ? "most" : "least", limit->hard, limit->warn,
                   limit->caution_price, limit->id);
    }
    end(out);
    for (int i = 0; i < limits->count; i++)
        add_stages(out, "HOLDS_FOR", i + 1, limits->limits[i].stages);
}

/* Next year's fields, where own feed is what is cut of them: what the farm said of each cut. */
static void add_cuts(Text *out, const PlanQuestion *question) {
    const Fields *fields = &question->farm->fields;
    if (!question->choices)
        return;
    text_add(out, "set FIELDS :=");
    for (int i = 0; i < fields->field_count; i++)
        text_print(out, " %d", i + 1);
    end(out);
    begin(out, "field_area");
    for (int i = 0; i < fields->field_count; i++)
        text_print(out, "%d %.17g\n", i + 1, fields->fields[i].hectares);
    end(out);
    text_add(out, "set CUTS :=");
    for (int c = 0; c < fields->cut_count; c++)
        text_print(out, " %d", c + 1);
    end(out);
    begin(out, ": cut_field cut_most stands field_loss rain_chance rain_loss storage_loss "
               "hectare_cost tonne_cost regrowth regrowth_use grazing_value");
    for (int c = 0; c < fields->cut_count; c++) {
        const FieldCut *cut = &fields->cuts[c];
        text_print(out, "%d %d %.17g %.17g %.17g %.17g %.17g %.17g", c + 1, cut->field + 1,
                   question->choices->most[c], cut->yield_kg_per_hectare, cut->field_loss_share,
                   cut->rain_chance, cut->rain_loss_share,
                   question->farm->inventory.stacks.stacks[c].loss_share);
        text_print(out, " %.17g %.17g %.17g %.17g %.17g\n", cut->cost_per_hectare,
                   cut->cost_per_kg * KG_PER_TONNE, cut->regrowth_kg_per_hectare,
                   cut->regrowth_use_share, cut->grazing_value_per_kg * KG_PER_TONNE);
    }
    end(out);
}

void model_data(Arena *arena, const WinterPlan *plan, Text *out) {
    const PlanQuestion *question = plan->question;
    const Winter *winter = &question->farm->winter;
    text_add(out, "data;\n");
    add_groups(arena, out, question);
    add_feeds(arena, out, question);
    add_cuts(out, question);
    add_blocks(out, question, plan);
    add_table_needs(out, question);
    add_figures(out, question);
    add_limits(arena, out, &question->farm->limits);
    add_microbes(out, winter->microbial_form);
    text_print(out,
               "param water_nitrate := %.17g;\nparam water_sulfate := %.17g;\n"
               "param water_sodium := %.17g;\n",
               winter->water_nitrate_mg_per_l, winter->water_sulfate_mg_per_l,
               winter->water_sodium_mg_per_l);
    text_print(out, "param caution_weight := %.17g;\n", winter->caution_weight);
    text_print(out, "param carry_over := %.17g;\nend;\n", winter->carry_over_kg / KG_PER_TONNE);
}
