/* A folder of files that is written as a whole or not at all: beside its place first, flushed
 * to the disk, then put in the place of the former one in one step. What it holds is listed in
 * a file of its own, so that a folder with anything else in it is never replaced. */
#ifndef ENTRY_REPORT_FOLDER_H
#define ENTRY_REPORT_FOLDER_H

#include "base/text.h"
#include <stdbool.h>

typedef struct {
    const char *name; /* no slash in it */
    const char *bytes;
    size_t length;
} FolderFile;

#define REPORT_FOLDER_LIST "files-of-this-report.txt"

/* Whether a path given without a format is meant as a folder: it is one, or ends with a slash,
 * or names nothing that is there and has no dot in its last part. */
bool report_folder_is_meant(const char *path);

/* NULL when written, else the reason; then the former folder is whole and nothing new lies
 * about. */
const char *report_folder_write(Arena *arena, const char *path, const FolderFile *files,
                                int count);

#endif
