#include "support/farm_files.h"
#include "entry/file_bytes.h"
#include <stdio.h>
#include <stdlib.h>

static FileBytes whole_file(Arena *arena, const char *path, bool is_needed) {
    const ReadFile read = file_read(arena, path);
    if (read.outcome == READ_MISSING && !is_needed)
        return (FileBytes){path, NULL, 0};
    if (read.outcome != READ_DONE) {
        fprintf(stderr, "%s: %s\n", path, read.why);
        exit(1);
    }
    return (FileBytes){path, read.bytes, read.length};
}

FarmRequest farm_of_files(Arena *arena, const char *herd, const char *folder) {
    FarmRequest request = {.units = UNITS_METRIC};
    request.file[FARM_HERD] = whole_file(arena, herd, true);
    for (int i = FARM_HERD + 1; i < FARM_FILE_COUNT; i++)
        request.file[i] = whole_file(arena, path_in_folder(arena, folder, FARM_FILE_NAME[i]),
                                     FARM_FILE_NEEDED[i]);
    return request;
}
