/* Any line of arguments, one a line: it is understood whole or refused with one complaint, and
 * asked again it is understood the same. */
#include "entry/command.h"

#include <assert.h>
#include <stdint.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

enum { MOST_ARGUMENTS = 40 };

static void check(const Command *command) {
    assert((command->wish == WISH_UNCLEAR) == (command->complaint != NULL));
    assert(command->width == 0 ||
           (command->width >= LEAST_WIDTH && command->width <= MOST_WIDTH));
    if (command->wish != WISH_TASK)
        return;
    assert(command->name < COMMAND_COUNT);
    assert(command->herd_path[0] && command->inventory_folder[0]);
    assert(!command->out_path || command->out_path[0]);
}

static bool is_same_text(const char *a, const char *b) {
    return a && b ? text_same(a, b) : a == b;
}

static void check_same(const Command *a, const Command *b) {
    assert(a->wish == b->wish && a->name == b->name);
    assert(a->units == b->units && a->units_were_asked == b->units_were_asked);
    assert(a->format == b->format && a->width == b->width);
    assert(a->herd_path == b->herd_path && a->inventory_folder == b->inventory_folder);
    assert(a->out_path == b->out_path);
    assert(is_same_text(a->complaint, b->complaint));
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    Arena *const arena = arena_open();
    char *rest = arena_copy(arena, (const char *)data, size);
    char program[] = "winterstack";
    char *arguments[MOST_ARGUMENTS + 2] = {program};
    int count = 1;
    while (rest && count <= MOST_ARGUMENTS) {
        arguments[count++] = rest;
        char *const end = strchr(rest, '\n');
        if (end)
            *end = '\0';
        rest = end ? end + 1 : NULL;
    }
    const Command command = command_parse(arena, count, arguments);
    check(&command);
    const Command again = command_parse(arena, count, arguments);
    check_same(&command, &again);
    Text help = text_new(arena);
    command_help(command.name, &help);
    assert(help.length > 0);
    arena_close(arena);
    return 0;
}
