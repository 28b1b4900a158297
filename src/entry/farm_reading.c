#include "entry/farm_reading.h"
#include "cattle/weather_spread.h"
#include "entry/embedded.h"
#include "planner/farm_from.h"
#include "planner/kept_plan.h"
#include "planner/yard_rule.h"
#include <assert.h>
#include <string.h>

const char *const FARM_FILE_NAME[FARM_FILE_COUNT] = {
    [FARM_HERD] = "",
    [FARM_STACKS] = "stacks.csv",
    [FARM_FEED_TESTS] = "feed-tests.csv",
    [FARM_FOR_SALE] = "for-sale.csv",
    [FARM_WINTER] = "winter.csv",
    [FARM_WEATHER] = "weather.csv",
    [FARM_NEEDS] = "needs.csv",
    [FARM_FIELDS] = "fields.csv",
    [FARM_FED] = "fed.csv",
    [FARM_COUNTS] = "counts.csv",
    [FARM_HEAD_CHANGES] = "head-changes.csv",
    [FARM_LAST_PLAN] = "last-plan.csv",
};
const bool FARM_FILE_NEEDED[FARM_FILE_COUNT] = {
    [FARM_HERD] = true, [FARM_STACKS] = true, [FARM_WINTER] = true};

static const EmbeddedFile *own_table(const char *name) {
    const EmbeddedFile *file = embedded_find(name);
    assert(file && "a table of models/coefficients is missing from the build");
    return file;
}

static bool read_own_tables(Arena *arena, Faults *faults, Farm *farm) {
    const EmbeddedFile *book = own_table("book-feeds.csv");
    farm->book = book_parse(arena, faults, book->name, book->bytes, book->length);
    const EmbeddedFile *storage = own_table("storage-losses.csv");
    const EmbeddedFile *feeding = own_table("feeding-waste.csv");
    farm->handling = handling_parse(arena, faults, storage->bytes, storage->length,
                                    feeding->bytes, feeding->length);
    const EmbeddedFile *minerals = own_table("mineral-needs.csv");
    farm->minerals =
        mineral_needs_parse(arena, faults, minerals->name, minerals->bytes, minerals->length);
    const EmbeddedFile *needs = own_table("requirement-table.csv");
    farm->requirement_table =
        requirement_table_parse(arena, faults, needs->name, needs->bytes, needs->length);
    const EmbeddedFile *limits = own_table("safety-limits.csv");
    farm->limits =
        safety_limits_parse(arena, faults, limits->name, limits->bytes, limits->length);
    const EmbeddedFile *stages = own_table("growth-stages.csv");
    const EmbeddedFile *kinds = own_table("growth-kinds.csv");
    farm->curves = growth_curves_parse(arena, faults, stages->bytes, stages->length,
                                       kinds->bytes, kinds->length);
    const EmbeddedFile *ways = own_table("harvest-ways.csv");
    farm->ways = harvest_ways_parse(arena, faults, ways->bytes, ways->length);
    const EmbeddedFile *densities = own_table("book-densities.csv");
    farm->densities = book_densities_parse(arena, faults, densities->name, densities->bytes,
                                           densities->length);
    return farm->curves && farm->ways && farm->densities && farm->book && farm->handling &&
           farm->minerals && farm->requirement_table && farm->limits.count > 0;
}

/* The winter's days are needed to read the rest; without them a stand-in year lets the other
 * files show their faults in the same run. */
static void stand_in_days(Winter *winter) {
    if (winter->is_readable)
        return;
    winter->first_day = calendar_day(2000, 11, 1);
    winter->last_day = calendar_day(2001, 5, 15);
}

/* The days other files are held against: the last before the first where they are not known. */
typedef struct {
    Day first, last;
} FeedingDays;

static FeedingDays feeding_days(const Winter *winter) {
    if (winter->is_readable)
        return (FeedingDays){winter->first_day, winter->last_day};
    return (FeedingDays){winter->first_day, calendar_add(winter->first_day, -1)};
}

static void read_inventory(Arena *arena, Faults *faults, const FarmRequest *request,
                           Farm *farm) {
    const FileBytes *tests = &request->file[FARM_FEED_TESTS];
    const FileBytes *stacks = &request->file[FARM_STACKS];
    const FileBytes *sale = &request->file[FARM_FOR_SALE];
    Inventory *inventory = &farm->inventory;
    inventory->tests =
        feed_tests_parse(arena, faults, tests->name, tests->bytes, tests->length);
    const FeedingDays days = feeding_days(&farm->winter);
    const StockContext context = {
        .book = farm->book,
        .handling = farm->handling,
        .tests = &inventory->tests,
        .first_day = days.first,
        .last_day = days.last,
        .densities = farm->densities,
    };
    if (stacks->bytes)
        inventory->stacks =
            stacks_parse(arena, faults, &context, stacks->name, stacks->bytes, stacks->length);
    inventory->for_sale =
        price_list_parse(arena, faults, &context, sale->name, sale->bytes, sale->length);
    const FileBytes *fields = &request->file[FARM_FIELDS];
    const FieldContext next_year = {&context, farm->curves, farm->ways};
    farm->fields =
        fields_parse(arena, faults, &next_year, fields->name, fields->bytes, fields->length);
    const bool stacks_were_read = inventory->stacks.stacks != NULL;
    const bool offers_were_read = !sale->bytes || inventory->for_sale.offers != NULL;
    inventory->has_all_names = stacks_were_read && offers_were_read;
    inventory_check(faults, arena, inventory);
    if (inventory->has_all_names && inventory->stacks.count + inventory->for_sale.count == 0)
        fault_add(faults, (Place){stacks->name, 0, 0},
                  "has no stack, and nothing is for sale: there is nothing to feed");
}

/* Above this a feed may not be had by cattle that can pick it out [COLORADO_NITRATE]. */
#define FREE_CHOICE_NITRATE 0.5

/* An empty cell can keep a large stack from every group: that is worth a second look. */
static void doubt_delivery(Faults *faults, const Farm *farm) {
    const char *hot = NULL;
    for (int i = 0; i < farm->inventory.stacks.count && !hot; i++) {
        const Stack *stack = &farm->inventory.stacks.stacks[i];
        if (stack->feed.nitrate_for_safety > FREE_CHOICE_NITRATE)
            hot = stack->name;
    }
    for (int g = 0; hot && g < farm->herd.count; g++) {
        const HerdGroup *group = &farm->herd.groups[g];
        if (strstr(group->stand_ins, "delivery"))
            doubt_add(
                faults, group->place,
                "delivery: is empty for '%s' and taken as free choice, which keeps '%s', high "
                "in nitrate or not tested, from them; write mixed if their feed is mixed",
                group->name, hot);
    }
}

/* The table's energy is that of the whole diet, gain and all: a gain beside it would be counted
 * twice. */
static void check_gain_by_table(Faults *faults, const Farm *farm) {
    if (farm->winter.needs_way != NEEDS_BY_TABLE)
        return;
    for (int i = 0; i < farm->own_needs.count; i++) {
        const OwnNeed *own = &farm->own_needs.needs[i];
        const CattleClass cattle_class = farm->herd.groups[own->group].cattle_class;
        if (own->kind == NEED_NEG && requirement_has_table_row(cattle_class))
            fault_add(faults, own->place,
                      "need: by the published table the gain of a %s is in "
                      "net_energy_maintenance already; give both there in one figure, or leave "
                      "requirements to the equations",
                      cattle_class_kind(cattle_class)->name);
    }
}

/* The program's own file: one that cannot be read costs the comparison and nothing else. */
static void read_kept_plan(Arena *arena, Faults *faults, const FileBytes *file, Farm *farm) {
    Faults told = faults_new(arena);
    farm->kept = kept_plan_parse(arena, &told, file->name, file->bytes, file->length);
    if (told.wrong_count == 0)
        return;
    farm->kept = (KeptPlan){.count = 0};
    doubt_add(faults, told.first->place,
              "%s; the last plan is not used, and plan --keep writes it anew",
              told.first->text);
}

/* What happened since the winter began, and the last plan of it. */
static void read_winter_so_far(Arena *arena, Faults *faults, const FarmRequest *request,
                               Farm *farm) {
    const FeedingDays days = feeding_days(&farm->winter);
    const RecordContext context = record_context(farm, days.first, days.last);
    const FileBytes *fed = &request->file[FARM_FED];
    const FileBytes *counts = &request->file[FARM_COUNTS];
    feedings_parse(arena, faults, &context, fed->name, fed->bytes, fed->length, &farm->record);
    recounts_parse(arena, faults, &context, counts->name, counts->bytes, counts->length,
                   &farm->record);
    stack_books_doubt(faults, &farm->inventory, &farm->record);
    const FileBytes *heads = &request->file[FARM_HEAD_CHANGES];
    farm->head_changes = head_changes_parse(arena, faults, &farm->herd, days.first, days.last,
                                            heads->name, heads->bytes, heads->length);
    read_kept_plan(arena, faults, &request->file[FARM_LAST_PLAN], farm);
}

Units farm_units(const FarmRequest *request, const Farm *farm) {
    if (request->units_were_asked)
        return request->units;
    return farm->winter.is_imperial ? UNITS_IMPERIAL
           : farm->winter.is_mixed  ? UNITS_MIXED
                                    : UNITS_METRIC;
}

RecordContext record_context(const Farm *farm, Day first_day, Day last_day) {
    return (RecordContext){&farm->inventory, farm->herd.names, farm->herd.count, first_day,
                           last_day};
}

bool farm_read(Arena *arena, Faults *faults, const FarmRequest *request, Farm *farm) {
    const int wrong_before = faults->wrong_count;
    *farm = (Farm){0};
    if (!read_own_tables(arena, faults, farm))
        return false;
    const FileBytes *winter = &request->file[FARM_WINTER];
    if (winter->bytes)
        farm->winter = winter_parse(arena, faults, winter->name, winter->bytes, winter->length);
    stand_in_days(&farm->winter);
    farm->limits = safety_limits_followed(arena, &farm->limits, &farm->winter);
    if (request->needs_way_was_asked)
        farm->winter.needs_way = request->needs_way;
    if (request->cold_way_was_asked)
        farm->winter.cold_way = request->cold_way;
    const EmbeddedFile *normals = own_table("climate-normals.csv");
    const FileBytes *weather = &request->file[FARM_WEATHER];
    farm->weather = weather_parse(arena, faults, normals->bytes, normals->length, weather->name,
                                  weather->bytes, weather->length);
    const EmbeddedFile *spread = own_table("climate-spread.csv");
    weather_spread_read(arena, faults, spread->bytes, spread->length, &farm->weather);
    if (farm->winter.turnout_spread_is_set)
        farm->weather.turnout_spread_days = farm->winter.turnout_spread_days;
    farm->weather.cold_way = farm->winter.cold_way;
    if (farm->winter.is_readable)
        weather_check(faults, weather->name, &farm->weather, farm->winter.first_day,
                      farm->winter.last_day);
    read_inventory(arena, faults, request, farm);
    const FileBytes *herd = &request->file[FARM_HERD];
    const FeedingDays days = feeding_days(&farm->winter);
    if (herd->bytes)
        farm->herd = herd_parse(arena, faults, days.first, days.last, herd->name, herd->bytes,
                                herd->length);
    if (farm->herd.count > 0)
        inventory_check_groups(faults, &farm->inventory, farm->herd.names, farm->herd.count);
    for (int c = 0; farm->herd.count > 0 && c < farm->fields.cut_count; c++)
        allowance_check_groups(faults, &farm->fields.cuts[c].allowance, farm->herd.names,
                               farm->herd.count);
    const FileBytes *needs = &request->file[FARM_NEEDS];
    farm->own_needs = own_needs_parse(arena, faults, &farm->herd, farm->minerals, days.first,
                                      days.last, needs->name, needs->bytes, needs->length);
    check_gain_by_table(faults, farm);
    doubt_delivery(faults, farm);
    yard_rules_doubt(faults, farm);
    read_winter_so_far(arena, faults, request, farm);
    return faults->wrong_count == wrong_before && farm->herd.count > 0 &&
           request->file[FARM_STACKS].bytes && farm->winter.is_readable &&
           farm_settle_heads(arena, faults, farm);
}
