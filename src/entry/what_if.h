/* A what-if: a small CSV file of changes to a farm's files. docs/file-formats.md
 *
 * Changes are made to the tables of the files, before anything is understood of them, so that
 * every check of every reader holds for them too. */
#ifndef ENTRY_WHAT_IF_H
#define ENTRY_WHAT_IF_H

#include "base/table_change.h"
#include "entry/task.h"

typedef enum { CHANGE_SET, CHANGE_ADD, CHANGE_COPY, CHANGE_REMOVE } ChangeKind;

typedef struct {
    ChangeKind kind;
    FarmFile file;
    const char *row, *column, *value;
    Place place, row_place, column_place, value_place;
} Change;

typedef struct {
    const char *name; /* of the file, without folder and ending, dashes as blanks */
    const char *file;
    const Change *changes;
    int count;
    double own_cost; /* dollars no file of the farm holds; less than 0: it brings money in */
    const char *cost_words; /* what for; "" where there is none */
} WhatIf;

#define WHAT_IF_MOST_CHANGES 200
#define WHAT_IF_COST "cost" /* in the place of a file: money that no file holds */

/* Next year's fields change nothing of this winter. */
#define FIELDS_ARE_OF_CUT                                                                      \
    "fields.csv is of next year's winter: compare plans this one, and only `winterstack cut` " \
    "plans from it"

/* False when a fault was added. `herd_file` is what the herd's own file is called. */
bool what_if_parse(Arena *arena, Faults *faults, const FileBytes *file, const char *herd_file,
                   WhatIf *what_if);

/* The farm's files with changes made: of each file changed, where its cells come from. */
typedef struct {
    FarmRequest request;
    const WrittenTable *written[FARM_FILE_COUNT]; /* NULL: as it was */
} ChangedFiles;

/* False when a fault was added: a row that is not there, or of which there are several. With a
 * stack or an offer go its tests, with a group its own figures. */
bool what_if_apply(Arena *arena, Faults *faults, const FarmRequest *request,
                   const Change *changes, int count, ChangedFiles *changed);

/* The file as a what-if names it; false: none is called that. */
bool what_if_find_file(const char *word, const char *herd_file, FarmFile *file);
/* "; did you mean 'stacks'?", or all names. */
const char *what_if_file_cure(Arena *arena, const char *word);

/* A change in words: "stacks.csv, Late hay: count 200 (was 170)". */
const char *change_words(Arena *arena, const FarmRequest *request, const Change *change);

#endif
