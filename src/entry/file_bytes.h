/* The only place that opens files. What went wrong comes back as words for the user, with the
 * cure; nothing is printed here. */
#ifndef ENTRY_FILE_BYTES_H
#define ENTRY_FILE_BYTES_H

#include "base/text.h"
#include <stdbool.h>

typedef enum { READ_DONE, READ_MISSING, READ_FAILED } ReadOutcome;

typedef struct {
    ReadOutcome outcome;
    const char *bytes; /* of READ_DONE; never NULL then */
    size_t length;     /* at most TABLE_MOST_BYTES + 1: one more than the reader accepts */
    const char *why;   /* else: "no such file; ..." */
} ReadFile;

/* Reads a whole file. READ_MISSING: there is none of that name, or not even its folder; the
 * reason then names the nearest CSV file of the folder, or all of them. */
ReadFile file_read(Arena *arena, const char *path);

/* The names in the folder that end in ".csv" (ASCII case aside) and do not begin with a dot, in
 * byte order. NULL when it cannot be read: *why says so. */
const char **folder_csv_files(Arena *arena, const char *folder, int *count, const char **why);

/* folder + "/" + name, without doubling a slash. */
const char *path_in_folder(Arena *arena, const char *folder, const char *name);

/* What an error of the system means, in words of the farm. */
const char *file_reason(Arena *arena, int error);

/* Both paths lead to one and the same existing file. */
bool file_is_same(const char *a, const char *b);

/* NULL when written, else the reason. A regular file is written beside its place, flushed to
 * the disk and renamed: after a failure the old file is whole and nothing new lies about. Its
 * permissions stay; a link is followed. A pipe or device is written directly. */
const char *file_write(Arena *arena, const char *path, const char *bytes, size_t length);

/* Standard output; NULL when written, else the reason. */
const char *file_write_out(Arena *arena, const char *bytes, size_t length);

#endif
