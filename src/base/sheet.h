/* A table read through a list of the columns it may have: headings matched with their units,
 * each number brought into the program's own units, every mistake placed.
 *
 * A column is declared by its stem and unit family; `weight` of MASS may be headed weight_kg or
 * weight_lb (unit_family.def). Heading case, blanks and dashes do not matter ("Weight kg" is
 * weight_kg). */
#ifndef BASE_SHEET_H
#define BASE_SHEET_H

#include "base/calendar.h"
#include "base/table.h"

/* Nitrate carried by other ions, from the atomic weights N 14.007, O 15.999, K 39.098. */
#define NO3_PER_NITRATE_N 4.4266
#define NO3_PER_POTASSIUM_NITRATE 0.6133
#define PPM_PER_PERCENT 10000.0
#define PPB_PER_PPM 1000.0

typedef enum {
    UNIT_PLAIN,
    UNIT_PERCENT,
    UNIT_MASS,
    UNIT_TONNAGE,
    UNIT_PRICE, /* money per kg inside */
    UNIT_LENGTH,
    UNIT_BULK_DENSITY,
    UNIT_TEMPERATURE,
    UNIT_TEMPERATURE_SPREAD, /* a difference */
    UNIT_SPEED,
    UNIT_DAILY_MASS,
    UNIT_ENERGY_DENSITY,
    UNIT_TRACE,
    UNIT_VITAMIN,
    UNIT_NITRATE_ION, /* % NO3 inside */
    UNIT_TOXIN,       /* ppm inside */
    UNIT_TOXIN_TRACE, /* ppb inside */
    UNIT_MOULD_COUNT, /* colony-forming units a gram */
    UNIT_AREA,        /* hectares inside */
    UNIT_CROP,        /* kg a hectare inside */
    UNIT_AREA_COST,   /* money a hectare inside */
    UNIT_DISTANCE,    /* km inside */
    UNIT_MILEAGE,     /* money a km inside */
    UNIT_FAMILY_COUNT
} UnitFamily;

typedef enum { COLUMN_OPTIONAL, COLUMN_REQUIRED } ColumnNeed;

typedef struct {
    const char *stem;
    UnitFamily family;
    ColumnNeed need;    /* REQUIRED: the heading must be there; cells may still be empty */
    double least, most; /* of a number, in the program's own units */
} SheetColumn;

typedef struct Sheet Sheet;

/* Reads bytes as a table and matches the headings, other words that say the same included
 * (heading_alias.def). An unknown heading is a fault that names what may have been meant, or
 * all headings, once; so are a heading twice, both units of one column, and a missing required
 * column. NULL when the table itself could not be read; otherwise a sheet whose rows can be
 * read on (cells of unmatched columns are empty) even if faults were added. `columns` must
 * outlive it. */
Sheet *sheet_parse(Arena *arena, Faults *faults, const char *file, const char *bytes,
                   size_t length, const SheetColumn *columns, int column_count);

int sheet_row_count(const Sheet *sheet);
bool sheet_has(const Sheet *sheet, int column);                  /* the heading is there */
const char *sheet_text(const Sheet *sheet, int row, int column); /* "" when empty or absent */
Place sheet_place(const Sheet *sheet, int row,
                  int column); /* of the cell; of the row if absent */
/* What the heading was written as ("weight_lb"), for messages; the stem if absent. */
const char *sheet_heading(const Sheet *sheet, int column);
bool sheet_row_is_empty(const Sheet *sheet, int row);

/* A cell that must not be empty: adds a fault when it is (where a required heading is missing,
 * or one was meant for the column but could not be read, that was told once by sheet_parse). */
bool sheet_require(const Sheet *sheet, int row, int column);

/* The cell is empty, and no faulty heading is to blame for it: only then is it told to be
 * filled. */
bool sheet_is_left_out(const Sheet *sheet, int row, int column);

/* true and *value in own units when a number is there. false with no fault when the cell is
 * empty; false with a fault when it is not a number or outside the column's least..most (the
 * message gives the limits in the unit the user wrote). "1,5" is read in a semicolon or tab
 * file and refused with the cure in a comma file; "1 250", "1,250", "$80" and "85%" are refused
 * with the cure; inf, nan and hexadecimal are not numbers. */
bool sheet_number(const Sheet *sheet, int row, int column, double *value);
bool sheet_whole_number(const Sheet *sheet, int row, int column, int *value);
bool sheet_date(const Sheet *sheet, int row, int column, Day *day);

/* The place of the cell's text among the choices (choice_find); -1 when empty; -1 with a fault
 * naming what may have been meant, or all, when it is none of them. A long list is told once a
 * column. */
int sheet_choice(const Sheet *sheet, int row, int column, const char *const *choices,
                 int count);

/* A list in one cell, separated by `|`, `/` or `+`: pieces trimmed, empties dropped. */
int sheet_list(const Sheet *sheet, int row, int column, const char ***pieces);

/* For who writes a row more into the file as it is: where a column stands, -1 where it does
 * not; how many there are; what stands between cells; the line a row begins on. */
int sheet_position(const Sheet *sheet, int column);
int sheet_width(const Sheet *sheet);
char sheet_separator(const Sheet *sheet);
int sheet_line(const Sheet *sheet, int row);

Faults *sheet_faults(const Sheet *sheet);
Arena *sheet_arena(const Sheet *sheet);

/* own units -> the number as the user would have written it under his heading, for messages */
double sheet_as_written(const Sheet *sheet, int column, double own_value);

#endif
