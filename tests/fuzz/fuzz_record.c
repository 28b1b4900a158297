/* Any bytes as fed.csv, as counts.csv, as head-changes.csv and as last-plan.csv: what is let
 * through keeps the books in balance, and a row can be put in and taken out again. */
#include "cattle/head_change.h"
#include "fuzz/reader_laws.h"
#include "planner/kept_plan.h"
#include "stock/record_row.h"
#include "stock/recount_meaning.h"
#include <stdint.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static const char STACKS[] =
    "stack,kind,feed,counted_date,count,bale_weight_kg,total_tonnes,storage,feeding,"
    "value_per_tonne\n"
    "Hay,round bales,grass hay average,2026-10-20,100,500,,twine rows,processed,100\n"
    "Pit,pit,cover-crop silage early,2026-10-20,,,200,covered pit,bunk,50\n";

static Inventory yard(Arena *arena) {
    const LawTables tables = law_tables();
    const FeedTests none = {NULL, NULL, 0};
    const StockContext context = {tables.book,
                                  tables.handling,
                                  &none,
                                  calendar_day(2026, 11, 1),
                                  calendar_day(2027, 5, 15),
                                  NULL};
    Faults faults = faults_new(arena);
    Inventory inventory = {.has_all_names = true};
    inventory.stacks =
        stacks_parse(arena, &faults, &context, "stacks.csv", STACKS, strlen(STACKS));
    assert(inventory.stacks.count == 2 && faults.wrong_count == 0);
    return inventory;
}

static RecordContext context_of(const Inventory *inventory) {
    static const char *const GROUPS[] = {"Cows"};
    return (RecordContext){inventory, GROUPS, 1, calendar_day(2026, 11, 1),
                           calendar_day(2027, 5, 15)};
}

static void assert_books_balance(const Inventory *inventory, const FeedRecord *record) {
    for (int place = 0; place < inventory->stacks.count; place++) {
        for (int day = 0; day < 200; day += 40) {
            const StackBook book =
                stack_book(inventory, record, place, calendar_day(2026, 11, 1 + day % 28),
                           day % 80 ? BOOK_IN_THE_MORNING : BOOK_IN_THE_EVENING);
            const double sum = book.fed_kg + book.loss_kg + book.missing_kg + book.left_kg;
            assert(fabs(sum - book.started_kg) <= 1e-9 * (book.started_kg + book.fed_kg));
            assert(book.left_kg >= 0.0);
        }
        RecountMeaning meaning;
        recount_meaning(inventory, record, place, calendar_day(2027, 5, 15), &meaning);
    }
}

static void try_feedings(Arena *arena, const char *bytes, size_t size) {
    const Inventory inventory = yard(arena);
    const RecordContext context = context_of(&inventory);
    Faults faults = faults_new(arena);
    FeedRecord record = {0};
    feedings_parse(arena, &faults, &context, "fed.csv", bytes, size, &record);
    stack_books_doubt(&faults, &inventory, &record);
    assert_faults_are_lines(&faults);
    assert_books_balance(&inventory, &record);
}

static void try_recounts(Arena *arena, const char *bytes, size_t size) {
    const Inventory inventory = yard(arena);
    const RecordContext context = context_of(&inventory);
    Faults faults = faults_new(arena);
    FeedRecord record = {0};
    recounts_parse(arena, &faults, &context, "counts.csv", bytes, size, &record);
    assert_faults_are_lines(&faults);
    assert_books_balance(&inventory, &record);
}

/* Where the file has no fault, a row more is read as it was written, all other rows stay, and
 * without it the file is what it was, but for a line end or a heading it lacked. */
static void try_row(Arena *arena, const char *bytes, size_t size) {
    static const char *const CELLS[FED_COLUMN_COUNT] = {"2026-11-05", "Cows", "Hay",  "6",
                                                        "bales",      "a, b", "12345"};
    Faults faults = faults_new(arena);
    const Sheet *sheet =
        sheet_parse(arena, &faults, "fed.csv", bytes, size, FED_COLUMNS, FED_COLUMN_COUNT);
    if (!sheet || faults.wrong_count > 0)
        return;
    const Text more =
        record_with_row(arena, bytes, size, sheet, FED_COLUMNS, CELLS, FED_COLUMN_COUNT);
    if (more.length > TABLE_MOST_BYTES || sheet_row_count(sheet) == TABLE_MOST_ROWS ||
        sheet_width(sheet) + FED_COLUMN_COUNT > TABLE_MOST_COLUMNS)
        return;
    const Sheet *longer = sheet_parse(arena, &faults, "fed.csv", more.bytes, more.length,
                                      FED_COLUMNS, FED_COLUMN_COUNT);
    assert(longer && faults.wrong_count == 0);
    const int last = sheet_row_count(longer) - 1;
    assert(last == sheet_row_count(sheet));
    for (int column = 0; column < FED_COLUMN_COUNT; column++)
        assert(text_same(sheet_text(longer, last, column), CELLS[column]));
    for (int row = 0; row < last; row++) {
        for (int column = 0; column < FED_COLUMN_COUNT; column++)
            assert(text_same(sheet_text(longer, row, column), sheet_text(sheet, row, column)));
    }
    const char *removed;
    const Text less =
        record_without_row(arena, more.bytes, more.length, longer, last, &removed);
    const Sheet *shorter = sheet_parse(arena, &faults, "fed.csv", less.bytes, less.length,
                                       FED_COLUMNS, FED_COLUMN_COUNT);
    assert(shorter && sheet_row_count(shorter) == last);
}

static void try_heads(Arena *arena, const char *bytes, size_t size) {
    static const HerdGroup GROUPS[] = {{.name = "Cows", .head = 50}};
    static const char *const NAMES[] = {"Cows"};
    const Herd herd = {GROUPS, NAMES, 1};
    Faults faults = faults_new(arena);
    const HeadChanges changes =
        head_changes_parse(arena, &faults, &herd, calendar_day(2026, 11, 1),
                           calendar_day(2027, 5, 15), "head-changes.csv", bytes, size);
    assert_faults_are_lines(&faults);
    assert_within(head_on(&changes, &herd, 0, calendar_day(2027, 1, 1)), 0.0, 100000.0);
}

static void try_kept(Arena *arena, const char *bytes, size_t size) {
    Faults faults = faults_new(arena);
    const KeptPlan kept = kept_plan_parse(arena, &faults, "last-plan.csv", bytes, size);
    assert_faults_are_lines(&faults);
    if (kept.count > 0)
        assert(kept_plan_kg(&kept, NULL, kept.first_day, kept.last_day) >= 0.0);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    Arena *const arena = arena_open();
    const char *const bytes = size > 0 ? (const char *)data : "";
    try_feedings(arena, bytes, size);
    try_recounts(arena, bytes, size);
    try_row(arena, bytes, size);
    try_heads(arena, bytes, size);
    try_kept(arena, bytes, size);
    arena_close(arena);
    return 0;
}
