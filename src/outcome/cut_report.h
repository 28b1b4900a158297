/* The page of next year's cut: the futures side by side, and what they rest on. */
#ifndef OUTCOME_CUT_REPORT_H
#define OUTCOME_CUT_REPORT_H

#include "outcome/cut_findings.h"
#include "outcome/measure.h"

Report *cut_report(Arena *arena, const CutFindings *findings, Units units);

/* The feed bought or not; NULL: there is none. */
const Offer *future_offer(const CutFindings *findings);

/* "All cut early, without Barley": a future in words, and its days as the head of a column. */
const char *future_words(Arena *arena, const CutFindings *findings, FutureName name);
const char *future_days_words(Arena *arena, const CutFindings *findings, FutureName name);
/* "3 Early, buy": its number among those that are there, as the head of a column. */
const char *future_label(Arena *arena, const CutFindings *findings, FutureName name);

/* Whether each field is cut alike on both of the given days. */
bool futures_are_of_one_day(const CutFindings *findings);
double future_hectares(const CutFindings *findings, FutureName name); /* cut in all */
/* "Cows short of Net energy (NEm), by 4 % of it and most from 1 Jan", of a plan that is short.
 */
const char *future_lack_words(Arena *arena, const CutPlan *plan);

/* A table with a column of what it is of and a column for each future that is there. */
ReportTable *futures_table(Report *report, const CutFindings *findings, const char *key,
                           const char *caption, const char *label, const char *unit);

/* Parts of it: cut_verdict.c, cut_cost_chart.c, cut_basis.c, cut_figures.c. */
void cut_cost_chart(Report *report, const CutFindings *findings);
void cut_report_verdict(Report *report, const CutFindings *findings, Units units);
void cut_report_turn(Report *report, const CutFindings *findings, Units units);
void cut_report_basis(Report *report, const CutFindings *findings, Units units);
void cut_report_figures(Report *report, const CutFindings *findings);

#endif
