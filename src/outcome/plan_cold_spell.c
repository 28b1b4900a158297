/* What to change when a cold spell comes, in words and as figures. */
#include "base/text.h"
#include "outcome/day_words.h"
#include "outcome/plan_report.h"
#include <math.h>

#define COUNT(array) ((int)(sizeof(array) / sizeof((array)[0])))

double cold_change_kg(const PlanFindings *findings, const ColdSpell *spell, int feed) {
    const double eaten = spell->eaten[feed] - findings->plan->blocks[spell->block].eaten[feed];
    return eaten * plan_taken_per_eaten(&findings->plan->question->feeds[feed]);
}

static bool is_changed(const PlanFindings *findings, const ColdSpell *spell, int feed) {
    return fabs(cold_change_kg(findings, spell, feed)) >= WORTH_WEIGHING_KG;
}

const char *cold_change_words(Arena *arena, const PlanFindings *findings,
                              const ColdSpell *spell) {
    Text text = text_new(arena);
    for (int side = 0; side < 2; side++) {
        bool has_any = false;
        for (int f = 0; f < findings->plan->question->feed_count; f++) {
            const double kg = cold_change_kg(findings, spell, f) * (side == 0 ? 1.0 : -1.0);
            if (kg < WORTH_WEIGHING_KG)
                continue;
            if (has_any)
                text_add(&text, ", ");
            else
                text_print(&text, "%s%s ", text.length > 0 ? "; " : "",
                           side == 0 ? "add" : "take away");
            text_print(&text, "%s of %s",
                       measure_words(arena, findings->units, MEASURE_FEED, kg),
                       findings->plan->question->feeds[f].name);
            has_any = true;
        }
    }
    return text.bytes;
}

const char *cold_lack_words(Arena *arena, const PlanFindings *findings,
                            const ColdSpell *spell) {
    const PlanBlock *block = &findings->plan->question->blocks[spell->block];
    const double asked = block->need.gain.kg_per_day;
    const bool grows = block->need.retained.mcal_per_day > 0.0;
    if (grows && spell->lack_mcal > 0.0)
        return arena_print(arena,
                           " Even so %.1f Mcal a day of their upkeep are lacking: they gain "
                           "nothing and draw on their bodies.",
                           spell->lack_mcal);
    if (grows && spell->gain_kg < 0.95 * asked)
        return arena_print(arena, " On such a day they gain %s where %s is asked.",
                           measure_words(arena, findings->units, MEASURE_FEED, spell->gain_kg),
                           measure_words(arena, findings->units, MEASURE_FEED, asked));
    if (spell->lack_mcal <= 0.0)
        return "";
    if (spell->condition_change < 0.0)
        return arena_print(arena,
                           " Even so %.1f Mcal a day are lacking, which they take off their "
                           "backs: %d such days cost about %.2f of a condition score (of 9).",
                           spell->lack_mcal, COLD_SPELL_DAYS, -spell->condition_change);
    return arena_print(arena, " Even so %.1f Mcal a day are lacking: they lose weight.",
                       spell->lack_mcal);
}

const char *cold_unchanged_words(Arena *arena, const PlanFindings *findings,
                                 const ColdSpell *spell) {
    return cold_lack_words(arena, findings, spell)[0] != '\0'
               ? "nothing in the yard helps within the limits; feed as planned"
               : "the ration carries it; feed as planned";
}

static void add_group(Report *report, const PlanFindings *findings, int group) {
    Arena *arena = report->arena;
    const PlanQuestion *question = findings->plan->question;
    const ColdSpell *spell = &findings->spells[group];
    const char *name = question->farm->herd.names[group];
    if (spell->block < 0) {
        report_paragraph(report, "%s: nothing; cold adds nothing to speak of.", name);
        return;
    }
    const char *change = cold_change_words(arena, findings, spell);
    report_paragraph(
        report, "%s, from %s, at %s (%.1f Mcal a day more), a head and day: %s.%s%s", name,
        day_short(arena, question->blocks[spell->block].from),
        measure_words(arena, findings->units, MEASURE_TEMPERATURE, spell->air.celsius),
        spell->added_mcal,
        change[0] != '\0' ? change : cold_unchanged_words(arena, findings, spell),
        cold_lack_words(arena, findings, spell),
        spell->is_held_by_step
            ? " More grain or pellets would help, but not at once: another step every second "
              "day, and only while the cold lasts."
            : "");
}

static double all_take_kg(const PlanFindings *findings, int feed) {
    const PlanQuestion *question = findings->plan->question;
    double kg = 0.0;
    for (int g = 0; g < question->farm->herd.count; g++) {
        const ColdSpell *spell = &findings->spells[g];
        if (spell->block >= 0 && is_changed(findings, spell, feed))
            kg += cold_spell_takes_kg(findings->plan, spell, feed);
    }
    return kg;
}

static double left_kg(const PlanFindings *findings, int feed) {
    return findings->plan->question->feeds[feed].is_own ? findings->runouts[feed].left_kg : 0.0;
}

static void add_stacks(Report *report, const PlanFindings *findings) {
    const WinterPlan *plan = findings->plan;
    const char *tons = measure_unit(findings->units, MEASURE_TONNAGE);
    const ReportColumn columns[] = {
        {"feed", "Ten such days for all groups", "", 0},
        {"takes", "Takes more", tons, 1},
        {"left", "The plan leaves", tons, 1},
    };
    ReportColumn *kept = ARENA_ARRAY(report->arena, ReportColumn, COUNT(columns));
    for (int i = 0; i < COUNT(columns); i++)
        kept[i] = columns[i];
    ReportTable *table = NULL;
    bool is_over = false;
    for (int f = 0; f < plan->question->feed_count; f++) {
        const double kg = all_take_kg(findings, f);
        if (fabs(kg) < 1.0)
            continue;
        if (!table)
            table = report_table(report, "cold_spell", "", kept, COUNT(columns));
        is_over = is_over || kg > left_kg(findings, f) + 1.0;
        report_row(table, (Cell[]){text_cell(plan->question->feeds[f].name),
                                   measure_cell(findings->units, MEASURE_TONNAGE, kg),
                                   plan->question->feeds[f].is_own
                                       ? measure_cell(findings->units, MEASURE_TONNAGE,
                                                      left_kg(findings, f))
                                       : empty_cell()});
    }
    if (is_over)
        report_paragraph(report,
                         "Where ten days take more than the plan leaves, or of a feed that is "
                         "bought, have that much more in the yard before the cold comes: what "
                         "is taken early lacks in spring.");
}

void plan_report_cold_spell(Report *report, const PlanFindings *findings) {
    const PlanQuestion *question = findings->plan->question;
    report_section(report, "cold_spell", "If a cold spell comes");
    report_paragraph(
        report,
        "The least change, as put out, that carries the cold spell of the weather file in the "
        "period where it takes most; only with feed that is in the yard then. In other periods "
        "a cold spell adds no more energy than that; where the change is another it stands "
        "in a table below. Begin "
        "a day before the cold and go back in the same steps.");
    for (int g = 0; g < question->farm->herd.count; g++)
        add_group(report, findings, g);
    add_stacks(report, findings);
    plan_report_cold_periods(report, findings);
    report_remark(
        report, SEVERITY_CAUTION, "cold spell",
        arena_print(
            report->arena,
            "All grain, pellets and meals together go up by no more than %s a head at "
            "once, over what they are used to; never catch up a missed day, and never "
            "put hungry cattle at grain. Feeds high in nitrate, and urea, do not go up "
            "at all. A windbreak, dry bedding and open water do as much as feed. The "
            "trade's rule of thumb, a pound of grain for each 5 C (9 F) below -20 C (-4 F), is "
            "gone up to in "
            "such steps too. Thin and old cattle first; ask your veterinarian or a "
            "nutritionist.",
            measure_words(report->arena, findings->units, MEASURE_FEED, CONCENTRATE_STEP_KG)),
        arena_print(report->arena, "%s %s", source_key(SOURCE_UNL_LIMIT_FEEDING),
                    source_key(SOURCE_LANG_COLD)));
}

static void add_spell(Figure *list, const PlanFindings *findings, const ColdSpell *spell) {
    const PlanQuestion *question = findings->plan->question;
    const PlanBlock *block = &question->blocks[spell->block];
    Figure *of = figure_list_object(list);
    figure_text(of, "group", question->farm->herd.names[block->group]);
    figure_text(of, "from", day_iso(list->arena, block->from));
    figure_text(of, "to", day_iso(list->arena, block->to));
    figure_number(of, "air_celsius", spell->air.celsius);
    figure_number(of, "added_nem_mcal", spell->added_mcal);
    figure_number(of, "lack_nem_mcal", spell->lack_mcal);
    figure_number(of, "gain_kg",
                  block->need.retained.mcal_per_day > 0.0 ? spell->gain_kg : (double)NAN);
    figure_number(of, "condition_change_of_ten_days", spell->condition_change);
    figure_truth(of, "held_by_step", spell->is_held_by_step);
    Figure *ration = figure_list(of, "ration");
    for (int f = 0; f < question->feed_count; f++) {
        if (spell->eaten[f] <= 0.0 && !is_changed(findings, spell, f))
            continue;
        Figure *row = figure_list_object(ration);
        figure_text(row, "feed", question->feeds[f].name);
        figure_number(row, "dry_matter_kg", spell->eaten[f]);
        figure_number(row, "as_fed_kg",
                      spell->eaten[f] * plan_taken_per_eaten(&question->feeds[f]));
        figure_number(row, "change_as_fed_kg", cold_change_kg(findings, spell, f));
        figure_number(row, "ten_days_group_as_fed_kg",
                      cold_spell_takes_kg(findings->plan, spell, f));
    }
}

void plan_cold_spell_figures(Figure *root, const PlanFindings *findings) {
    const PlanQuestion *question = findings->plan->question;
    Figure *worst = figure_list(root, "cold_spells");
    for (int g = 0; g < question->farm->herd.count; g++) {
        if (findings->spells[g].block >= 0)
            add_spell(worst, findings, &findings->spells[g]);
    }
    Figure *all = figure_list(root, "cold_spells_by_period");
    for (int b = 0; findings->period_spells && b < question->block_count; b++) {
        if (findings->period_spells[b].block >= 0)
            add_spell(all, findings, &findings->period_spells[b]);
    }
}
