/* A file replaced so that whatever ends the program, or the power, the old file or the new one
 * is there and never another: written beside its place, flushed to the disk, renamed, and the
 * folder flushed, so that the name is on the disk too. */
#ifndef ENTRY_FILE_WRITING_H
#define ENTRY_FILE_WRITING_H

#include <stddef.h>
#include <sys/stat.h>

typedef enum {
    WRITING_OPENED,
    WRITING_PIECE, /* after each piece of at most WRITING_PIECE_BYTES */
    WRITING_FLUSHED,
    WRITING_CLOSED,
    WRITING_RENAMED,
    WRITING_DONE /* the folder is flushed too */
} WritingStep;

enum { WRITING_PIECE_BYTES = 4096 };

/* Told after each step: a test ends the program there. NULL: nobody is told. */
typedef struct {
    void (*after)(WritingStep step, void *context);
    void *context;
} WritingWatch;

/* 0, or the error of the system; then nothing new lies about. `old`: the file to be replaced,
 * whose permissions the new one takes; NULL when there is none. */
int file_replace(const char *beside, const char *path, const struct stat *old,
                 const char *bytes, size_t length, const WritingWatch *watch);

/* All of it into an open file; 0, or the error. */
int file_write_all(int file, const char *bytes, size_t length, const WritingWatch *watch);

/* Closes it; `error`, or the error of closing. */
int file_close_after(int file, int error);

#endif
