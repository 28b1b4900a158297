#include "entry/future.h"
#include "base/text.h"
#include "entry/farm_reading.h"
#include "planner/farm_from.h"
#include <string.h>

typedef struct {
    Arena *arena;
    Faults *faults;
    const FarmRequest *request;
    const char *file;
    const Change *changes;
    int count;
    const ChangedFiles *changed;
    bool tells_cells_only; /* not what comes of the changes elsewhere */
} FutureReading;

static bool has_fault(const Faults *faults, const char *text) {
    for (const Fault *fault = faults->first; fault; fault = fault->next) {
        if (fault->kind == FAULT_WRONG && text_same(fault->text, text))
            return true;
    }
    return false;
}

/* Whether the farm has the fault with all changes but one. */
static bool stays_without(const FutureReading *of, int left_out, const char *text) {
    Arena *scratch = arena_open();
    Faults aside = faults_new(scratch);
    Change *others = ARENA_ARRAY(scratch, Change, of->count);
    int count = 0;
    for (int i = 0; i < of->count; i++) {
        if (i != left_out)
            others[count++] = of->changes[i];
    }
    ChangedFiles changed;
    Farm farm;
    bool stays = !what_if_apply(scratch, &aside, of->request, others, count, &changed);
    if (!stays) {
        farm_read(scratch, &aside, &changed.request, &farm);
        stays = has_fault(&aside, text);
    }
    arena_close(scratch);
    return stays;
}

#define MOST_BLAMED 20 /* changes tried one by one */

/* The line of the change but for which the fault would not be. */
static Place blamed_place(const FutureReading *of, const char *text) {
    for (int i = 0; i < of->count && of->count <= MOST_BLAMED; i++) {
        const Place place = of->changes[i].place;
        if (of->count == 1 || !stays_without(of, i, text))
            return (Place){place.file, place.line, 0};
    }
    return (Place){of->file, 0, 0};
}

static FarmFile file_named(const FarmRequest *request, const char *name) {
    for (int file = 0; file < FARM_FILE_COUNT; file++) {
        if (request->file[file].name && text_same(request->file[file].name, name))
            return (FarmFile)file;
    }
    return FARM_FILE_COUNT;
}

static Place place_before(const FutureReading *of, Place place) {
    const FarmFile file = file_named(of->request, place.file);
    const WrittenTable *written = file < FARM_FILE_COUNT ? of->changed->written[file] : NULL;
    return written ? written_place(written, place.line, place.column) : place;
}

static const char *short_name(const FutureReading *of, const char *file) {
    return file_named(of->request, file) == FARM_HERD ? "the herd file"
           : strrchr(file, '/')                       ? strrchr(file, '/') + 1
                                                      : file;
}

static void pass_on(const FutureReading *of, const Fault *fault, int *blamed) {
    const Place place = place_before(of, fault->place);
    const bool is_of_change = text_same(place.file, of->file);
    if (fault->kind == FAULT_DOUBT) {
        if (is_of_change)
            doubt_add(of->faults, place, "in %s, %s", short_name(of, fault->place.file),
                      fault->text);
        return;
    }
    if (is_of_change) {
        fault_add(of->faults, place, "in %s, %s", short_name(of, fault->place.file),
                  fault->text);
        return;
    }
    if (of->tells_cells_only || (*blamed)++ >= MOST_BLAMED)
        return;
    fault_add(of->faults, blamed_place(of, fault->text), "so changed, %s%s",
              place_text(place, of->arena), fault->text);
}

bool farm_is_from(Arena *arena, Faults *faults, const FarmRequest *request, Farm *farm) {
    const Place place = {"--from", 0, 0};
    return !request->has_from || farm_from(arena, faults, place, farm, request->from);
}

/* False where the farm so changed cannot be read. */
static bool read_changed(Arena *arena, Faults *faults, FutureReading of, Farm *farm) {
    ChangedFiles changed;
    const bool is_applied =
        what_if_apply(arena, faults, of.request, of.changes, of.count, &changed);
    of.tells_cells_only |= !is_applied;
    Faults told = faults_new(arena);
    const bool is_readable = farm_read(arena, &told, &changed.request, farm) &&
                             farm_is_from(arena, &told, &changed.request, farm);
    of.changed = &changed;
    int blamed = 0;
    for (const Fault *fault = told.first; fault; fault = fault->next)
        pass_on(&of, fault, &blamed);
    return is_applied && is_readable;
}

bool future_read(Arena *arena, Faults *faults, const FarmRequest *request, const char *file,
                 const Change *changes, int count, Farm *farm) {
    const int wrong_before = faults->wrong_count;
    const FutureReading of = {arena, faults, request, file, changes, count, NULL, false};
    const bool is_readable = read_changed(arena, faults, of, farm);
    if (!is_readable && faults->wrong_count == wrong_before)
        fault_add(faults, (Place){file, 0, 0}, "so changed, the farm cannot be read");
    return is_readable;
}

void future_check(Arena *arena, Faults *faults, const FarmRequest *request, const char *file,
                  const Change *changes, int count) {
    Farm farm;
    const FutureReading of = {arena, faults, request, file, changes, count, NULL, true};
    read_changed(arena, faults, of, &farm);
}
