/* One writer at a time in a folder: who reads a file to write it again holds the lock from
 * before the reading until after the writing, so that two writers lose nothing of each other.
 * The system gives the lock back when a program ends, however it ends. */
#ifndef ENTRY_FOLDER_LOCK_H
#define ENTRY_FOLDER_LOCK_H

#include "base/arena.h"

#define FOLDER_LOCK_NAME ".winterstack-lock" /* an empty file that stays */

/* NULL when *lock is held, else the reason. Waits up to `seconds` for another writer. */
const char *folder_lock(Arena *arena, const char *folder, int seconds, int *lock);
void folder_unlock(int lock);

/* Takes away what a writer that was killed left beside these files ("NAME.new-123"). Only under
 * the lock. */
void folder_sweep(Arena *arena, const char *folder, const char *const *names, int count);

#endif
