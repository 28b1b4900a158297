#include "cattle/herd_group.h"
#include "base/text.h"
#include "cattle/body_reserve.h"
#include "cattle/growth.h"
#include "cattle/herd_column.h"
#include "cattle/pregnancy.h"
#include <math.h>

#define MOST_GROUPS 100 /* what a plan can be made of in reasonable time */

static const SheetColumn COLUMNS[GROUP_COLUMN_COUNT] = {
    {"group", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"class", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"head", UNIT_PLAIN, COLUMN_REQUIRED, 1, 100000},
    {"weight", UNIT_MASS, COLUMN_REQUIRED, 100, 1300},
    {"mature_weight", UNIT_MASS, COLUMN_OPTIONAL, 300, 1300},
    {"condition_score_9", UNIT_PLAIN, COLUMN_OPTIONAL, 1, 9},
    {"condition_score_5", UNIT_PLAIN, COLUMN_OPTIONAL, 1, 5},
    {"target_condition_9", UNIT_PLAIN, COLUMN_OPTIONAL, 1, 9},
    {"target_condition_5", UNIT_PLAIN, COLUMN_OPTIONAL, 1, 5},
    {"target_date", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
    {"calving_start", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
    {"calving_end", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
    {"peak_milk", UNIT_DAILY_MASS, COLUMN_OPTIONAL, 2, 25},
    {"calf_birth_weight", UNIT_MASS, COLUMN_OPTIONAL, 20, 65},
    {"weaning_date", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
    {"gain", UNIT_DAILY_MASS, COLUMN_OPTIONAL, 0, 2.2},
    {"breed", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
    {"coat", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
    {"shelter", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
    {"delivery", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
    {"grazing", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
    {"bunk_length", UNIT_LENGTH, COLUMN_OPTIONAL, 0.5, 3000},
    {"yard", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
    {"price_per_head", UNIT_PLAIN, COLUMN_OPTIONAL, 1, 50000},
    {"note", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
};

static const CattleClassKind CLASS_KINDS[CATTLE_CLASS_COUNT] = {
#define CATTLE_CLASS(id, name, bred, grows, sex) {name, bred, grows, sex},
#include "cattle/cattle_class.def"
#undef CATTLE_CLASS
};
static const char *const CLASS_NAMES[CATTLE_CLASS_COUNT] = {
#define CATTLE_CLASS(id, name, bred, grows, sex) name,
#include "cattle/cattle_class.def"
#undef CATTLE_CLASS
};

/* Maintenance by breed [NRC_EQUATIONS_2000]; crosses are the mean. */
static const char *const BREED_NAMES[] = {"beef", "dairy cross", "dairy", "bos indicus",
                                          "bos indicus cross"};
static const double BREED_FACTORS[] = {1.00, 1.10, 1.20, 0.90, 0.95};
static const char *const COAT_NAMES[] = {"summer", "fall", "winter", "heavy winter"};
static const char *const SHELTER_NAMES[] = {"open", "windbreak", "bush", "barn"};
static const char *const GRAZING_NAMES[] = {"none", "bale grazing", "swath grazing"};
static const char *const DELIVERY_NAMES[] = {"mixed", "layered", "free choice"};

/* "Average" peak of a beef cow, 20 lb [RASBY_COWS]; first calvers 74 % of it [UADA_MP391_2018].
 */
#define DEFAULT_PEAK_MILK_KG 9.07
#define FIRST_CALF_MILK_SHARE 0.74
#define AVERAGE_CONDITION 5.0

const CattleClassKind *cattle_class_kind(CattleClass cattle_class) {
    return &CLASS_KINDS[cattle_class];
}

const char *delivery_name(Delivery delivery) { return DELIVERY_NAMES[delivery]; }

double shelter_wind_share(Shelter shelter) {
    switch (shelter) {
    case SHELTER_OPEN:
        return 1.0;
    case SHELTER_WINDBREAK:
        return 0.4;
    case SHELTER_BUSH:
        return 0.3;
    case SHELTER_BARN:
        return 0.0;
    }
    return 1.0;
}

static bool has(const Sheet *sheet, int row, int column) {
    return sheet_text(sheet, row, column)[0] != '\0';
}

/* A score from whichever scale its heading says; false when neither cell is filled. */
static bool read_score(const Sheet *sheet, int row, int nine, int five, double *score) {
    if (has(sheet, row, nine) && has(sheet, row, five)) {
        fault_add(sheet_faults(sheet), sheet_place(sheet, row, five),
                  "%s: the score is given on both scales; keep one",
                  sheet_heading(sheet, five));
        return false;
    }
    double written;
    if (sheet_number(sheet, row, nine, &written)) {
        *score = written;
        return true;
    }
    if (sheet_number(sheet, row, five, &written)) {
        *score = condition_from_five_point(written);
        return true;
    }
    return false;
}

/* Says what stands in for cells that were left empty and matter to the plan. */
static const char *stand_ins_of(const Sheet *sheet, int row, const HerdGroup *group) {
    Text text = text_new(sheet_arena(sheet));
    if (sheet_is_left_out(sheet, row, GROUP_DELIVERY))
        text_add(&text, "; delivery: free choice");
    if (sheet_is_left_out(sheet, row, GROUP_SHELTER))
        text_add(&text, "; shelter: open");
    if (sheet_is_left_out(sheet, row, GROUP_COAT))
        text_add(&text, "; coat: winter");
    if (sheet_is_left_out(sheet, row, GROUP_CONDITION_9) &&
        sheet_is_left_out(sheet, row, GROUP_CONDITION_5))
        text_add(&text, "; condition score: 5 of 9");
    if (group->is_bred && sheet_is_left_out(sheet, row, GROUP_PEAK_MILK))
        text_print(&text, "; peak milk: %.1f kg (%.0f lb) a day", group->peak_milk.kg_per_day,
                   group->peak_milk.kg_per_day / KG_PER_POUND);
    if (group->is_bred && sheet_is_left_out(sheet, row, GROUP_BIRTH_WEIGHT))
        text_print(&text, "; calf birth weight: %.1f kg (%.0f lb)", group->calf_birth_weight.kg,
                   group->calf_birth_weight.kg / KG_PER_POUND);
    if (group->gain.kg_per_day > 0.0 && sheet_is_left_out(sheet, row, GROUP_GAIN))
        text_print(
            &text,
            "; gain: %.2f kg (%.2f lb) a day, to reach 80 %% of mature weight by calving",
            group->gain.kg_per_day, group->gain.kg_per_day / KG_PER_POUND);
    return text.length > 0 ? text.bytes + 2 : "";
}

static int choice_or(const Sheet *sheet, int row, int column, const char *const *names,
                     int count, int otherwise) {
    const int place = sheet_choice(sheet, row, column, names, count);
    return place < 0 ? otherwise : place;
}

static void read_calving(const Sheet *sheet, int row, const CattleClassKind *kind,
                         HerdGroup *group) {
    Faults *faults = sheet_faults(sheet);
    const bool has_start = sheet_date(sheet, row, GROUP_CALVING_START, &group->calving_start);
    const bool has_end = sheet_date(sheet, row, GROUP_CALVING_END, &group->calving_end);
    group->has_weaning = sheet_date(sheet, row, GROUP_WEANING, &group->weaning);
    const Place place = sheet_place(sheet, row, GROUP_CALVING_START);
    if ((has(sheet, row, GROUP_CALVING_START) &&
         sheet_is_left_out(sheet, row, GROUP_CALVING_END)) ||
        (sheet_is_left_out(sheet, row, GROUP_CALVING_START) &&
         has(sheet, row, GROUP_CALVING_END))) {
        fault_add(faults, place,
                  "calving_start and calving_end: give both or neither for group '%s'",
                  text_excerpt(sheet_arena(sheet), group->name));
        return;
    }
    if (!has_start || !has_end)
        return;
    const int window = calendar_days_between(group->calving_start, group->calving_end);
    if (!kind->can_be_bred) {
        fault_add(faults, place, "calving_start: a %s does not calve", kind->name);
    } else if (window < 0) {
        fault_add(faults, sheet_place(sheet, row, GROUP_CALVING_END),
                  "calving_end: %s is before calving_start, %s",
                  sheet_text(sheet, row, GROUP_CALVING_END),
                  sheet_text(sheet, row, GROUP_CALVING_START));
    } else if (window > 240) {
        fault_add(faults, sheet_place(sheet, row, GROUP_CALVING_END),
                  "calving_end: %d days after calving_start; split the group, or is the year "
                  "wrong?",
                  window);
    } else {
        group->is_bred = true;
    }
}

static void read_condition(const Sheet *sheet, int row, Day first_day, Day last_day,
                           HerdGroup *group) {
    group->condition = AVERAGE_CONDITION;
    read_score(sheet, row, GROUP_CONDITION_9, GROUP_CONDITION_5, &group->condition);
    group->has_target =
        read_score(sheet, row, GROUP_TARGET_9, GROUP_TARGET_5, &group->target_condition);
    const bool will_calve =
        group->is_bred && calendar_days_between(first_day, group->calving_start) > 0;
    group->target_date = will_calve ? group->calving_start : last_day;
    sheet_date(sheet, row, GROUP_TARGET_DATE, &group->target_date);
}

static void read_growth(const Sheet *sheet, int row, const CattleClassKind *kind, Day first_day,
                        HerdGroup *group) {
    Faults *faults = sheet_faults(sheet);
    sheet_number(sheet, row, GROUP_MATURE_WEIGHT, &group->mature_weight.kg);
    const bool has_gain = sheet_number(sheet, row, GROUP_GAIN, &group->gain.kg_per_day);
    if (!kind->grows) {
        if (group->gain.kg_per_day > 0.0) {
            fault_add(faults, sheet_place(sheet, row, GROUP_GAIN),
                      "%s: a %s is grown; for condition use target_condition_9",
                      sheet_heading(sheet, GROUP_GAIN), kind->name);
        }
        group->gain.kg_per_day = 0.0;
        return;
    }
    const char *name = text_excerpt(sheet_arena(sheet), group->name);
    if (sheet_is_left_out(sheet, row, GROUP_MATURE_WEIGHT)) {
        fault_add(
            faults, sheet_place(sheet, row, GROUP_MATURE_WEIGHT),
            "mature_weight: is empty; group '%s' grows, and what a gain takes depends on the "
            "weight it is growing to",
            name);
    }
    if (has_gain || has(sheet, row, GROUP_GAIN))
        return;
    if (group->is_bred) {
        const int days = calendar_days_between(first_day, group->calving_start);
        const Mass target = {SHARE_AT_FIRST_CALVING * group->mature_weight.kg};
        if (days > 0 && group->mature_weight.kg > 0.0 && group->weight.kg > 0.0)
            group->gain.kg_per_day =
                fmax(gain_to_target(group->weight, target, days).kg_per_day, 0.0);
        return;
    }
    if (!sheet_is_left_out(sheet, row, GROUP_GAIN))
        return;
    fault_add(faults, sheet_place(sheet, row, GROUP_GAIN),
              "gain: is empty; how much should group '%s' gain a day?", name);
}

/* What depends on the class cannot be judged without it, but each cell can. */
static void read_for_faults(const Sheet *sheet, int row) {
    Day day;
    double number;
    sheet_date(sheet, row, GROUP_CALVING_START, &day);
    sheet_date(sheet, row, GROUP_CALVING_END, &day);
    sheet_date(sheet, row, GROUP_WEANING, &day);
    sheet_number(sheet, row, GROUP_MATURE_WEIGHT, &number);
    sheet_number(sheet, row, GROUP_GAIN, &number);
}

static HerdGroup read_group(const Sheet *sheet, int row, Day first_day, Day last_day) {
    HerdGroup group = {
        .name = sheet_text(sheet, row, GROUP_NAME),
        .yard = sheet_text(sheet, row, GROUP_YARD),
        .place = sheet_place(sheet, row, GROUP_NAME),
        .calf_birth_weight = {DEFAULT_CALF_BIRTH_WEIGHT_KG},
    };
    sheet_require(sheet, row, GROUP_NAME);
    int cattle_class = -1;
    if (sheet_require(sheet, row, GROUP_CLASS))
        cattle_class = sheet_choice(sheet, row, GROUP_CLASS, CLASS_NAMES, CATTLE_CLASS_COUNT);
    group.cattle_class = cattle_class < 0 ? CATTLE_COW : (CattleClass)cattle_class;
    const CattleClassKind *kind = &CLASS_KINDS[group.cattle_class];
    int head = 0;
    if (sheet_require(sheet, row, GROUP_HEAD) &&
        sheet_whole_number(sheet, row, GROUP_HEAD, &head))
        group.head = head;
    if (sheet_require(sheet, row, GROUP_WEIGHT))
        sheet_number(sheet, row, GROUP_WEIGHT, &group.weight.kg);
    if (cattle_class >= 0) {
        read_calving(sheet, row, kind, &group);
        read_growth(sheet, row, kind, first_day, &group);
    } else {
        read_for_faults(sheet, row);
    }
    read_condition(sheet, row, first_day, last_day, &group);
    const double first_calf =
        group.cattle_class == CATTLE_BRED_HEIFER ? FIRST_CALF_MILK_SHARE : 1.0;
    group.peak_milk.kg_per_day = DEFAULT_PEAK_MILK_KG * first_calf;
    sheet_number(sheet, row, GROUP_PEAK_MILK, &group.peak_milk.kg_per_day);
    sheet_number(sheet, row, GROUP_BIRTH_WEIGHT, &group.calf_birth_weight.kg);
    group.breed_factor = BREED_FACTORS[choice_or(sheet, row, GROUP_BREED, BREED_NAMES, 5, 0)];
    group.coat = (Coat)choice_or(sheet, row, GROUP_COAT, COAT_NAMES, COAT_COUNT, COAT_WINTER);
    group.shelter =
        (Shelter)choice_or(sheet, row, GROUP_SHELTER, SHELTER_NAMES, 4, SHELTER_OPEN);
    group.delivery = (Delivery)choice_or(sheet, row, GROUP_DELIVERY, DELIVERY_NAMES, 3,
                                         DELIVERY_FREE_CHOICE);
    group.grazing =
        (Grazing)choice_or(sheet, row, GROUP_GRAZING, GRAZING_NAMES, 3, GRAZING_NONE);
    sheet_number(sheet, row, GROUP_BUNK_LENGTH, &group.bunk_length_m);
    sheet_number(sheet, row, GROUP_PRICE, &group.price_per_head);
    group.stand_ins = stand_ins_of(sheet, row, &group);
    if (cattle_class >= 0)
        herd_check_group(sheet, row, &group, first_day, last_day);
    return group;
}

Herd herd_parse(Arena *arena, Faults *faults, Day first_day, Day last_day, const char *file,
                const char *bytes, size_t length) {
    const Sheet *sheet =
        sheet_parse(arena, faults, file, bytes, length, COLUMNS, GROUP_COLUMN_COUNT);
    if (!sheet)
        return (Herd){NULL, NULL, 0};
    const int rows = sheet_row_count(sheet);
    if (rows > MOST_GROUPS) {
        fault_add(faults, (Place){file, 0, 0},
                  "has %d rows; at most %d groups are read: is it the right file?", rows,
                  MOST_GROUPS);
        return (Herd){NULL, NULL, 0};
    }
    HerdGroup *groups = ARENA_ARRAY(arena, HerdGroup, rows);
    const char **names = ARENA_ARRAY(arena, const char *, rows);
    int count = 0;
    for (int row = 0; row < rows; row++) {
        if (sheet_row_is_empty(sheet, row))
            continue;
        groups[count] = read_group(sheet, row, first_day, last_day);
        names[count] = groups[count].name;
        count++;
    }
    const Herd herd = {groups, names, count};
    herd_check_names(faults, &herd);
    if (count == 0)
        fault_add(faults, (Place){file, 0, 0},
                  "has no group of cattle in it: write one line a group below the headings");
    return herd;
}
