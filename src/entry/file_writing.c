#include "entry/file_writing.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static void tell(const WritingWatch *watch, WritingStep step) {
    if (watch)
        watch->after(step, watch->context);
}

int file_write_all(int file, const char *bytes, size_t length, const WritingWatch *watch) {
    while (length > 0) {
        const size_t piece = length < WRITING_PIECE_BYTES ? length : WRITING_PIECE_BYTES;
        const ssize_t put = write(file, bytes, piece);
        if (put < 0 && errno == EINTR)
            continue;
        if (put < 0)
            return errno;
        bytes += put;
        length -= (size_t)put;
        tell(watch, WRITING_PIECE);
    }
    return 0;
}

int file_close_after(int file, int error) {
    if (close(file) != 0 && !error)
        error = errno;
    return error;
}

/* Some disks, of other machines mostly, cannot flush a folder: then the rename is as safe as
 * that disk makes it. */
static int flush_folder_of(const char *path) {
    const char *slash = strrchr(path, '/');
    char *folder = slash == path ? strdup("/") : slash ? strdup(path) : strdup(".");
    if (!folder)
        return ENOMEM;
    if (slash && slash != path)
        folder[slash - path] = '\0';
    const int file = open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    free(folder);
    if (file < 0)
        return 0;
    const int error = fsync(file) != 0 && errno == EIO ? EIO : 0;
    return file_close_after(file, error);
}

int file_replace(const char *beside, const char *path, const struct stat *old,
                 const char *bytes, size_t length, const WritingWatch *watch) {
    const int file = open(beside, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    if (file < 0)
        return errno;
    tell(watch, WRITING_OPENED);
    int error = file_write_all(file, bytes, length, watch);
    if (!error && old && fchmod(file, old->st_mode & 07777) != 0)
        error = errno;
    if (!error && fsync(file) != 0)
        error = errno;
    tell(watch, WRITING_FLUSHED);
    error = file_close_after(file, error);
    tell(watch, WRITING_CLOSED);
    if (!error && rename(beside, path) != 0)
        error = errno;
    if (error) {
        unlink(beside);
        return error;
    }
    tell(watch, WRITING_RENAMED);
    error = flush_folder_of(path);
    tell(watch, WRITING_DONE);
    return error;
}
