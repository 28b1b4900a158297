/* Writes an invented farm to measure by as the files a farmer would save:
 *
 *     write_farm FOLDER S|M|L SEED        see support/farm_maker.h
 *
 * FOLDER/herd.csv, and the inventory in FOLDER itself. The folder is there already. */
#include "entry/file_bytes.h"
#include "support/farm_maker.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char *write_farm(Arena *arena, const char *folder, const FarmRequest *request) {
    for (int i = 0; i < FARM_FILE_COUNT; i++) {
        const FileBytes *file = &request->file[i];
        const char *name = i == FARM_HERD ? "herd.csv" : FARM_FILE_NAME[i];
        if (!file->bytes)
            continue;
        const char *why =
            file_write(arena, path_in_folder(arena, folder, name), file->bytes, file->length);
        if (why)
            return why;
    }
    return NULL;
}

int main(int count, char **words) {
    const char *const preset = count == 4 ? strstr(" S M L", words[2]) : NULL;
    if (!preset || strlen(words[2]) != 1 || words[2][0] == ' ') {
        fputs("write_farm FOLDER S|M|L SEED\n", stderr);
        return 2;
    }
    Arena *arena = arena_open();
    FarmRequest request;
    const FarmPreset size = words[2][0] == 'S' ? FARM_S : words[2][0] == 'M' ? FARM_M : FARM_L;
    farm_made_of_size(arena, strtoull(words[3], NULL, 10), size, &request);
    const char *why = write_farm(arena, words[1], &request);
    if (why)
        fprintf(stderr, "write_farm: %s: %s\n", words[1], why);
    arena_close(arena);
    return why ? 1 : 0;
}
