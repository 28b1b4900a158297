/* The inside of hard_winter.c, shared by the file that draws a winter and the one that feeds
 * it; for these two alone. */
#ifndef PLANNER_HARD_WINTER_WORK_H
#define PLANNER_HARD_WINTER_WORK_H

#include "planner/hard_winter_model.h"

/* What one group is given of one feed in one pass over a day. */
typedef struct {
    int group, feed;
    double dry_kg, nem; /* the day's, all head */
} Given;

/* A group's day: what it wants and still lacks, Mcal of NEm, and the dry matter it could still
 * eat, kg; all head. */
typedef struct {
    double wanted, lack, room, put_out_kg;
} GroupDay;

/* All that is given on a day as planned, before it is known whether it is there. */
typedef struct {
    Given *given; /* [groups * feeds] */
    int given_count;
    double *asked_kg; /* [feeds] as fed */
    GroupDay *days;   /* [groups] */
} DayRation;

struct HardWinterWork {
    double *departure_c;              /* [months] */
    double *stock_kg, *energy;        /* [feeds] at the start; NEm over what was thought */
    double *gain_energy;              /* [feeds] the same of NEg */
    double *taken_per_dry;            /* [feeds] kg as fed for a kg of dry matter eaten */
    double *left_kg, *empty_kg;       /* [feeds]; what counts as ended */
    double *end_day;                  /* [feeds] */
    double *scale;                    /* [spans], group by group */
    int *first_scale, *at_span;       /* [groups] */
    double *group_short, *group_cold; /* [groups] */
    DayRation planned;                /* of every day until `planned_to` */
    int planned_to;
    DayRation today;
    int last_day;
    double short_day, short_kg;
    int first_gap;        /* the first day a stack has less than the rations ask of it */
    double *gap_left_kg;  /* [feeds] on its morning */
    double *asked_of_day; /* [days * feeds] before it */
};

/* Draws a winter: how cold each month is, when it ends, what each stack weighs and is worth;
 * and by how much each ration is then scaled. */
void hard_winter_draw(const HardWinterModel *model, uint64_t number, HardWinterWork *work);

/* As fmin and fmax, of numbers that are never NAN: a winter takes thousands. */
static inline double smaller_of(double a, double b) { return a < b ? a : b; }
static inline double larger_of(double a, double b) { return a > b ? a : b; }

#endif
