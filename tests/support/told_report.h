/* A report of a winter worked by hand (hand_question.h), and whether it says something. */
#ifndef SUPPORT_TOLD_REPORT_H
#define SUPPORT_TOLD_REPORT_H

#include "outcome/plan_report.h"
#include "support/hand_question.h"
#include <string.h>

/* Thirty days from 1 November, with the words that a farm's files would bring. */
static inline HandQuestion *hand_november(Arena *arena) {
    HandQuestion *hand = hand_question(arena, 30);
    hand->farm.winter.farm = "";
    hand->farm.winter.currency = "$";
    hand->farm.weather.normals_station = "nowhere";
    for (int g = 0; g < HAND_MOST; g++)
        hand->groups[g].stand_ins = "";
    return hand;
}

static inline const Report *hand_report(Arena *arena, const HandQuestion *hand) {
    WinterPlan *plan = ARENA_NEW(arena, WinterPlan);
    *plan = plan_winter(arena, &hand->question);
    return plan_report(arena, plan, UNITS_METRIC);
}

/* The first caution of a topic whose fact has this part ("": any), or NULL. */
const Caution *hand_caution(Arena *arena, const HandQuestion *hand, const char *topic,
                            const char *part);

/* In a paragraph or remark. */
static inline bool report_says(const Report *report, const char *words) {
    for (const ReportSection *section = report->first; section; section = section->next) {
        for (const ReportPiece *piece = section->first; piece; piece = piece->next) {
            if (piece->text && strstr(piece->text, words))
                return true;
        }
    }
    return false;
}

#endif
