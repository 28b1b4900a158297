/* A published table of what the diet should hold (models/coefficients/requirement-table.csv),
 * the alternative to the equations. It says shares of the dry matter; the amounts are those
 * shares of what the intake equation as published lets them eat of a diet of that energy.
 * docs/equations/requirement.md */
#ifndef CATTLE_REQUIREMENT_TABLE_H
#define CATTLE_REQUIREMENT_TABLE_H

#include "cattle/requirement.h"

typedef enum {
    TABLE_TDN,
    TABLE_CRUDE_PROTEIN,
    TABLE_CALCIUM,
    TABLE_PHOSPHORUS,
    TABLE_COLUMN_COUNT
} TableColumn;

typedef struct {
    double pct[TABLE_ROW_COUNT][TABLE_COLUMN_COUNT]; /* 0 where none is printed */
    SourceKey source[TABLE_ROW_COUNT][TABLE_COLUMN_COUNT];
} RequirementTable;

/* NULL when faults were added. */
const RequirementTable *requirement_table_parse(Arena *arena, Faults *faults, const char *file,
                                                const char *bytes, size_t length);

/* What the table says of one head in a period of which the equations said `said`. */
typedef struct {
    bool is_printed; /* false: the table has no line for such cattle */
    EnergyRate nem;  /* in the whole diet */
    /* What the equations ask for, as NEm of the whole diet: a gain takes more NEm than NEg. */
    EnergyRate equations_nem;
    GramRate protein; /* metabolizable */
    GramRate calcium, phosphorus;
    /* Of the cow-days, those of which the table prints a figure; of the others the equations
     * stand. */
    double calcium_share, phosphorus_share;
} TableNeed;

TableNeed requirement_by_table(const RequirementTable *table, const Requirement *said);

/* Where a figure of such cattle is printed, by the line that holds for most of their days;
 * SOURCE_NONE where it is not. */
SourceKey requirement_table_source(const RequirementTable *table, const Requirement *said,
                                   TableColumn column);

/* Puts the table in the place of the equations. */
void requirement_follow_table(const TableNeed *table, Requirement *requirement);

#endif
