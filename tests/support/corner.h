/* A folder of its own for each test, gone with it. The test file defines _XOPEN_SOURCE 700
 * before anything else, for mkdtemp. */
#ifndef SUPPORT_CORNER_H
#define SUPPORT_CORNER_H

#include "entry/file_bytes.h"
#include "support/unit.h"
#include <stdlib.h>

typedef struct {
    Arena *arena;
    const char *folder;
} Corner;

static inline int corner_open(void **state) {
    Arena *arena = arena_open();
    const char *root = getenv("TMPDIR");
    char *folder = arena_print(arena, "%s/winterstack-test-XXXXXX", root ? root : "/tmp");
    assert_non_null(mkdtemp(folder));
    Corner *corner = ARENA_NEW(arena, Corner);
    *corner = (Corner){arena, folder};
    *state = corner;
    return 0;
}

static inline int corner_close(void **state) {
    Corner *corner = *state;
    const int code = system(arena_print(corner->arena, "rm -rf '%s'", corner->folder));
    arena_close(corner->arena);
    return code;
}

static inline const char *corner_path(const Corner *corner, const char *name) {
    return path_in_folder(corner->arena, corner->folder, name);
}

#endif
