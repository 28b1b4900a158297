#include "entry/folder_lock.h"
#include "base/text.h"
#include "entry/file_bytes.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

enum { TRIES_A_SECOND = 50 };
#define TRY_NANOSECONDS (1000000000L / TRIES_A_SECOND)

static int try_lock(int file) {
    const struct flock whole = {.l_type = F_WRLCK, .l_whence = SEEK_SET};
    return fcntl(file, F_SETLK, &whole) == 0 ? 0 : errno;
}

const char *folder_lock(Arena *arena, const char *folder, int seconds, int *lock) {
    const char *path = path_in_folder(arena, folder, FOLDER_LOCK_NAME);
    *lock = open(path, O_RDWR | O_CREAT | O_CLOEXEC, 0666);
    if (*lock < 0)
        return file_reason(arena, errno);
    int error = try_lock(*lock);
    for (int i = 0;
         (error == EAGAIN || error == EACCES || error == EINTR) && i < seconds * TRIES_A_SECOND;
         i++) {
        nanosleep(&(struct timespec){0, TRY_NANOSECONDS}, NULL);
        error = try_lock(*lock);
    }
    if (error == 0)
        return NULL;
    close(*lock);
    if (error == EAGAIN || error == EACCES)
        return "someone else is writing there and does not finish; try again";
    return arena_print(arena, "it cannot be kept from a second writer: %s",
                       file_reason(arena, error));
}

void folder_unlock(int lock) { close(lock); }

static bool is_left_over(const char *name, const char *const *names, int count) {
    for (int i = 0; i < count; i++) {
        const size_t length = strlen(names[i]);
        if (length > 0 && strncmp(name, names[i], length) == 0 &&
            strncmp(name + length, FILE_BESIDE_MARK, strlen(FILE_BESIDE_MARK)) == 0)
            return true;
    }
    return false;
}

void folder_sweep(Arena *arena, const char *folder, const char *const *names, int count) {
    DIR *open_folder = opendir(folder);
    if (!open_folder)
        return;
    for (const struct dirent *entry; (entry = readdir(open_folder));) {
        if (is_left_over(entry->d_name, names, count))
            unlink(path_in_folder(arena, folder, entry->d_name));
    }
    closedir(open_folder);
}
