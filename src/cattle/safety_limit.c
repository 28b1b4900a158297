#include "cattle/safety_limit.h"
#include "base/text.h"
#include "cattle/limit_feeds.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum {
    LIMIT_ID,
    LIMIT_LABEL,
    LIMIT_KIND,
    LIMIT_SUBJECT,
    LIMIT_UNIT,
    LIMIT_APPLIES,
    LIMIT_WARN,
    LIMIT_HARD,
    LIMIT_CAUTION_PRICE,
    LIMIT_SIDE,
    LIMIT_HOW,
    LIMIT_SOURCE,
    LIMIT_COLUMN_COUNT
};

static const SheetColumn COLUMNS[LIMIT_COLUMN_COUNT] = {
    {"limit", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"label", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"kind", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"subject", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"unit", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"applies_to", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"warn", UNIT_PLAIN, COLUMN_REQUIRED, 0, 1.0e9},
    {"hard", UNIT_PLAIN, COLUMN_REQUIRED, 0, 1.0e9},
    {"caution_price", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 100.0},
    {"side", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"how_known", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"source", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
};

static const char *const KIND_NAMES[LIMIT_KIND_COUNT] = {
    "concentration", "each_feed", "share", "share_above", "weight_share",
    "ratio",         "days_kept", "water", "facility"};
static const char *const SIDE_NAMES[] = {"most", "least"};
static const char *const HOW_NAMES[] = {"page", "memory", "practice", "own_choice"};

/* Beginnings of a subject that ends with a number of % NO3. */
static const struct {
    const char *begin;
    LimitSubject subject;
} ABOVE[] = {
    {"heated&nitrate>", SUBJECT_HEATED},
    {"urea&nitrate>", SUBJECT_UREA_BESIDE},
};

/* What else than a nutrient a line may look at, in the kinds that can. */
static const struct {
    const char *text;
    LimitKind kind;
    LimitSubject subject;
} SUBJECTS[] = {
    {"salt", LIMIT_CONCENTRATION, SUBJECT_SALT},
    {"calcium/phosphorus", LIMIT_RATIO, SUBJECT_CALCIUM_TO_PHOSPHORUS},
    {"potassium/(calcium+magnesium)", LIMIT_RATIO, SUBJECT_TETANY_RATIO},
    {"npn_protein/crude_protein", LIMIT_RATIO, SUBJECT_NPN_PROTEIN},
    {"npn_protein/supplement_protein", LIMIT_RATIO, SUBJECT_NPN_SUPPLEMENT},
    {"copper/molybdenum", LIMIT_RATIO, SUBJECT_COPPER_TO_MOLYBDENUM},
    {"sulfur/forage_line", LIMIT_RATIO, SUBJECT_SULFUR_LINE},
    {"sulfate", LIMIT_WATER, SUBJECT_WATER_SULFATE},
    {"nitrate", LIMIT_WATER, SUBJECT_WATER_NITRATE},
    {"dissolved_solids", LIMIT_WATER, SUBJECT_WATER_SOLIDS},
    {"bunk", LIMIT_FACILITY, SUBJECT_BUNK},
};

static bool begins(const char *text, const char *begin) {
    return strncmp(text, begin, strlen(begin)) == 0;
}

static bool is_of_feeds(LimitKind kind) {
    return kind == LIMIT_SHARE || kind == LIMIT_WEIGHT_SHARE || kind == LIMIT_DAYS_KEPT;
}

/* "nitrate>0.664": feeds that hold more of it than that. */
static void read_above(Arena *arena, SafetyLimit *limit) {
    const size_t length = strcspn(limit->subject_text, ">");
    if (limit->subject_text[length] != '>' ||
        !nutrient_find(arena_copy(arena, limit->subject_text, length), &limit->nutrient))
        return;
    limit->above = strtod(limit->subject_text + length + 1, NULL);
    limit->subject = SUBJECT_NUTRIENT;
}

static void read_subject(Arena *arena, SafetyLimit *limit) {
    const char *text = limit->subject_text;
    limit->subject = SUBJECT_NOT_WATCHED;
    for (size_t i = 0; i < sizeof SUBJECTS / sizeof SUBJECTS[0]; i++) {
        if (limit->kind == SUBJECTS[i].kind && text_same(text, SUBJECTS[i].text))
            limit->subject = SUBJECTS[i].subject;
    }
    for (size_t i = 0; i < sizeof ABOVE / sizeof ABOVE[0]; i++) {
        if (limit->kind != LIMIT_EACH_FEED || !begins(text, ABOVE[i].begin))
            continue;
        limit->nutrient = NUTRIENT_NITRATE;
        limit->above = strtod(text + strlen(ABOVE[i].begin), NULL);
        limit->subject = ABOVE[i].subject;
        return;
    }
    if (limit->kind == LIMIT_SHARE_ABOVE) {
        read_above(arena, limit);
        return;
    }
    if (is_of_feeds(limit->kind) && limit_feeds_find(text)) {
        limit->subject = SUBJECT_FEEDS;
    } else if ((limit->kind == LIMIT_CONCENTRATION || limit->kind == LIMIT_EACH_FEED) &&
               nutrient_find(text, &limit->nutrient)) {
        limit->subject = SUBJECT_NUTRIENT;
    }
}

static bool find_stages(const char *name, StageSet *stages) {
    *stages = STAGE_ALL;
    if (text_same(name, "all"))
        return true;
    for (int stage = 0; stage < STAGE_COUNT; stage++) {
        *stages = STAGE_BIT(stage);
        if (text_same(name, stage_name((Stage)stage)))
            return true;
    }
    return false;
}

/* One piece of applies_to: a stage, "all", "delivery=...", each perhaps with ":practice". */
static void read_piece(const Sheet *sheet, int row, const char *piece, SafetyLimit *limit) {
    if (text_same(piece, "delivery=free_choice")) {
        limit->condition = CONDITION_NOT_MIXED;
        return;
    }
    const size_t length = strcspn(piece, ":");
    StageSet stages;
    Practice practice;
    if (!find_stages(arena_copy(sheet_arena(sheet), piece, length), &stages)) {
        fault_add(sheet_faults(sheet), sheet_place(sheet, row, LIMIT_APPLIES),
                  "applies_to: '%s' is not a stage of cattle",
                  text_excerpt(sheet_arena(sheet), piece));
    } else if (piece[length] != ':') {
        limit->stages |= stages;
    } else if (practice_find(piece + length + 1, &practice)) {
        limit->practice_stages[practice] |= stages;
    } else {
        fault_add(sheet_faults(sheet), sheet_place(sheet, row, LIMIT_APPLIES),
                  "applies_to: '%s' names no practice a farm may follow",
                  text_excerpt(sheet_arena(sheet), piece));
    }
}

/* A limit in another unit than what it looks at would never bind, or always. */
static void check_unit(const Sheet *sheet, int row, const SafetyLimit *limit) {
    static const char *const WRITTEN[] = {"pct",       "pct_no3", "ppm",      "ppb",
                                          "cfu_per_g", "ph",      "iu_per_kg"};
    static const char *const SHOWN[] = {"%", "% NO3", "ppm", "ppb", "cfu/g", "pH", "IU/kg"};
    const char *written = sheet_text(sheet, row, LIMIT_UNIT);
    const char *unit = nutrient_kind(limit->nutrient)->unit;
    if (limit->subject != SUBJECT_NUTRIENT || limit->kind == LIMIT_SHARE_ABOVE)
        return;
    for (size_t i = 0; i < sizeof WRITTEN / sizeof WRITTEN[0]; i++) {
        if (text_same(written, WRITTEN[i]) && text_same(unit, SHOWN[i]))
            return;
    }
    fault_add(sheet_faults(sheet), sheet_place(sheet, row, LIMIT_UNIT),
              "unit: '%s' is not that of %s, %s", text_excerpt(sheet_arena(sheet), written),
              nutrient_kind(limit->nutrient)->stem, unit);
}

static void check_numbers(const Sheet *sheet, int row, const SafetyLimit *limit) {
    const bool is_share = limit->kind == LIMIT_SHARE || limit->kind == LIMIT_SHARE_ABOVE ||
                          limit->kind == LIMIT_WEIGHT_SHARE;
    const bool is_most = limit->side == SIDE_MOST;
    if (is_share && (limit->hard > 1.0 || limit->warn > 1.0)) {
        fault_add(sheet_faults(sheet), sheet_place(sheet, row, LIMIT_HARD),
                  "hard: %g and warn, %g, are shares of one, not percentages", limit->hard,
                  limit->warn);
    } else if (is_most ? limit->warn > limit->hard : limit->warn < limit->hard) {
        fault_add(sheet_faults(sheet), sheet_place(sheet, row, LIMIT_WARN),
                  "warn: %g is beyond hard, %g; the warning comes first", limit->warn,
                  limit->hard);
    }
}

static SafetyLimit read_limit(const Sheet *sheet, int row) {
    SafetyLimit limit = {
        .id = sheet_text(sheet, row, LIMIT_ID),
        .label = sheet_text(sheet, row, LIMIT_LABEL),
        .subject_text = sheet_text(sheet, row, LIMIT_SUBJECT),
    };
    sheet_require(sheet, row, LIMIT_ID);
    sheet_require(sheet, row, LIMIT_KIND);
    sheet_require(sheet, row, LIMIT_SUBJECT);
    sheet_require(sheet, row, LIMIT_SIDE);
    sheet_require(sheet, row, LIMIT_APPLIES);
    const int kind = sheet_choice(sheet, row, LIMIT_KIND, KIND_NAMES, LIMIT_KIND_COUNT);
    limit.kind = kind < 0 ? LIMIT_FACILITY : (LimitKind)kind;
    limit.side =
        sheet_choice(sheet, row, LIMIT_SIDE, SIDE_NAMES, 2) == 1 ? SIDE_LEAST : SIDE_MOST;
    const int how = sheet_choice(sheet, row, LIMIT_HOW, HOW_NAMES, 4);
    limit.how_known = how < 0 ? KNOWN_FROM_MEMORY : (HowKnown)how;
    read_subject(sheet_arena(sheet), &limit);
    const bool has_warn = sheet_number(sheet, row, LIMIT_WARN, &limit.warn);
    const bool has_hard = sheet_require(sheet, row, LIMIT_HARD) &&
                          sheet_number(sheet, row, LIMIT_HARD, &limit.hard);
    sheet_number(sheet, row, LIMIT_CAUTION_PRICE, &limit.caution_price);
    check_unit(sheet, row, &limit);
    if (has_warn && has_hard)
        check_numbers(sheet, row, &limit);
    const char **pieces;
    const int count = sheet_list(sheet, row, LIMIT_APPLIES, &pieces);
    for (int i = 0; i < count; i++)
        read_piece(sheet, row, pieces[i], &limit);
    if (limit.condition == CONDITION_NOT_MIXED && count == 1)
        limit.stages = STAGE_ALL; /* it names nobody, and so means all */
    limit.source = source_first(sheet_text(sheet, row, LIMIT_SOURCE));
    return limit;
}

SafetyLimits safety_limits_parse(Arena *arena, Faults *faults, const char *file,
                                 const char *bytes, size_t length) {
    const Sheet *sheet =
        sheet_parse(arena, faults, file, bytes, length, COLUMNS, LIMIT_COLUMN_COUNT);
    if (!sheet)
        return (SafetyLimits){NULL, 0};
    const int count = sheet_row_count(sheet);
    SafetyLimit *limits = ARENA_ARRAY(arena, SafetyLimit, count);
    for (int row = 0; row < count; row++)
        limits[row] = read_limit(sheet, row);
    return (SafetyLimits){limits, count};
}

SafetyLimits safety_limits_followed(Arena *arena, const SafetyLimits *limits,
                                    const Winter *winter) {
    SafetyLimit *followed = ARENA_ARRAY(arena, SafetyLimit, limits->count);
    for (int i = 0; i < limits->count; i++) {
        followed[i] = limits->limits[i];
        for (int practice = 0; practice < PRACTICE_COUNT; practice++) {
            if (winter_follows(winter, (Practice)practice))
                followed[i].stages |= followed[i].practice_stages[practice];
        }
    }
    return (SafetyLimits){followed, limits->count};
}

bool limit_is_watched(const SafetyLimit *limit) {
    return limit->subject != SUBJECT_NOT_WATCHED;
}

bool limit_applies(const SafetyLimit *limit, StageSet stages, Delivery delivery) {
    if (!limit_is_watched(limit) || (limit->stages & stages) == 0)
        return false;
    return limit->condition != CONDITION_NOT_MIXED || delivery != DELIVERY_MIXED;
}

bool limit_covers(const SafetyLimit *limit, const Feedstuff *feed) {
    return limit->subject == SUBJECT_FEEDS && limit_feeds_hold(limit->subject_text, feed);
}

Day limit_kept_until(const SafetyLimit *limit, Day put_up) {
    return calendar_add(put_up, (int)ceil(limit->hard));
}

double sulfur_most_by_forage(double forage_share) {
    return fmin(SULFUR_WITHOUT_FORAGE + SULFUR_PER_FORAGE * forage_share, SULFUR_AT_MOST);
}

double water_adds_salt(double sodium_mg_per_l) {
    return WATER_PER_KG_DRY_MATTER * sodium_mg_per_l * SALT_PER_SODIUM / PPM_PER_PERCENT;
}

double water_adds(Nutrient nutrient, double sulfate_mg_per_l, double nitrate_mg_per_l) {
    const double mg_per_kg_to_percent = 1.0 / PPM_PER_PERCENT;
    if (nutrient == NUTRIENT_NITRATE)
        return WATER_PER_KG_DRY_MATTER * nitrate_mg_per_l * mg_per_kg_to_percent;
    if (nutrient == NUTRIENT_SULFUR)
        return WATER_PER_KG_DRY_MATTER * sulfate_mg_per_l * SULFUR_PER_SULFATE *
               mg_per_kg_to_percent;
    return 0.0;
}
