#define _GNU_SOURCE /* renameat2, realpath */
#include "entry/report_folder.h"

#include "entry/file_bytes.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { NAMES_SHOWN = 3, FOLDER_MODE = 0777 };

static bool is_folder(const char *path) {
    struct stat status;
    return stat(path, &status) == 0 && S_ISDIR(status.st_mode);
}

bool report_folder_is_meant(const char *path) {
    const size_t length = strlen(path);
    const char *slash = strrchr(path, '/');
    if (is_folder(path) || (length > 0 && path[length - 1] == '/'))
        return true;
    return access(path, F_OK) != 0 && !strchr(slash ? slash + 1 : path, '.');
}

static const char *list_text(Arena *arena, const FolderFile *files, int count) {
    Text text = text_new(arena);
    text_add(&text,
             "Made by winterstack plan. The whole folder is replaced when the plan is made\n"
             "again: keep notes of your own elsewhere.\n\n" REPORT_FOLDER_LIST "\n");
    for (int i = 0; i < count; i++)
        text_print(&text, "%s\n", files[i].name);
    return text.bytes;
}

/* Whether the list names it, on a line of its own. */
static bool is_listed(const char *list, const char *name) {
    const size_t length = strlen(name);
    for (const char *line = list; *line;) {
        const size_t width = strcspn(line, "\n");
        if (width == length && strncmp(line, name, length) == 0)
            return true;
        line += width + (line[width] == '\n');
    }
    return false;
}

static bool is_dots(const char *name) { return text_same(name, ".") || text_same(name, ".."); }

/* NULL when the folder holds nothing but what its list names, else what it holds besides. */
static const char *foreign_words(Arena *arena, const char *folder) {
    const ReadFile list = file_read(arena, path_in_folder(arena, folder, REPORT_FOLDER_LIST));
    const char *names = list.outcome == READ_DONE ? list.bytes : "";
    DIR *open_folder = opendir(folder);
    if (!open_folder)
        return file_reason(arena, errno);
    Text foreign = text_new(arena);
    int count = 0;
    for (const struct dirent *entry; (entry = readdir(open_folder));) {
        if (is_dots(entry->d_name) || is_listed(names, entry->d_name))
            continue;
        if (count++ < NAMES_SHOWN)
            text_print(&foreign, "%s%s", foreign.length > 0 ? ", " : "", entry->d_name);
    }
    closedir(open_folder);
    if (count == 0)
        return NULL;
    return arena_print(arena,
                       "the folder holds files that are not of a report (%s%s); name a new or "
                       "an empty folder",
                       foreign.bytes, count > NAMES_SHOWN ? ", ..." : "");
}

/* Removes a folder of ours; what cannot be removed stays. */
static void remove_folder(Arena *arena, const char *folder) {
    DIR *open_folder = opendir(folder);
    if (!open_folder)
        return;
    for (const struct dirent *entry; (entry = readdir(open_folder));) {
        if (!is_dots(entry->d_name))
            unlink(path_in_folder(arena, folder, entry->d_name));
    }
    closedir(open_folder);
    rmdir(folder);
}

static void flush_folder(const char *folder) {
    const int file = open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (file < 0)
        return;
    fsync(file); /* some disks cannot; then the names are as safe as that disk makes them */
    close(file);
}

static const char *fill_folder(Arena *arena, const char *folder, const FolderFile *files,
                               int count) {
    const char *list = list_text(arena, files, count);
    const char *why = file_write(arena, path_in_folder(arena, folder, REPORT_FOLDER_LIST), list,
                                 strlen(list));
    for (int i = 0; i < count && !why; i++)
        why = file_write(arena, path_in_folder(arena, folder, files[i].name), files[i].bytes,
                         files[i].length);
    if (!why)
        flush_folder(folder);
    return why;
}

/* The new folder takes the place of the old one in one step, and the old one its own; where the
 * system has no such step, in two, and back again if the second fails. 0, or the error. */
static int exchange(Arena *arena, const char *fresh, const char *folder) {
    if (renameat2(AT_FDCWD, fresh, AT_FDCWD, folder, RENAME_EXCHANGE) == 0)
        return 0;
    if (errno != EINVAL && errno != ENOSYS)
        return errno;
    const char *aside = arena_print(arena, "%s.old-%ld", folder, (long)getpid());
    if (rename(folder, aside) != 0)
        return errno;
    if (rename(fresh, folder) != 0) {
        const int error = errno;
        return rename(aside, folder) == 0 ? error : errno;
    }
    return rename(aside, fresh) == 0 ? 0 : errno;
}

static int put_in_place(Arena *arena, const char *fresh, const char *folder, bool is_there) {
    if (!is_there)
        return rename(fresh, folder) == 0 ? 0 : errno;
    return exchange(arena, fresh, folder);
}

/* Without slashes at its end, and where a link leads. */
static const char *plain_path(Arena *arena, const char *path) {
    size_t length = strlen(path);
    while (length > 1 && path[length - 1] == '/')
        length--;
    const char *plain = arena_copy(arena, path, length);
    char *real = realpath(plain, NULL);
    if (!real)
        return plain;
    const char *target = arena_copy(arena, real, strlen(real));
    free(real);
    return target;
}

static const char *folder_above(Arena *arena, const char *path) {
    const char *slash = strrchr(path, '/');
    if (!slash)
        return ".";
    return slash == path ? "/" : arena_copy(arena, path, (size_t)(slash - path));
}

/* Why the place cannot take a report, or NULL. */
static const char *place_fault(Arena *arena, const char *folder, bool is_there) {
    struct stat status;
    if (is_there && access(folder, W_OK) != 0)
        return file_reason(arena, errno);
    if (is_there)
        return foreign_words(arena, folder);
    return lstat(folder, &status) == 0 ? "it is a file, not a folder" : NULL;
}

const char *report_folder_write(Arena *arena, const char *path, const FolderFile *files,
                                int count) {
    const char *folder = plain_path(arena, path);
    const bool is_there = is_folder(folder);
    struct stat old = {.st_mode = FOLDER_MODE};
    const char *why = place_fault(arena, folder, is_there);
    if (why)
        return why;
    const char *fresh = arena_print(arena, "%s.new-%ld", folder, (long)getpid());
    if (mkdir(fresh, FOLDER_MODE) != 0)
        return file_reason(arena, errno);
    why = fill_folder(arena, fresh, files, count);
    if (!why && is_there && (stat(folder, &old) != 0 || chmod(fresh, old.st_mode & 07777) != 0))
        why = file_reason(arena, errno);
    const int error = why ? 0 : put_in_place(arena, fresh, folder, is_there);
    if (error)
        why = file_reason(arena, error);
    if (why || is_there) /* the new one that failed, or the old one that was replaced */
        remove_folder(arena, fresh);
    flush_folder(folder_above(arena, folder));
    return why;
}
