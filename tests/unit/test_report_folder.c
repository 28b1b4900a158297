#define _XOPEN_SOURCE 700 /* mkdtemp */
#include "entry/report_folder.h"

#include "entry/file_bytes.h"
#include "support/corner.h"

#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

static FolderFile file(const char *name, const char *text) {
    return (FolderFile){name, text, strlen(text)};
}

static const char *write_two(const Corner *corner, const char *page, const char *figures) {
    const FolderFile files[] = {file("report.html", page), file("plan.json", figures)};
    return report_folder_write(corner->arena, corner_path(corner, "winter"), files, 2);
}

static void put_beside(const Corner *corner, const char *name) {
    FILE *out = fopen(path_in_folder(corner->arena, corner_path(corner, "winter"), name), "w");
    assert_non_null(out);
    fputs("mine", out);
    fclose(out);
}

static void assert_holds(const Corner *corner, const char *name, const char *text) {
    const ReadFile read = file_read(
        corner->arena, path_in_folder(corner->arena, corner_path(corner, "winter"), name));
    assert_int_equal(read.outcome, READ_DONE);
    assert_string_equal(read.bytes, text);
}

/* Names in a folder, without "." and "..". */
static int names_in(const Corner *corner, const char *folder) {
    FILE *pipe = popen(arena_print(corner->arena, "ls -A '%s' | wc -l", folder), "r");
    int count = -1;
    assert_int_equal(fscanf(pipe, "%d", &count), 1);
    pclose(pipe);
    return count;
}

static void a_new_folder_holds_the_files_and_their_list(void **state) {
    const Corner *corner = *state;
    assert_null(write_two(corner, "<p>", "{}"));
    assert_holds(corner, "report.html", "<p>");
    assert_holds(corner, "plan.json", "{}");
    assert_int_equal(names_in(corner, corner_path(corner, "winter")), 3);
    assert_int_equal(names_in(corner, corner->folder), 1);
}

static void a_former_report_is_replaced_as_a_whole(void **state) {
    const Corner *corner = *state;
    const FolderFile old[] = {file("report.html", "old"), file("09-bulls-ration.csv", "old")};
    assert_null(report_folder_write(corner->arena, corner_path(corner, "winter"), old, 2));
    assert_null(write_two(corner, "new", "{}"));
    assert_holds(corner, "report.html", "new");
    assert_int_equal(names_in(corner, corner_path(corner, "winter")),
                     3); /* the bulls' file is gone */
    assert_int_equal(names_in(corner, corner->folder), 1);
}

static void a_slash_at_the_end_changes_nothing(void **state) {
    const Corner *corner = *state;
    const FolderFile files[] = {file("report.html", "<p>")};
    assert_null(report_folder_write(
        corner->arena, arena_print(corner->arena, "%s//", corner_path(corner, "winter")), files,
        1));
    assert_holds(corner, "report.html", "<p>");
}

static void an_empty_folder_is_taken(void **state) {
    const Corner *corner = *state;
    assert_int_equal(mkdir(corner_path(corner, "winter"), 0750), 0);
    assert_null(write_two(corner, "<p>", "{}"));
    assert_holds(corner, "report.html", "<p>");
    struct stat status;
    assert_int_equal(stat(corner_path(corner, "winter"), &status), 0);
    assert_int_equal(status.st_mode & 0777, 0750);
}

static void a_folder_with_anything_else_in_it_is_left_alone(void **state) {
    const Corner *corner = *state;
    assert_null(write_two(corner, "old", "{}"));
    put_beside(corner, "my notes.txt");
    assert_string_equal(write_two(corner, "new", "{}"),
                        "the folder holds files that are not of a report (my notes.txt); name "
                        "a new or an empty folder");
    assert_holds(corner, "report.html", "old");
    assert_holds(corner, "my notes.txt", "mine");
    assert_int_equal(names_in(corner, corner->folder), 1);
}

static void a_file_in_its_place_is_left_alone(void **state) {
    const Corner *corner = *state;
    assert_null(file_write(corner->arena, corner_path(corner, "winter"), "mine", 4));
    assert_string_equal(write_two(corner, "<p>", "{}"), "it is a file, not a folder");
    assert_string_equal(file_read(corner->arena, corner_path(corner, "winter")).bytes, "mine");
}

static void a_missing_folder_above_is_said(void **state) {
    const Corner *corner = *state;
    const FolderFile files[] = {file("report.html", "<p>")};
    assert_string_equal(
        report_folder_write(corner->arena,
                            path_in_folder(corner->arena, corner->folder, "nowhere/winter"),
                            files, 1),
        "there is no such folder");
}

/* The limit on the size of a file stands for a full disk: the second of the files is too large
 * for it. */
static void a_failed_write_leaves_the_former_report_whole(void **state) {
    const Corner *corner = *state;
    assert_null(write_two(corner, "old", "{}"));
    struct rlimit usual;
    getrlimit(RLIMIT_FSIZE, &usual);
    const struct rlimit small = {1000, usual.rlim_max};
    void (*before)(int) = signal(SIGXFSZ, SIG_IGN);
    setrlimit(RLIMIT_FSIZE, &small);
    const char *large = arena_print(corner->arena, "%5000s", "x");
    const char *why = write_two(corner, "new", large);
    setrlimit(RLIMIT_FSIZE, &usual);
    signal(SIGXFSZ, before);
    assert_string_equal(why, "the file would be larger than is allowed here");
    assert_holds(corner, "report.html", "old");
    assert_holds(corner, "plan.json", "{}");
    assert_int_equal(names_in(corner, corner_path(corner, "winter")), 3);
    assert_int_equal(names_in(corner, corner->folder), 1);
}

static void a_link_is_followed(void **state) {
    const Corner *corner = *state;
    assert_null(write_two(corner, "old", "{}"));
    const char *link = path_in_folder(corner->arena, corner->folder, "latest");
    assert_int_equal(symlink("winter", link), 0);
    const FolderFile files[] = {file("report.html", "new")};
    assert_null(report_folder_write(corner->arena, link, files, 1));
    assert_holds(corner, "report.html", "new");
    struct stat status;
    assert_int_equal(lstat(link, &status), 0);
    assert_true(S_ISLNK(status.st_mode));
}

static void a_locked_folder_is_not_replaced(void **state) {
    const Corner *corner = *state;
    if (geteuid() == 0)
        skip(); /* nothing is locked to the superuser */
    assert_null(write_two(corner, "old", "{}"));
    assert_int_equal(chmod(corner_path(corner, "winter"), 0555), 0);
    assert_string_equal(write_two(corner, "new", "{}"), "no permission");
    assert_int_equal(chmod(corner_path(corner, "winter"), 0755), 0);
    assert_holds(corner, "report.html", "old");
}

static void a_path_without_a_dot_is_meant_as_a_folder(void **state) {
    const Corner *corner = *state;
    assert_true(report_folder_is_meant(corner->folder));
    assert_true(report_folder_is_meant(corner_path(corner, "winter")));
    assert_true(report_folder_is_meant("nowhere.d/"));
    assert_false(report_folder_is_meant("nowhere/plan.txt"));
    assert_null(file_write(corner->arena, corner_path(corner, "winter"), "mine", 4));
    assert_false(report_folder_is_meant(corner_path(corner, "winter"))); /* a file is there */
}

#define CORNER_TEST(test) cmocka_unit_test_setup_teardown((test), corner_open, corner_close)

int main(void) {
    const struct CMUnitTest tests[] = {
        CORNER_TEST(a_new_folder_holds_the_files_and_their_list),
        CORNER_TEST(a_former_report_is_replaced_as_a_whole),
        CORNER_TEST(a_slash_at_the_end_changes_nothing),
        CORNER_TEST(an_empty_folder_is_taken),
        CORNER_TEST(a_folder_with_anything_else_in_it_is_left_alone),
        CORNER_TEST(a_file_in_its_place_is_left_alone),
        CORNER_TEST(a_missing_folder_above_is_said),
        CORNER_TEST(a_failed_write_leaves_the_former_report_whole),
        CORNER_TEST(a_link_is_followed),
        CORNER_TEST(a_locked_folder_is_not_replaced),
        CORNER_TEST(a_path_without_a_dot_is_meant_as_a_folder),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
