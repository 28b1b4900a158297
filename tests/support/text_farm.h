/* A farm of the texts of its files; ends the test when they have a fault. */
#ifndef SUPPORT_TEXT_FARM_H
#define SUPPORT_TEXT_FARM_H

#include "entry/farm_reading.h"
#include "support/unit.h"
#include <string.h>

static inline const Farm *text_farm(Arena *arena, const char *const bytes[FARM_FILE_COUNT]) {
    FarmRequest request = {.units = UNITS_METRIC};
    for (int file = 0; file < FARM_FILE_COUNT; file++)
        request.file[file] = (FileBytes){FARM_FILE_NAME[file], bytes[file],
                                         bytes[file] ? strlen(bytes[file]) : 0};
    Farm *farm = ARENA_NEW(arena, Farm);
    Faults faults = faults_new(arena);
    if (!farm_read(arena, &faults, &request, farm)) {
        print_error("%s", unit_faults(&faults, arena));
        fail_msg("%s", "the farm has faults");
    }
    return farm;
}

#endif
