#define _XOPEN_SOURCE 700 /* mkdtemp */
#include "entry/file_bytes.h"

#include "base/table.h"

#include "support/corner.h"

#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

static void put_file(const Corner *place, const char *name, const char *text) {
    FILE *file = fopen(corner_path(place, name), "w");
    assert_non_null(file);
    fputs(text, file);
    fclose(file);
}

static void assert_holds(const Corner *place, const char *name, const char *text) {
    const ReadFile read = file_read(place->arena, corner_path(place, name));
    assert_int_equal(read.outcome, READ_DONE);
    assert_string_equal(read.bytes, text);
}

static void make_folder(const Corner *place, const char *name) {
    assert_int_equal(mkdir(corner_path(place, name), 0777), 0);
}

/* Files of any name in the folder, without "." and "..". */
static int file_count(const Corner *place) {
    const char *command = arena_print(place->arena, "ls -A '%s' | wc -l", place->folder);
    FILE *pipe = popen(command, "r");
    int count = -1;
    assert_int_equal(fscanf(pipe, "%d", &count), 1);
    pclose(pipe);
    return count;
}

static void bytes_are_read_as_they_are(void **state) {
    const Corner *place = *state;
    assert_null(file_write(place->arena, corner_path(place, "a"), "a\0b\r\n\xFF", 6));
    const ReadFile read = file_read(place->arena, corner_path(place, "a"));
    assert_int_equal(read.outcome, READ_DONE);
    assert_int_equal(read.length, 6);
    assert_memory_equal(read.bytes, "a\0b\r\n\xFF", 6);
}

static void an_empty_file_has_bytes_but_none(void **state) {
    const Corner *place = *state;
    put_file(place, "a", "");
    const ReadFile read = file_read(place->arena, corner_path(place, "a"));
    assert_int_equal(read.outcome, READ_DONE);
    assert_non_null(read.bytes);
    assert_int_equal(read.length, 0);
}

static void of_an_endless_file_one_byte_more_than_allowed_is_read(void **state) {
    const Corner *place = *state;
    const ReadFile read = file_read(place->arena, "/dev/zero");
    assert_int_equal(read.outcome, READ_DONE);
    assert_int_equal(read.length, TABLE_MOST_BYTES + 1);
}

static void a_missing_file_is_answered_with_the_nearest_name(void **state) {
    const Corner *place = *state;
    put_file(place, "stacks.csv", "");
    put_file(place, "winter.csv", "");
    const ReadFile read = file_read(place->arena, corner_path(place, "stack.csv"));
    assert_int_equal(read.outcome, READ_MISSING);
    assert_string_equal(read.why, "no such file; did you mean 'stacks.csv'?");
}

static void a_missing_file_is_answered_with_what_there_is(void **state) {
    const Corner *place = *state;
    assert_string_equal(file_read(place->arena, corner_path(place, "x.csv")).why,
                        "no such file, and no CSV file in its folder");
    put_file(place, "north-farm.csv", "");
    put_file(place, "creek-farm.csv", "");
    put_file(place, "notes.txt", "");
    assert_string_equal(
        file_read(place->arena, corner_path(place, "x.csv")).why,
        "no such file; CSV files in this folder: creek-farm.csv, north-farm.csv");
}

static void a_long_list_of_files_is_cut(void **state) {
    const Corner *place = *state;
    for (int i = 0; i < 30; i++)
        put_file(place, arena_print(place->arena, "herd-%02d.csv", i), "");
    assert_string_equal(file_read(place->arena, corner_path(place, "x.csv")).why,
                        "no such file; CSV files in this folder: herd-00.csv, herd-01.csv, "
                        "herd-02.csv, herd-03.csv, herd-04.csv, herd-05.csv, herd-06.csv, "
                        "herd-07.csv and 22 more");
}

static void a_missing_folder_is_named(void **state) {
    const Corner *place = *state;
    const ReadFile read = file_read(place->arena, corner_path(place, "nowhere/x.csv"));
    assert_int_equal(read.outcome, READ_MISSING);
    assert_string_equal(read.why,
                        arena_print(place->arena, "no such file: there is no folder '%s'",
                                    corner_path(place, "nowhere")));
}

static void a_folder_where_a_file_belongs_is_not_read(void **state) {
    const Corner *place = *state;
    put_file(place, "herd.csv", "");
    const ReadFile read = file_read(place->arena, place->folder);
    assert_int_equal(read.outcome, READ_FAILED);
    assert_string_equal(read.why, "this is a folder, not a file; CSV files in it: herd.csv");
}

static void csv_files_are_listed_in_order_without_hidden_ones(void **state) {
    const Corner *place = *state;
    put_file(place, "b.csv", "");
    put_file(place, "a.CSV", "");
    put_file(place, ".lock.csv", "");
    put_file(place, "csv", "");
    int count = 0;
    const char *why = NULL;
    const char **names = folder_csv_files(place->arena, place->folder, &count, &why);
    assert_int_equal(count, 2);
    assert_string_equal(names[0], "a.CSV");
    assert_string_equal(names[1], "b.csv");
}

static void a_folder_that_is_none_is_told_from_one_that_is_missing(void **state) {
    const Corner *place = *state;
    put_file(place, "a.csv", "");
    int count = 0;
    const char *why = NULL;
    assert_null(folder_csv_files(place->arena, corner_path(place, "a.csv"), &count, &why));
    assert_string_equal(why, "this is a file, not a folder");
    assert_null(folder_csv_files(place->arena, corner_path(place, "b"), &count, &why));
    assert_string_equal(why, "there is no such folder");
}

static void a_slash_is_not_doubled(void **state) {
    const Corner *place = *state;
    assert_string_equal(path_in_folder(place->arena, "yard", "a.csv"), "yard/a.csv");
    assert_string_equal(path_in_folder(place->arena, "yard/", "a.csv"), "yard/a.csv");
    assert_string_equal(path_in_folder(place->arena, "/", "a.csv"), "/a.csv");
}

static void a_new_file_is_written_and_nothing_else_left(void **state) {
    const Corner *place = *state;
    assert_null(file_write(place->arena, corner_path(place, "plan.txt"), "hay", 3));
    assert_holds(place, "plan.txt", "hay");
    assert_int_equal(file_count(place), 1);
}

static void an_old_file_is_replaced_and_keeps_its_permissions(void **state) {
    const Corner *place = *state;
    put_file(place, "plan.txt", "a longer text than the new one");
    assert_int_equal(chmod(corner_path(place, "plan.txt"), 0640), 0);
    assert_null(file_write(place->arena, corner_path(place, "plan.txt"), "hay", 3));
    assert_holds(place, "plan.txt", "hay");
    struct stat status;
    assert_int_equal(stat(corner_path(place, "plan.txt"), &status), 0);
    assert_int_equal(status.st_mode & 0777, 0640);
    assert_int_equal(file_count(place), 1);
}

static void a_link_is_followed_and_stays_a_link(void **state) {
    const Corner *place = *state;
    put_file(place, "plan.txt", "old");
    assert_int_equal(symlink("plan.txt", corner_path(place, "link")), 0);
    assert_null(file_write(place->arena, corner_path(place, "link"), "new", 3));
    assert_holds(place, "plan.txt", "new");
    struct stat status;
    assert_int_equal(lstat(corner_path(place, "link"), &status), 0);
    assert_true(S_ISLNK(status.st_mode));
}

/* The limit on the size of a file stands for a full disk. */
static void a_failed_write_leaves_the_old_file_whole_and_nothing_beside_it(void **state) {
    const Corner *place = *state;
    put_file(place, "plan.txt", "old");
    struct rlimit usual;
    getrlimit(RLIMIT_FSIZE, &usual);
    const struct rlimit small = {1000, usual.rlim_max};
    void (*before)(int) = signal(SIGXFSZ, SIG_IGN);
    setrlimit(RLIMIT_FSIZE, &small);
    const char *bytes = arena_take(place->arena, 5000, 1);
    const char *why = file_write(place->arena, corner_path(place, "plan.txt"), bytes, 5000);
    const char *why_new = file_write(place->arena, corner_path(place, "new.txt"), bytes, 5000);
    setrlimit(RLIMIT_FSIZE, &usual);
    signal(SIGXFSZ, before);
    assert_string_equal(why, "the file would be larger than is allowed here");
    assert_non_null(why_new);
    assert_holds(place, "plan.txt", "old");
    assert_int_equal(file_count(place), 1);
}

static void a_full_disk_is_called_so(void **state) {
    const Corner *place = *state;
    if (access("/dev/full", W_OK) != 0)
        skip();
    assert_string_equal(file_write(place->arena, "/dev/full", "hay", 3), "the disk is full");
}

static void a_device_is_written_and_not_replaced(void **state) {
    const Corner *place = *state;
    assert_null(file_write(place->arena, "/dev/null", "hay", 3));
    struct stat status;
    assert_int_equal(stat("/dev/null", &status), 0);
    assert_true(S_ISCHR(status.st_mode));
}

static void a_place_that_cannot_be_written_is_explained(void **state) {
    const Corner *place = *state;
    make_folder(place, "folder");
    assert_string_equal(file_write(place->arena, corner_path(place, "nowhere/x"), "hay", 3),
                        "there is no such folder");
    assert_string_equal(file_write(place->arena, corner_path(place, "folder"), "hay", 3),
                        "it is a folder, not a file");
    char *name = arena_take(place->arena, 400, 1);
    memset(name, 'x', 300);
    assert_string_equal(file_write(place->arena, corner_path(place, name), "hay", 3),
                        "the name is too long");
    assert_int_equal(file_count(place), 1);
}

static void without_permission_nothing_is_read_or_written(void **state) {
    const Corner *place = *state;
    if (geteuid() == 0)
        skip(); /* root may do anything */
    put_file(place, "a.csv", "old");
    assert_int_equal(chmod(corner_path(place, "a.csv"), 0), 0);
    const ReadFile read = file_read(place->arena, corner_path(place, "a.csv"));
    assert_int_equal(read.outcome, READ_FAILED);
    assert_string_equal(read.why, "cannot be read: no permission");
    assert_string_equal(file_write(place->arena, corner_path(place, "a.csv"), "hay", 3),
                        "no permission");
}

static void two_names_of_one_file_are_the_same(void **state) {
    const Corner *place = *state;
    put_file(place, "a", "");
    put_file(place, "b", "");
    assert_int_equal(symlink("a", corner_path(place, "c")), 0);
    assert_true(file_is_same(corner_path(place, "a"), corner_path(place, "c")));
    assert_true(file_is_same(corner_path(place, "a"), corner_path(place, "./a")));
    assert_false(file_is_same(corner_path(place, "a"), corner_path(place, "b")));
    assert_false(
        file_is_same(corner_path(place, "x"), corner_path(place, "x"))); /* neither is there */
}

#define CASE(name) cmocka_unit_test_setup_teardown(name, corner_open, corner_close)
int main(void) {
    const struct CMUnitTest tests[] = {
        CASE(bytes_are_read_as_they_are),
        CASE(an_empty_file_has_bytes_but_none),
        CASE(of_an_endless_file_one_byte_more_than_allowed_is_read),
        CASE(a_missing_file_is_answered_with_the_nearest_name),
        CASE(a_missing_file_is_answered_with_what_there_is),
        CASE(a_long_list_of_files_is_cut),
        CASE(a_missing_folder_is_named),
        CASE(a_folder_where_a_file_belongs_is_not_read),
        CASE(csv_files_are_listed_in_order_without_hidden_ones),
        CASE(a_folder_that_is_none_is_told_from_one_that_is_missing),
        CASE(a_slash_is_not_doubled),
        CASE(a_new_file_is_written_and_nothing_else_left),
        CASE(an_old_file_is_replaced_and_keeps_its_permissions),
        CASE(a_link_is_followed_and_stays_a_link),
        CASE(a_failed_write_leaves_the_old_file_whole_and_nothing_beside_it),
        CASE(a_full_disk_is_called_so),
        CASE(a_device_is_written_and_not_replaced),
        CASE(a_place_that_cannot_be_written_is_explained),
        CASE(without_permission_nothing_is_read_or_written),
        CASE(two_names_of_one_file_are_the_same),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
