/* A task turns the bytes of a farm's files into a report. It opens nothing: the caller hands
 * over the files, so that a test, a fuzzer or a web page asks in the same way. */
#ifndef ENTRY_TASK_H
#define ENTRY_TASK_H

#include "base/calendar.h"
#include "base/fault.h"
#include "cattle/winter.h"
#include "entry/record_option.h"
#include "entry/winter_workers.h"
#include "outcome/measure.h"
#include "outcome/report.h"
#include "planner/farm.h"
#include <stdbool.h>

typedef struct {
    const char *name;  /* as shown in faults: "sample-inventory/stacks.csv" */
    const char *bytes; /* NULL: the farm has no such file */
    size_t length;
} FileBytes;

/* Which files a farm may have; the order of FARM_FILE below. */
typedef enum {
    FARM_HERD,
    FARM_STACKS,
    FARM_FEED_TESTS,
    FARM_FOR_SALE,
    FARM_WINTER,
    FARM_WEATHER,
    FARM_NEEDS,
    FARM_FIELDS,
    FARM_FED,
    FARM_COUNTS,
    FARM_HEAD_CHANGES,
    FARM_LAST_PLAN,
    FARM_FILE_COUNT
} FarmFile;

extern const char *const FARM_FILE_NAME[FARM_FILE_COUNT]; /* "stacks.csv"; "" for the herd */
extern const bool FARM_FILE_NEEDED[FARM_FILE_COUNT];

typedef struct {
    FileBytes file[FARM_FILE_COUNT];
    Units units;
    bool units_were_asked; /* false: the farm's own choice in winter.csv counts */
    bool needs_way_was_asked, cold_way_was_asked; /* as for units */
    NeedsWay needs_way;
    ColdWay cold_way;
    Day dates[2]; /* cut: the days to compare */
    int date_count;
    const char *buy; /* cut: the feed for sale to compare; NULL: the first grain */
    bool
        has_from; /* plan: the rest of the winter; stock: always, the clock is not asked here */
    Day from;
    bool wants_brief;          /* plan: no question beside it is asked; goes with no sheets */
    bool wants_cheapest;       /* plan: as it is found, not evened out nor held to yard rules */
    bool is_to_be_read;        /* plan: no JSON is made of it, so it has no figures beside */
    bool wants_keeping;        /* plan: it comes back as a file to be written */
    RecordWish record;         /* fed: its date is given, the clock is not asked here */
    bool wants_sheets;         /* plan: the feed sheets beside the report */
    WinterJob winters;         /* plan, stock: hard winters to draw; count 0 none */
    bool wants_year_table;     /* needs: the tables to compare with books beside the herd's */
    const FileBytes *what_ifs; /* compare; bytes NULL: it could not be opened, and was told */
    int what_if_count;
    const char *const *vary; /* compare: file, row, column, from, to; NULL: not asked for */
    bool wants_ship;         /* compare: what a head fewer from a day saves */
    Day ship_from;
} FarmRequest;

typedef enum {
    TASK_DONE,  /* balanced, or nothing to balance */
    TASK_SHORT, /* the report was made, but feed falls short or a limit had to give */
    TASK_FAULTY /* faults in the input: no report */
} TaskStatus;

typedef struct {
    TaskStatus status;
    FileBytes written; /* a file of the farm as it is to be written; name NULL: none */
    Report *report;    /* NULL when TASK_FAULTY, except for check, which always has one, and for
                          compare, which has one when the farm itself is without fault */
    Report *sheets;    /* of a plan, where they were wanted; else NULL */
} TaskResult;

TaskResult task_check(Arena *arena, Faults *faults, const FarmRequest *request);
TaskResult task_feeds(Arena *arena, Faults *faults, const FarmRequest *request);
TaskResult task_needs(Arena *arena, Faults *faults, const FarmRequest *request);
TaskResult task_cut(Arena *arena, Faults *faults, const FarmRequest *request);
TaskResult task_worth(Arena *arena, Faults *faults, const FarmRequest *request);
TaskResult task_stock(Arena *arena, Faults *faults, const FarmRequest *request);
TaskResult task_fed(Arena *arena, Faults *faults, const FarmRequest *request); /* task_fed.c */
TaskResult task_plan(Arena *arena, Faults *faults, const FarmRequest *request);
TaskResult task_compare(Arena *arena, Faults *faults,
                        const FarmRequest *request); /* task_compare.c */

#endif
