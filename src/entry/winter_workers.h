/* Hard winters shared out over worker processes. A winter is what its number makes it, so how
 * many workers there are changes nothing but the time; a worker that dies takes its own winters
 * with it and no others, and Ctrl-C ends the drawing, not the plan. */
#ifndef ENTRY_WINTER_WORKERS_H
#define ENTRY_WINTER_WORKERS_H

#include "planner/hard_winter.h"
#include <sys/types.h>

typedef struct {
    int done, asked;
    const pid_t *workers; /* of those still at work */
    int worker_count;
} WinterProgress;

typedef void WatchWinters(void *context, const WinterProgress *progress);

typedef struct {
    int count;   /* of winters; 0: none are drawn */
    int workers; /* 0: in this process */
    uint64_t seed;
    WatchWinters *watch; /* told before the first winter and then now and again; NULL: nobody */
    void *context;
} WinterJob;

/* What they come to; its remark says what became of winters that are missing. */
const HardWinters *winters_by_workers(Arena *arena, const HardWinterModel *model,
                                      const WinterJob *job);

/* As many as there are processors, within reason. */
int usual_worker_count(void);

/* A line on standard error while it takes more than a second; the context is a WinterLine. */
typedef struct {
    double begun; /* seconds of a clock; 0 at first */
    bool is_shown;
} WinterLine;
void winter_line_watch(void *context, const WinterProgress *progress);

#endif
