/* The winter plan as a report: verdict, cost, purchases, rations, stock, cautions, sources. */
#ifndef OUTCOME_PLAN_REPORT_H
#define OUTCOME_PLAN_REPORT_H

#include "outcome/plan_findings.h"

Report *plan_report(Arena *arena, const WinterPlan *plan, Units units);
Report *plan_report_of(Arena *arena, const PlanFindings *findings);

/* The same in brief, of findings in brief: what to feed, what to buy, what is left, and every
 * danger and caution: plan_brief.c */
Report *plan_brief_of(Arena *arena, const PlanFindings *findings);

/* The verdict of a winter that is short: plan_shortfall.c */
const char *shortfall_words(Arena *arena, const PlanFindings *findings);

/* Its first sentence alone. */
const char *short_headline(Arena *arena, const PlanFindings *findings);

/* Put out more (or, below 0, less) of a feed a head on a day of the spell; what is below the
 * first is not worth weighing: plan_cold_spell.c */
#define WORTH_WEIGHING_KG 0.05 /* as fed a head and day; own choice */
double cold_change_kg(const PlanFindings *findings, const ColdSpell *spell, int feed);
/* What a cold day leaves lacking all the same, to stand behind a full stop; "". */
const char *cold_lack_words(Arena *arena, const PlanFindings *findings, const ColdSpell *spell);
/* Why nothing is changed on such a day. */
const char *cold_unchanged_words(Arena *arena, const PlanFindings *findings,
                                 const ColdSpell *spell);
/* "add 1.2 kg of Hay, 0.5 kg of Barley; take away 0.8 kg of Straw", or "" */
const char *cold_change_words(Arena *arena, const PlanFindings *findings,
                              const ColdSpell *spell);

/* What a row of loads is shown in: minerals and urea of which the largest load is less than
 * half a kilogram in grams or ounces, which the name then says: plan_rations.c */
Measure load_measure(const PlanFeed *feed, double largest_kg);
/* "Magnesium oxide (g)", or the name alone */
const char *load_name(Arena *arena, Units units, const PlanFeed *feed, Measure measure);

/* A share as winters of 100; all and none are said only of all and none: plan_winters.c */
double winters_of_a_hundred(double share);

/* "54.7 t of Feed barley; 3.5 t of Salt", or nothing: plan_report.c */
void plan_purchase_words(Text *text, const WinterPlan *plan, Units units);

double plan_head_days(const PlanQuestion *question);

/* What no figure tells of: plan_unknowns.c */
void plan_report_unknowns(Report *report, const WinterPlan *plan);

/* " What would mend it, alone: ...", or "": plan_mend.c */
const char *cheapest_mend_words(Arena *arena, const PlanFindings *findings);

/* "What sets the cost ..." of a group's blocks, or "": plan_binding.c */
const char *binding_words(Arena *arena, const PlanFindings *findings, int first, int count);

/* The parts, each adding its sections: plan_mend.c, plan_rations.c, plan_step_up.c,
 * plan_cold_spell.c, plan_cold_periods.c, plan_stock.c, plan_figures.c, plan_summary.c,
 * plan_stock_chart.c, plan_cost_chart.c, plan_ration_charts.c */
void plan_report_summary(Report *report, const PlanFindings *findings);
/* plan_report.c; kind: "" or what stands behind "Winter plan" */
const char *plan_title(Arena *arena, const Winter *winter, const char *kind);
void plan_report_verdict(Report *report, const PlanFindings *findings);
void plan_report_dangers(Report *report, const PlanFindings *findings);
void plan_report_record_gap(Report *report, const Farm *farm);
void plan_report_cautions(Report *report, const PlanFindings *findings);
void plan_report_stand_ins(Report *report, const PlanFindings *findings);
void plan_report_stock_chart(Report *report, const PlanFindings *findings);
void plan_report_winters_chart(Report *report, const WinterPlan *plan);
void plan_report_cost(Report *report, const PlanFindings *findings); /* plan_cost.c */
void plan_report_cost_chart(Report *report, const PlanFindings *findings);
void plan_report_ration_chart(Report *report, const PlanFindings *findings, int group);
void plan_report_supply_chart(Report *report, const PlanFindings *findings, int group);
void plan_report_mends(Report *report, const PlanFindings *findings);
void plan_report_rations(Report *report, const PlanFindings *findings);
void plan_report_step_ups(Report *report, const PlanFindings *findings);
void plan_report_cold_spell(Report *report, const PlanFindings *findings);
void plan_report_cold_periods(Report *report, const PlanFindings *findings);
void plan_report_stock(Report *report, const PlanFindings *findings);
void plan_report_purchases(Report *report, const PlanFindings *findings);
/* plan_changes.c: where only the rest of winter was planned, a plan was kept before and this
 * one is to feed by */
void plan_report_changes(Report *report, const PlanFindings *findings);
void plan_change_figures(Figure *root, const PlanFindings *findings);
void plan_report_yard(Report *report, const PlanFindings *findings); /* plan_yard.c */
/* plan_winters.c; `of_what` says which plan is fed, "" on the page of that plan itself */
void plan_report_winters(Report *report, const WinterPlan *plan, Units units,
                         const char *of_what);
void plan_winters_figures(Figure *root, const WinterPlan *plan);
/* " It lasts to turnout in ...", or "" */
const char *winters_verdict_words(Arena *arena, const WinterPlan *plan);
/* "in 32 of 100 winters" */
const char *winters_share_words(Arena *arena, double share);
void plan_yard_figures(Figure *root, const PlanFindings *findings);
void plan_cold_spell_figures(Figure *root, const PlanFindings *findings);
void plan_step_up_figures(Figure *root, const PlanFindings *findings);
void plan_mend_figures(Figure *root, const PlanFindings *findings);
/* None where the findings say so. */
void plan_figures(Figure *root, const PlanFindings *findings);

#endif
