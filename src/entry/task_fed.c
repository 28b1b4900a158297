/* The command fed: one row more in fed.csv or counts.csv, or the last one taken out again. The
 * new bytes are read as the file would be read, so nothing that is a fault there is written. */
#include "base/choice.h"
#include "entry/farm_reading.h"
#include "outcome/fed_report.h"
#include "stock/record_row.h"

#define COMMENT_OF_FED                                                                         \
    "What was fed out of each stack, a row a feeding: winterstack fed writes here, and a "     \
    "spreadsheet may."
#define COMMENT_OF_COUNTS                                                                      \
    "What was left of a stack when somebody counted, a row a count: winterstack fed writes "   \
    "here, and a spreadsheet may."

static const TaskResult FAULTY = {.status = TASK_FAULTY};

typedef void RecordReader(Arena *arena, Faults *faults, const RecordContext *context,
                          const char *file, const char *bytes, size_t length,
                          FeedRecord *record);

/* The two files of the record, told apart here and nowhere else. */
typedef struct {
    FarmFile file;
    const SheetColumn *columns;
    int column_count, entry_column;
    const char *comment;
    RecordReader *read;
} RecordFile;

static const RecordFile RECORD_FILES[] = {
    {FARM_FED, FED_COLUMNS, FED_COLUMN_COUNT, FED_ENTRY, COMMENT_OF_FED, feedings_parse},
    {FARM_COUNTS, RECOUNT_COLUMNS, RECOUNT_COLUMN_COUNT, RECOUNT_ENTRY, COMMENT_OF_COUNTS,
     recounts_parse},
};
enum { RECORD_FILE_COUNT = sizeof RECORD_FILES / sizeof *RECORD_FILES };

static Sheet *sheet_of(Arena *arena, const RecordFile *of, const FileBytes *file) {
    Faults told = faults_new(arena); /* the farm was read without a fault */
    return sheet_parse(arena, &told, file->name, file->bytes, file->length, of->columns,
                       of->column_count);
}

/* ---- names as the farm has them ---- */

static const char *known_name(Faults *faults, const char *option, const char *what,
                              const char *typed, const char *const *names, int count) {
    const int found = choice_find(typed, names, count);
    if (found >= 0)
        return names[found];
    const char *guess = choice_guess(faults->arena, typed, names, count);
    Text list = text_new(faults->arena);
    for (int i = 0; !guess && i < count; i++)
        text_print(&list, "%s%s", i > 0 ? "; " : "; there are: ", names[i]);
    fault_add(faults, (Place){option, 0, 0}, "no %s is named '%s'%s%s", what,
              text_excerpt(faults->arena, typed), guess ? "; " : "",
              guess ? guess : text_excerpt(faults->arena, list.bytes));
    return NULL;
}

/* Stacks, and for a feeding what is for sale too. */
static const char *known_stack(Faults *faults, const Farm *farm, const RecordWish *wish) {
    const Inventory *inventory = &farm->inventory;
    const int stacks = inventory->stacks.count;
    const int offers = wish->is_recount ? 0 : inventory->for_sale.count;
    const char **names = ARENA_ARRAY(faults->arena, const char *, stacks + offers);
    for (int i = 0; i < stacks + offers; i++)
        names[i] =
            i < stacks ? inventory->stacks.names[i] : inventory->for_sale.names[i - stacks];
    return known_name(faults, "--stack", "stack", wish->stack, names, stacks + offers);
}

/* ---- a row more ---- */

static const char *day_cell(Arena *arena, Day day) {
    char text[CALENDAR_TEXT_BYTES];
    calendar_print(day, text);
    return arena_print(arena, "%s", text);
}

/* In the order of the file's columns. */
static const char **cells_of(Arena *arena, const RecordWish *wish, const char *group,
                             const char *stack, int entry) {
    const char **cells = ARENA_ARRAY(arena, const char *, FED_COLUMN_COUNT);
    int count = 0;
    cells[count++] = day_cell(arena, wish->date);
    if (!wish->is_recount)
        cells[count++] = group;
    cells[count++] = stack;
    cells[count++] = wish->number;
    cells[count++] = AMOUNT_UNIT_NAME[wish->unit];
    cells[count++] = wish->note ? wish->note : "";
    cells[count++] = arena_print(arena, "%d", entry);
    return cells;
}

/* What is wrong with the new row; its place in the file means nothing to who typed options. */
static void tell_faults(Faults *faults, const Faults *told) {
    for (const Fault *fault = told->first; fault; fault = fault->next) {
        if (fault->kind == FAULT_WRONG)
            fault_add(faults, (Place){"this entry", 0, 0}, "%s", fault->text);
    }
}

/* What looks odd about it is written, and said on the page. */
static void tell_doubts(Report *report, const Faults *told, const char *file, int line) {
    for (const Fault *fault = told->first; fault; fault = fault->next) {
        if (fault->kind == FAULT_DOUBT && fault->place.line == line &&
            text_same(fault->place.file, file))
            report_remark(report, SEVERITY_CAUTION, "entry",
                          arena_print(report->arena,
                                      "Written, but look again. %s. If it is a slip: "
                                      "winterstack fed --undo.",
                                      fault->text),
                          "");
    }
}

static int last_line(const Text *bytes) {
    int line = 1;
    for (size_t i = 0; i + 1 < bytes->length; i++)
        line +=
            bytes->bytes[i] == '\n' || (bytes->bytes[i] == '\r' && bytes->bytes[i + 1] != '\n');
    return line;
}

/* The record as it is with the new bytes in the place of one file. */
static FeedRecord read_again(Arena *arena, Faults *faults, const Farm *farm,
                             const FarmRequest *request, const RecordFile *changed,
                             const Text *bytes) {
    FeedRecord record = {0};
    const RecordContext context =
        record_context(farm, farm->winter.first_day, farm->winter.last_day);
    for (int i = 0; i < RECORD_FILE_COUNT; i++) {
        const FileBytes *file = &request->file[RECORD_FILES[i].file];
        const bool is_changed = &RECORD_FILES[i] == changed;
        RECORD_FILES[i].read(arena, faults, &context, file->name,
                             is_changed ? bytes->bytes : file->bytes,
                             is_changed ? bytes->length : file->length, &record);
    }
    stack_books_doubt(faults, &farm->inventory, &record);
    return record;
}

static TaskResult add_entry(Arena *arena, Faults *faults, const FarmRequest *request,
                            Farm *farm) {
    const RecordWish *wish = &request->record;
    const RecordFile *of = &RECORD_FILES[wish->is_recount];
    const FileBytes *file = &request->file[of->file];
    const char *stack = known_stack(faults, farm, wish);
    const char *group = wish->is_recount ? ""
                                         : known_name(faults, "--group", "group", wish->group,
                                                      farm->herd.names, farm->herd.count);
    if (!stack || !group)
        return FAULTY;
    const char **cells = cells_of(arena, wish, group, stack, farm->record.last_entry + 1);
    const Text bytes =
        file->bytes
            ? record_with_row(arena, file->bytes, file->length, sheet_of(arena, of, file),
                              of->columns, cells, of->column_count)
            : record_begun(arena, of->comment, of->columns, cells, of->column_count);
    Faults told = faults_new(arena);
    farm->record = read_again(arena, &told, farm, request, of, &bytes);
    tell_faults(faults, &told);
    if (faults->wrong_count > 0)
        return FAULTY;
    const FedEntry entry = {wish->is_recount, false,      wish->date, group, stack,
                            wish->number,     wish->unit, NULL};
    Report *report = fed_report(arena, farm, farm_units(request, farm), &entry);
    tell_doubts(report, &told, file->name, last_line(&bytes));
    return (TaskResult){.status = TASK_DONE,
                        .written = {file->name, bytes.bytes, bytes.length},
                        .report = report};
}

/* ---- the last one out again ---- */

/* The row of this number, the last where a spreadsheet copied it; -1 none. */
static int row_of_entry(const Sheet *sheet, const RecordFile *of, int entry) {
    int found = -1;
    for (int row = 0; row < sheet_row_count(sheet); row++) {
        int number;
        if (sheet_whole_number(sheet, row, of->entry_column, &number) && number == entry)
            found = row;
    }
    return found;
}

static TaskResult undo_entry(Arena *arena, Faults *faults, const FarmRequest *request,
                             Farm *farm) {
    for (int i = 0; farm->record.last_entry > 0 && i < RECORD_FILE_COUNT; i++) {
        const RecordFile *of = &RECORD_FILES[i];
        const FileBytes *file = &request->file[of->file];
        const Sheet *sheet = file->bytes ? sheet_of(arena, of, file) : NULL;
        const int row = sheet ? row_of_entry(sheet, of, farm->record.last_entry) : -1;
        if (row < 0)
            continue;
        FedEntry entry = {.is_recount = of->file == FARM_COUNTS, .is_undone = true};
        entry.stack = sheet_text(sheet, row, entry.is_recount ? RECOUNT_STACK : FED_STACK);
        const Text bytes =
            record_without_row(arena, file->bytes, file->length, sheet, row, &entry.removed);
        Faults told = faults_new(arena);
        farm->record = read_again(arena, &told, farm, request, of, &bytes);
        return (TaskResult){.status = TASK_DONE,
                            .written = {file->name, bytes.bytes, bytes.length},
                            .report =
                                fed_report(arena, farm, farm_units(request, farm), &entry)};
    }
    fault_add(
        faults, (Place){"--undo", 0, 0},
        "there is no entry that winterstack fed has written; a row typed in a spreadsheet "
        "is taken out there");
    return FAULTY;
}

TaskResult task_fed(Arena *arena, Faults *faults, const FarmRequest *request) {
    Farm farm;
    if (!farm_read(arena, faults, request, &farm))
        return FAULTY;
    return request->record.is_given[RECORD_OPTION_UNDO]
               ? undo_entry(arena, faults, request, &farm)
               : add_entry(arena, faults, request, &farm);
}
