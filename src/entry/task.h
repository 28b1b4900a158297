/* A task turns the bytes of a farm's files into a report. It opens nothing: the caller hands
 * over the files, so that a test, a fuzzer or a web page asks in the same way. */
#ifndef ENTRY_TASK_H
#define ENTRY_TASK_H

#include "base/fault.h"
#include "cattle/winter.h"
#include "outcome/measure.h"
#include "outcome/report.h"
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
    bool wants_sheets;     /* plan: the feed sheets beside the report */
    bool wants_year_table; /* needs: the tables to compare with books beside the herd's */
} FarmRequest;

typedef enum {
    TASK_DONE,  /* balanced, or nothing to balance */
    TASK_SHORT, /* the report was made, but feed falls short or a limit had to give */
    TASK_FAULTY /* faults in the input: no report */
} TaskStatus;

typedef struct {
    TaskStatus status;
    Report *report; /* NULL when TASK_FAULTY, except for check, which always has one */
    Report *sheets; /* of a plan, where they were wanted; else NULL */
} TaskResult;

TaskResult task_check(Arena *arena, Faults *faults, const FarmRequest *request);
TaskResult task_feeds(Arena *arena, Faults *faults, const FarmRequest *request);
TaskResult task_needs(Arena *arena, Faults *faults, const FarmRequest *request);
TaskResult task_plan(Arena *arena, Faults *faults, const FarmRequest *request);

#endif
