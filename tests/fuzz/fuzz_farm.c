/* A whole farm: its files one after the other in the order of FarmFile, with a line "===="
 * between them; a file that is left out at the end, or whose whole text is "-", is not there. A
 * farm that is let through is whole, and the plan can be asked for. */
#include "entry/farm_reading.h"
#include "fuzz/reader_laws.h"
#include "planner/plan_question.h"
#include <stdint.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

#define BETWEEN "====\n"
enum { MOST_TRIED = 3, LONGEST_CALVING_TRIED = 60 };

static const char *end_of_file(const char *start, const char *stop) {
    const size_t length = strlen(BETWEEN);
    for (const char *byte = start; byte + length <= stop; byte++) {
        const bool begins_line = byte == start || byte[-1] == '\n';
        if (begins_line && memcmp(byte, BETWEEN, length) == 0)
            return byte;
    }
    return stop;
}

static FarmRequest request_of(const char *bytes, size_t size) {
    FarmRequest request;
    memset(&request, 0, sizeof request);
    const char *start = bytes;
    const char *const stop = bytes + size;
    for (int file = 0; file < FARM_FILE_COUNT; file++) {
        request.file[file].name = file == FARM_HERD ? "herd.csv" : FARM_FILE_NAME[file];
        if (start >= stop)
            continue;
        const char *const end = end_of_file(start, stop);
        const size_t length = (size_t)(end - start);
        const bool is_left_out = length == 2 && memcmp(start, "-\n", 2) == 0;
        request.file[file].bytes = is_left_out ? NULL : start;
        request.file[file].length = is_left_out ? 0 : length;
        start = end == stop ? stop : end + strlen(BETWEEN);
    }
    return request;
}

static bool is_small(const Farm *farm) {
    for (int i = 0; i < farm->herd.count; i++) {
        const HerdGroup *group = &farm->herd.groups[i];
        if (group->is_bred && calendar_days_between(group->calving_start, group->calving_end) >
                                  LONGEST_CALVING_TRIED)
            return false;
    }
    return farm->herd.count <= MOST_TRIED && farm->inventory.stacks.count <= 2 * MOST_TRIED;
}

static void assert_farm_is_whole(Arena *arena, const Farm *farm) {
    assert(winter_days(&farm->winter) >= 2 && winter_days(&farm->winter) <= 366);
    for (int i = 0; i < farm->herd.count; i++)
        assert_group_is_whole(&farm->herd.groups[i]);
    for (int i = 0; i < farm->inventory.stacks.count; i++)
        assert_stack_is_whole(&farm->inventory.stacks.stacks[i]);
    for (int i = 0; i < farm->inventory.for_sale.count; i++)
        assert_offer_is_whole(&farm->inventory.for_sale.offers[i]);
    assert_own_needs_are_whole(&farm->own_needs, &farm->herd);
    if (!is_small(farm))
        return;
    const PlanQuestion question = plan_question(arena, farm);
    assert(question.feed_count > 0 && question.block_count > 0);
    for (int b = 0; b < question.block_count; b++)
        assert_need_is_whole(&question.blocks[b].need);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    Arena *const arena = arena_open();
    Faults faults = faults_new(arena);
    Farm farm;
    const FarmRequest request = request_of(size > 0 ? (const char *)data : "", size);
    const bool is_readable = farm_read(arena, &faults, &request, &farm);
    assert(!is_readable || faults.wrong_count == 0);
    if (is_readable)
        assert_farm_is_whole(arena, &farm);
    assert_faults_are_lines(&faults);
    arena_close(arena);
    return 0;
}
