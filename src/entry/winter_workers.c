#include "entry/winter_workers.h"

#include <assert.h>
#include <errno.h>
#include <poll.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

enum { MOST_WORKERS = 8, WATCH_MILLISECONDS = 200 };

/* A winter as it goes through the pipe: its number, then its record. */
typedef struct {
    pid_t process;
    int pipe; /* -1: at its end */
    char *message;
    size_t arrived;
} Worker;

typedef struct {
    Arena *arena;
    const HardWinterModel *model;
    const WinterJob *job;
    size_t length; /* of a record */
    double *records;
    bool *is_done;
    Worker *workers;
    pid_t *at_work;
    int worker_count, dead_count, last_signal;
    int done;
} Work;

static volatile sig_atomic_t was_interrupted;

static void note_interrupt(int signal_number) {
    (void)signal_number;
    was_interrupted = 1;
}

static size_t message_bytes(const Work *work) { return sizeof(double) * (1 + work->length); }

/* ---- in the worker ---- */

static bool write_all(int pipe, const char *bytes, size_t length) {
    while (length > 0) {
        const ssize_t written = write(pipe, bytes, length);
        if (written < 0 && errno == EINTR)
            continue;
        if (written <= 0)
            return false;
        bytes += written;
        length -= (size_t)written;
    }
    return true;
}

static void work_through(const Work *work, int first, int step, int pipe) {
    HardWinterWork *room = hard_winter_work(work->arena, work->model);
    double *message = ARENA_ARRAY(work->arena, double, 1 + work->length);
    for (int i = first; i < work->job->count; i += step) {
        message[0] = i;
        hard_winter_run(work->model, (uint64_t)i, room, message + 1);
        if (!write_all(pipe, (const char *)message, message_bytes(work)))
            _exit(1);
    }
    _exit(0);
}

/* ---- in this process ---- */

static void tell_watch(Work *work) {
    if (!work->job->watch)
        return;
    int count = 0;
    for (int w = 0; w < work->worker_count; w++) {
        if (work->workers[w].pipe >= 0)
            work->at_work[count++] = work->workers[w].process;
    }
    const WinterProgress progress = {work->done, work->job->count, work->at_work, count};
    work->job->watch(work->job->context, &progress);
}

static void run_here(Work *work, int first, int step) {
    HardWinterWork *room = hard_winter_work(work->arena, work->model);
    for (int i = first; i < work->job->count && !was_interrupted; i += step) {
        hard_winter_run(work->model, (uint64_t)i, room,
                        work->records + (size_t)i * work->length);
        work->is_done[i] = true;
        work->done++;
        if (work->done % 100 == 0)
            tell_watch(work);
    }
}

/* false: the machine has no more of them, and its winters are run here. */
static bool start_worker(Work *work, int w) {
    int ends[2];
    if (pipe(ends) != 0)
        return false;
    const pid_t process = fork();
    if (process == 0) {
        signal(SIGINT, SIG_DFL);
        close(ends[0]);
        work_through(work, w, work->worker_count, ends[1]);
    }
    close(ends[1]);
    if (process < 0) {
        close(ends[0]);
        return false;
    }
    work->workers[w] = (Worker){.process = process, .pipe = ends[0]};
    work->workers[w].message = arena_take(work->arena, message_bytes(work), 1);
    return true;
}

static void take_message(Work *work, const Worker *worker) {
    double number;
    memcpy(&number, worker->message, sizeof number);
    const int winter = (int)number;
    assert(winter >= 0 && winter < work->job->count && !work->is_done[winter]);
    memcpy(work->records + (size_t)winter * work->length, worker->message + sizeof number,
           work->length * sizeof(double));
    work->is_done[winter] = true;
    work->done++;
}

static void end_worker(Work *work, Worker *worker) {
    int status = 0;
    close(worker->pipe);
    worker->pipe = -1;
    while (waitpid(worker->process, &status, 0) < 0 && errno == EINTR)
        continue;
    if (WIFEXITED(status) && WEXITSTATUS(status) == 0)
        return;
    const int signal_number = WIFSIGNALED(status) ? WTERMSIG(status) : 0;
    if (was_interrupted && signal_number == SIGINT)
        return; /* Ctrl-C at a terminal is told to all of them */
    work->dead_count++;
    work->last_signal = signal_number;
}

static void read_worker(Work *work, Worker *worker) {
    const ssize_t arrived = read(worker->pipe, worker->message + worker->arrived,
                                 message_bytes(work) - worker->arrived);
    if (arrived < 0 && errno == EINTR)
        return;
    if (arrived <= 0) {
        end_worker(work, worker);
        return;
    }
    worker->arrived += (size_t)arrived;
    if (worker->arrived < message_bytes(work))
        return;
    take_message(work, worker);
    worker->arrived = 0;
}

static bool read_once(Work *work) {
    struct pollfd waits[MOST_WORKERS];
    int of[MOST_WORKERS];
    int count = 0;
    for (int w = 0; w < work->worker_count; w++) {
        if (work->workers[w].pipe < 0)
            continue;
        of[count] = w;
        waits[count++] = (struct pollfd){.fd = work->workers[w].pipe, .events = POLLIN};
    }
    if (count == 0)
        return false;
    if (poll(waits, (nfds_t)count, WATCH_MILLISECONDS) < 0)
        return errno == EINTR;
    for (int i = 0; i < count; i++) {
        if (waits[i].revents != 0)
            read_worker(work, &work->workers[of[i]]);
    }
    return true;
}

static void stop_workers(Work *work) {
    const int dead_count = work->dead_count;
    const int last_signal = work->last_signal;
    for (int w = 0; w < work->worker_count; w++) {
        if (work->workers[w].pipe < 0)
            continue;
        kill(work->workers[w].process, SIGTERM);
        end_worker(work, &work->workers[w]);
    }
    work->dead_count = dead_count; /* those were ended here */
    work->last_signal = last_signal;
}

static void run_in_workers(Work *work) {
    for (int w = 0; w < work->worker_count; w++)
        work->workers[w].pipe = -1;
    bool *is_started = ARENA_ARRAY(work->arena, bool, work->worker_count);
    for (int w = 0; w < work->worker_count; w++)
        is_started[w] = start_worker(work, w);
    tell_watch(work);
    for (int w = 0; w < work->worker_count; w++) {
        if (!is_started[w])
            run_here(work, w, work->worker_count);
    }
    int told = 0;
    while (!was_interrupted && read_once(work)) {
        if (work->done - told < 50)
            continue;
        told = work->done;
        tell_watch(work);
    }
    stop_workers(work);
}

static const char *remark_of(const Work *work) {
    const int missing = work->job->count - work->done;
    if (missing == 0)
        return "";
    if (was_interrupted)
        return arena_print(
            work->arena, "The drawing was stopped: these are %d of %d winters.%s", work->done,
            work->job->count,
            work->dead_count > 0
                ? arena_print(work->arena,
                              " Before that %d of %d worker processes died (the last by signal "
                              "%d).",
                              work->dead_count, work->worker_count, work->last_signal)
                : "");
    return arena_print(
        work->arena,
        "%d of %d worker processes died (the last by signal %d): these are %d of "
        "%d winters, and the missing ones are no worse and no better than they.",
        work->dead_count, work->worker_count, work->last_signal, work->done, work->job->count);
}

const HardWinters *winters_by_workers(Arena *arena, const HardWinterModel *model,
                                      const WinterJob *job) {
    Work work = {.arena = arena, .model = model, .job = job};
    work.length = (size_t)hard_winter_record_length(model);
    work.records = ARENA_ARRAY(arena, double, (size_t)job->count *work.length);
    work.is_done = ARENA_ARRAY(arena, bool, job->count);
    work.worker_count = job->workers < MOST_WORKERS ? job->workers : MOST_WORKERS;
    work.workers = ARENA_ARRAY(arena, Worker, MOST_WORKERS);
    work.at_work = ARENA_ARRAY(arena, pid_t, MOST_WORKERS);
    struct sigaction interrupt = {.sa_handler = note_interrupt};
    struct sigaction before;
    was_interrupted = 0;
    sigemptyset(&interrupt.sa_mask);
    interrupt.sa_flags = (int)SA_RESETHAND; /* a second Ctrl-C ends the program */
    sigaction(SIGINT, &interrupt, &before);
    if (work.worker_count > 0)
        run_in_workers(&work);
    else
        run_here(&work, 0, 1);
    sigaction(SIGINT, &before, NULL);
    HardWinters *winters = ARENA_NEW(arena, HardWinters);
    *winters = *hard_winters_told(arena, model, work.records, work.is_done, job->count);
    winters->remark = remark_of(&work);
    return winters;
}

int usual_worker_count(void) {
    const long processors = sysconf(_SC_NPROCESSORS_ONLN);
    if (processors < 1)
        return 1;
    return processors < MOST_WORKERS ? (int)processors : MOST_WORKERS;
}

/* ---- the line ---- */

#define SECONDS_UNSAID 1.0

static double seconds(void) {
    struct timespec at;
    clock_gettime(CLOCK_MONOTONIC, &at);
    return (double)at.tv_sec + 1e-9 * (double)at.tv_nsec;
}

void winter_line_watch(void *context, const WinterProgress *progress) {
    WinterLine *line = context;
    const double now = seconds();
    if (line->begun <= 0.0)
        line->begun = now;
    if (now - line->begun < SECONDS_UNSAID)
        return;
    line->is_shown = true;
    fprintf(stderr, "\rwinters drawn: %d of %d ", progress->done, progress->asked);
    fflush(stderr);
}
