#define _XOPEN_SOURCE 700 /* realpath */
#include "entry/file_bytes.h"

#include "base/table.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { NAMES_LISTED = 8, CHUNK_BYTES = 65536 };

/* strerror would answer in words of the system, not of the farm. */
const char *file_reason(Arena *arena, int error) {
    switch (error) {
    case ENOSPC:
    case EDQUOT:
        return "the disk is full";
    case EFBIG:
        return "the file would be larger than is allowed here";
    case EACCES:
    case EPERM:
        return "no permission";
    case EROFS:
        return "the disk is read-only";
    case ENOENT:
    case ENOTDIR:
        return "there is no such folder";
    case EISDIR:
        return "it is a folder, not a file";
    case ENAMETOOLONG:
        return "the name is too long";
    case ELOOP:
        return "its links lead in a circle";
    case EMFILE:
    case ENFILE:
        return "too many files are open";
    case EPIPE:
        return "whoever was to read it has stopped reading";
    case EIO:
        return "the disk or device failed";
    default:
        return arena_print(arena, "the system gave error %d", error);
    }
}

static bool is_folder(const char *path) {
    struct stat status;
    return stat(path, &status) == 0 && S_ISDIR(status.st_mode);
}

bool file_is_same(const char *a, const char *b) {
    struct stat first, second;
    return stat(a, &first) == 0 && stat(b, &second) == 0 && first.st_dev == second.st_dev &&
           first.st_ino == second.st_ino;
}

const char *path_in_folder(Arena *arena, const char *folder, const char *name) {
    const size_t length = strlen(folder);
    const bool has_slash = length > 0 && folder[length - 1] == '/';
    return arena_print(arena, "%s%s%s", folder, has_slash ? "" : "/", name);
}

static bool is_csv_name(const char *name) {
    const size_t length = strlen(name);
    return name[0] != '.' && length > 4 && text_same_letters(name + length - 4, ".csv");
}

static int compare_names(const void *left, const void *right) {
    const char *const *a = left;
    const char *const *b = right;
    return strcmp(*a, *b);
}

const char **folder_csv_files(Arena *arena, const char *folder, int *count, const char **why) {
    *count = 0;
    DIR *open_folder = opendir(folder);
    if (!open_folder) {
        const bool is_file = errno == ENOTDIR && access(folder, F_OK) == 0;
        *why = is_file ? "this is a file, not a folder" : file_reason(arena, errno);
        return NULL;
    }
    int room = 16;
    const char **names = ARENA_ARRAY(arena, const char *, room);
    for (const struct dirent *entry; (entry = readdir(open_folder));) {
        if (!is_csv_name(entry->d_name) || *count == INT_MAX / 2)
            continue;
        if (*count == room) {
            const char **more = ARENA_ARRAY(arena, const char *, room * 2);
            memcpy(more, names, (size_t)room * sizeof *more);
            names = more;
            room *= 2;
        }
        names[(*count)++] = arena_copy(arena, entry->d_name, strlen(entry->d_name));
    }
    closedir(open_folder);
    qsort(names, (size_t)*count, sizeof *names, compare_names);
    return names;
}

static const char *listed_names(Arena *arena, const char **names, int count) {
    Text list = text_new(arena);
    for (int i = 0; i < count && i < NAMES_LISTED; i++)
        text_print(&list, "%s%s", i > 0 ? ", " : "", names[i]);
    if (count > NAMES_LISTED)
        text_print(&list, " and %d more", count - NAMES_LISTED);
    return list.bytes;
}

static const char *folder_of(Arena *arena, const char *path) {
    const char *slash = strrchr(path, '/');
    if (!slash)
        return ".";
    return slash == path ? "/" : arena_copy(arena, path, (size_t)(slash - path));
}

static const char *last_part(const char *path) {
    const char *slash = strrchr(path, '/');
    return slash ? slash + 1 : path;
}

static const char *missing_file_words(Arena *arena, const char *path) {
    const char *folder = folder_of(arena, path);
    if (!is_folder(folder))
        return arena_print(arena, "no such file: there is no folder '%s'", folder);
    int count = 0;
    const char *why = "";
    const char **names = folder_csv_files(arena, folder, &count, &why);
    if (!names)
        return "no such file";
    if (count == 0)
        return "no such file, and no CSV file in its folder";
    const char *nearest = text_nearest(last_part(path), names, count);
    if (nearest)
        return arena_print(arena, "no such file; did you mean '%s'?", nearest);
    return arena_print(arena, "no such file; CSV files in this folder: %s",
                       listed_names(arena, names, count));
}

static const char *folder_words(Arena *arena, const char *path) {
    int count = 0;
    const char *why = "";
    const char **names = folder_csv_files(arena, path, &count, &why);
    if (!names || count == 0)
        return "this is a folder, not a file";
    return arena_print(arena, "this is a folder, not a file; CSV files in it: %s",
                       listed_names(arena, names, count));
}

static ReadFile read_failure(Arena *arena, const char *path, int error) {
    if (error == ENOENT || error == ENOTDIR)
        return (ReadFile){.outcome = READ_MISSING, .why = missing_file_words(arena, path)};
    if (error == EISDIR)
        return (ReadFile){.outcome = READ_FAILED, .why = folder_words(arena, path)};
    return (ReadFile){.outcome = READ_FAILED,
                      .why =
                          arena_print(arena, "cannot be read: %s", file_reason(arena, error))};
}

/* 0, or the error. */
static int read_all(int file, Text *bytes) {
    const size_t most = (size_t)TABLE_MOST_BYTES + 1;
    char chunk[CHUNK_BYTES];
    while (bytes->length < most) {
        const size_t rest = most - bytes->length;
        const ssize_t got = read(file, chunk, rest < sizeof chunk ? rest : sizeof chunk);
        if (got < 0 && errno == EINTR)
            continue;
        if (got < 0)
            return errno;
        if (got == 0)
            break;
        text_add_bytes(bytes, chunk, (size_t)got);
    }
    return 0;
}

ReadFile file_read(Arena *arena, const char *path) {
    const int file = open(path, O_RDONLY | O_CLOEXEC);
    if (file < 0)
        return read_failure(arena, path, errno);
    Text bytes = text_new(arena);
    const int error = read_all(file, &bytes);
    close(file);
    if (error)
        return read_failure(arena, path, error);
    return (ReadFile){.outcome = READ_DONE, .bytes = bytes.bytes, .length = bytes.length};
}

/* 0, or the error. */
static int write_all(int file, const char *bytes, size_t length) {
    while (length > 0) {
        const ssize_t put = write(file, bytes, length);
        if (put < 0 && errno == EINTR)
            continue;
        if (put < 0)
            return errno;
        bytes += put;
        length -= (size_t)put;
    }
    return 0;
}

static int close_after(int file, int error) {
    if (close(file) != 0 && !error)
        error = errno;
    return error;
}

static int write_directly(const char *path, const char *bytes, size_t length) {
    const int file = open(path, O_WRONLY | O_CLOEXEC);
    if (file < 0)
        return errno;
    return close_after(file, write_all(file, bytes, length));
}

/* `old`: the file to be replaced, whose permissions the new one takes; NULL when there is none.
 */
static int write_beside(const char *beside, const char *path, const struct stat *old,
                        const char *bytes, size_t length) {
    const int file = open(beside, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    if (file < 0)
        return errno;
    int error = write_all(file, bytes, length);
    if (!error && old && fchmod(file, old->st_mode & 07777) != 0)
        error = errno;
    if (!error && fsync(file) != 0)
        error = errno;
    error = close_after(file, error);
    if (!error && rename(beside, path) != 0)
        error = errno;
    if (error)
        unlink(beside);
    return error;
}

/* Where a link leads, so that the file there is replaced and not the link. */
static const char *link_target(Arena *arena, const char *path) {
    char *real = realpath(path, NULL);
    if (!real)
        return path;
    const char *target = arena_copy(arena, real, strlen(real));
    free(real);
    return target;
}

const char *file_write(Arena *arena, const char *path, const char *bytes, size_t length) {
    struct stat old;
    const bool is_there = stat(path, &old) == 0;
    int error = 0;
    if (!is_there && errno == ELOOP)
        error = ELOOP;
    else if (is_there && S_ISDIR(old.st_mode))
        error = EISDIR;
    else if (is_there && !S_ISREG(old.st_mode))
        error = write_directly(path, bytes, length);
    else if (is_there && access(path, W_OK) != 0)
        error = errno; /* a file the user has locked is not to be replaced behind his back */
    else {
        const char *target = is_there ? link_target(arena, path) : path;
        const char *beside = arena_print(arena, "%s.new-%ld", target, (long)getpid());
        error = write_beside(beside, target, is_there ? &old : NULL, bytes, length);
    }
    return error ? file_reason(arena, error) : NULL;
}

const char *file_write_out(Arena *arena, const char *bytes, size_t length) {
    const bool is_whole = fwrite(bytes, 1, length, stdout) == length;
    const int write_error = errno;
    const bool is_flushed = fflush(stdout) == 0 && !ferror(stdout);
    if (is_whole && is_flushed)
        return NULL;
    return file_reason(arena, is_whole ? errno : write_error);
}
