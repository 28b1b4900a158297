#define _XOPEN_SOURCE 700 /* mkdtemp */
/* The writer is ended after each of its steps: what is there then is the old file or the new.
 */
#include "entry/file_writing.h"

#include "entry/file_bytes.h"
#include "entry/folder_lock.h"
#include "support/corner.h"

#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

enum { PIECES = 5 };

typedef struct {
    int steps_left;
    WritingStep last;
} EndAfter;

static void end_after(WritingStep step, void *context) {
    EndAfter *end = context;
    end->last = step;
    if (end->steps_left-- == 0)
        raise(SIGKILL);
}

static char *many_bytes(Arena *arena, char letter) {
    const size_t length = (size_t)PIECES * WRITING_PIECE_BYTES - 100;
    char *bytes = arena_take(arena, length + 1, 1);
    memset(bytes, letter, length);
    return bytes;
}

/* In a process of its own, which is killed after so many steps; false when there were fewer. */
static bool writer_ended(const Corner *corner, const char *bytes, int steps) {
    const pid_t child = fork();
    assert_true(child >= 0);
    if (child == 0) {
        EndAfter end = {steps, WRITING_OPENED};
        const WritingWatch watch = {end_after, &end};
        _exit(file_replace(corner_path(corner, "fed.csv.new-1"), corner_path(corner, "fed.csv"),
                           NULL, bytes, strlen(bytes), &watch));
    }
    int status;
    assert_int_equal(waitpid(child, &status, 0), child);
    return WIFSIGNALED(status);
}

static void a_writer_ended_at_any_step_leaves_the_old_file_or_the_new(void **state) {
    const Corner *corner = *state;
    const char *old = many_bytes(corner->arena, 'o');
    const char *new = many_bytes(corner->arena, 'n');
    int steps = 0;
    int old_seen = 0;
    int new_seen = 0;
    for (;; steps++) {
        assert_null(
            file_write(corner->arena, corner_path(corner, "fed.csv"), old, strlen(old)));
        const bool was_ended = writer_ended(corner, new, steps);
        const ReadFile read = file_read(corner->arena, corner_path(corner, "fed.csv"));
        assert_int_equal(read.outcome, READ_DONE);
        const bool is_old = strcmp(read.bytes, old) == 0;
        assert_true(is_old || strcmp(read.bytes, new) == 0);
        old_seen += is_old;
        new_seen += !is_old;
        const char *names[] = {"fed.csv"};
        folder_sweep(corner->arena, corner->folder, names, 1);
        assert_int_equal(file_read(corner->arena, corner_path(corner, "fed.csv.new-1")).outcome,
                         READ_MISSING);
        if (!was_ended)
            break;
    }
    /* opened, five pieces, flushed, closed: the old one; renamed, done, and unhindered: the new
     */
    assert_int_equal(steps, PIECES + 5);
    assert_int_equal(old_seen, PIECES + 3);
    assert_int_equal(new_seen, 3);
}

static void a_first_file_ended_at_any_step_is_not_there_or_whole(void **state) {
    const Corner *corner = *state;
    const char *bytes = many_bytes(corner->arena, 'n');
    for (int steps = 0;; steps++) {
        const bool was_ended = writer_ended(corner, bytes, steps);
        const ReadFile read = file_read(corner->arena, corner_path(corner, "fed.csv"));
        assert_true(read.outcome == READ_MISSING || strcmp(read.bytes, bytes) == 0);
        unlink(corner_path(corner, "fed.csv"));
        unlink(corner_path(corner, "fed.csv.new-1"));
        if (!was_ended)
            break;
    }
}

static void what_others_left_beside_is_left_alone(void **state) {
    const Corner *corner = *state;
    assert_null(file_write(corner->arena, corner_path(corner, "fed.csv.newer"), "a", 1));
    assert_null(file_write(corner->arena, corner_path(corner, "stacks.csv.new-3"), "a", 1));
    const char *names[] = {"", "fed.csv"};
    folder_sweep(corner->arena, corner->folder, names, 2);
    assert_int_equal(file_read(corner->arena, corner_path(corner, "fed.csv.newer")).outcome,
                     READ_DONE);
    assert_int_equal(file_read(corner->arena, corner_path(corner, "stacks.csv.new-3")).outcome,
                     READ_DONE);
}

/* ---- the lock ---- */

/* A process that holds the lock until it is told, by the end of a pipe, to end without a word.
 */
static pid_t holder(const Corner *corner, int *until) {
    int held[2], end[2];
    assert_int_equal(pipe(held), 0);
    assert_int_equal(pipe(end), 0);
    const pid_t child = fork();
    assert_true(child >= 0);
    if (child == 0) {
        int lock;
        char byte = 'h';
        close(end[1]);
        if (folder_lock(corner->arena, corner->folder, 0, &lock) ||
            write(held[1], &byte, 1) != 1)
            _exit(1);
        _exit(read(end[0], &byte, 1) != 0);
    }
    char byte;
    assert_int_equal(read(held[0], &byte, 1), 1);
    close(held[0]);
    close(held[1]);
    close(end[0]);
    *until = end[1];
    return child;
}

static void a_folder_is_locked_for_one_at_a_time(void **state) {
    const Corner *corner = *state;
    int until;
    int lock;
    const pid_t child = holder(corner, &until);
    const char *why = folder_lock(corner->arena, corner->folder, 0, &lock);
    assert_string_equal(why, "someone else is writing there and does not finish; try again");
    close(until);
    assert_int_equal(waitpid(child, NULL, 0), child);
    assert_null(folder_lock(corner->arena, corner->folder, 0, &lock));
    folder_unlock(lock);
}

static void who_waits_gets_the_lock_when_the_other_is_done(void **state) {
    const Corner *corner = *state;
    int until;
    int lock;
    const pid_t child = holder(corner, &until);
    const pid_t ender = fork();
    assert_true(ender >= 0);
    if (ender == 0) {
        nanosleep(&(struct timespec){0, 100000000L}, NULL);
        _exit(0); /* its end of the pipe goes with it */
    }
    close(until);
    assert_null(folder_lock(corner->arena, corner->folder, 10, &lock));
    folder_unlock(lock);
    assert_int_equal(waitpid(child, NULL, 0), child);
    assert_int_equal(waitpid(ender, NULL, 0), ender);
}

static void a_folder_that_is_not_there_cannot_be_locked(void **state) {
    const Corner *corner = *state;
    int lock;
    assert_string_equal(folder_lock(corner->arena, corner_path(corner, "nowhere"), 0, &lock),
                        "there is no such folder");
}

#define CORNER_TEST(test) cmocka_unit_test_setup_teardown((test), corner_open, corner_close)

int main(void) {
    const struct CMUnitTest tests[] = {
        CORNER_TEST(a_writer_ended_at_any_step_leaves_the_old_file_or_the_new),
        CORNER_TEST(a_first_file_ended_at_any_step_is_not_there_or_whole),
        CORNER_TEST(what_others_left_beside_is_left_alone),
        CORNER_TEST(a_folder_is_locked_for_one_at_a_time),
        CORNER_TEST(who_waits_gets_the_lock_when_the_other_is_done),
        CORNER_TEST(a_folder_that_is_not_there_cannot_be_locked),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
