/* What of a group can be read but cannot be, or hardly can: the limits are this project's own
 * choice, wide of the cattle of the northern prairie. A slip of unit, scale or year shows here.
 */
#include "base/number_text.h"
#include "base/text.h"
#include "cattle/herd_column.h"
#include "cattle/pregnancy.h"
#include <string.h>

typedef struct {
    const Sheet *sheet;
    int row;
    const HerdGroup *group;
    const CattleClassKind *kind;
    Day first_day, last_day;
    bool days_are_known;
} Check;

static Place place_of(const Check *check, int column) {
    return sheet_place(check->sheet, check->row, column);
}

static const char *heading_of(const Check *check, int column) {
    return sheet_heading(check->sheet, column);
}

static const char *text_of(const Check *check, int column) {
    return text_excerpt(sheet_arena(check->sheet),
                        sheet_text(check->sheet, check->row, column));
}

static bool has(const Check *check, int column) {
    return sheet_text(check->sheet, check->row, column)[0] != '\0';
}

/* Empty, and no faulty heading is to blame. */
static bool is_left_out(const Check *check, int column) {
    return sheet_is_left_out(check->sheet, check->row, column);
}

static const char *name_of(const Check *check) {
    return text_excerpt(sheet_arena(check->sheet), check->group->name);
}

/* ---- weights and gains ---- */

/* kg typed under lb, and the other way about. */
static void doubt_mass(const Check *check, int column, double kg, double least, double most) {
    if (kg <= 0.0 || (kg >= least && kg <= most))
        return;
    doubt_add(sheet_faults(check->sheet), place_of(check, column),
              "%s: %.3g kg (%.3g lb) is unusual for a %s; is the unit right?",
              heading_of(check, column), kg, kg / KG_PER_POUND, check->kind->name);
}

static void check_weight(const Check *check) {
    const bool is_bull = check->group->cattle_class == CATTLE_BULL;
    const double least = check->kind->grows ? 130.0 : is_bull ? 450.0 : 380.0;
    const double most = check->kind->grows ? 650.0 : is_bull ? 1250.0 : 950.0;
    doubt_mass(check, GROUP_WEIGHT, check->group->weight.kg, least, most);
}

static void check_mature_weight(const Check *check) {
    const double mature = check->group->mature_weight.kg;
    const double now = check->group->weight.kg;
    const double days = calendar_days_between(check->first_day, check->last_day);
    if (!check->kind->grows || mature <= 0.0 || now <= 0.0)
        return;
    doubt_mass(check, GROUP_MATURE_WEIGHT, mature, 400.0, 1000.0);
    const Place place = place_of(check, GROUP_MATURE_WEIGHT);
    const char *heading = heading_of(check, GROUP_MATURE_WEIGHT);
    const double then = now + check->group->gain.kg_per_day * days;
    if (now >= mature) {
        fault_add(
            sheet_faults(check->sheet), place,
            "%s: %.0f kg is not above the weight now, %.0f kg (%.0f and %.0f lb): are the "
            "columns swapped?",
            heading, mature, now, mature / KG_PER_POUND, now / KG_PER_POUND);
    } else if (check->days_are_known && then > mature) {
        doubt_add(sheet_faults(check->sheet), place,
                  "%s: with this gain they would weigh %.0f kg (%.0f lb) on the last day, more "
                  "than grown; are weight and gain right?",
                  heading, then, then / KG_PER_POUND);
    }
}

static void check_gain(const Check *check) {
    const double gain = check->group->gain.kg_per_day;
    const CattleClass of = check->group->cattle_class;
    const bool is_kept = of == CATTLE_REPLACEMENT_HEIFER || of == CATTLE_BRED_HEIFER;
    const double least = of == CATTLE_BRED_HEIFER ? 0.0 : 0.15;
    const double most = is_kept ? 1.1 : 1.8;
    double written;
    const bool is_read =
        number_read(sheet_text(check->sheet, check->row, GROUP_GAIN), true, &written) &&
        (written == 0.0 || gain > 0.0);
    if (!check->kind->grows || !is_read || (gain >= least && gain <= most))
        return;
    doubt_add(sheet_faults(check->sheet), place_of(check, GROUP_GAIN),
              "%s: %.3g kg (%.3g lb) a day is unusual for a %s; is the unit right?",
              heading_of(check, GROUP_GAIN), gain, gain / KG_PER_POUND, check->kind->name);
}

static void check_milk(const Check *check) {
    const double milk = check->group->peak_milk.kg_per_day;
    const double most = check->group->breed_factor > 1.05 ? 25.0 : 15.0; /* dairy or cross */
    if (!has(check, GROUP_PEAK_MILK) || (milk >= 5.0 && milk <= most))
        return;
    doubt_add(
        sheet_faults(check->sheet), place_of(check, GROUP_PEAK_MILK),
        "%s: %.3g kg (%.3g lb) a day is unusual for a cow with a calf; is the unit right?",
        heading_of(check, GROUP_PEAK_MILK), milk, milk / KG_PER_POUND);
}

/* ---- condition ---- */

/* 3 of 5 is average, 3 of 9 is starved: what people say lies in the middle of their scale. */
static void doubt_scale(const Check *check, int nine, int five, double score) {
    Faults *faults = sheet_faults(check->sheet);
    if (has(check, nine) && score < 3.5) {
        doubt_add(faults, place_of(check, nine),
                  "%s: %s of 9 is very thin; is it a score of the 5-point scale?",
                  heading_of(check, nine), text_of(check, nine));
    } else if (has(check, five) && score > 7.5) {
        doubt_add(faults, place_of(check, five),
                  "%s: %s of 5 is very fat; is it a score of the 9-point scale?",
                  heading_of(check, five), text_of(check, five));
    }
}

static void check_target_date(const Check *check) {
    const bool is_past =
        calendar_days_between(check->first_day, check->group->target_date) <= 0;
    Faults *faults = sheet_faults(check->sheet);
    const Place place = place_of(check, GROUP_TARGET_DATE);
    if (!has(check, GROUP_TARGET_DATE))
        return;
    if (is_left_out(check, GROUP_TARGET_9) && is_left_out(check, GROUP_TARGET_5)) {
        doubt_add(faults, place, "target_date: no target_condition goes with it");
    } else if (check->days_are_known && is_past) {
        fault_add(faults, place,
                  "target_date: %s is not after the first feeding day; is the year right?",
                  text_of(check, GROUP_TARGET_DATE));
    }
}

/* A target that nothing comes of is said, not quietly dropped. */
static void check_condition(const Check *check) {
    const HerdGroup *group = check->group;
    const int target = has(check, GROUP_TARGET_9) ? GROUP_TARGET_9 : GROUP_TARGET_5;
    Faults *faults = sheet_faults(check->sheet);
    doubt_scale(check, GROUP_CONDITION_9, GROUP_CONDITION_5, group->condition);
    check_target_date(check);
    if (!group->has_target)
        return;
    doubt_scale(check, GROUP_TARGET_9, GROUP_TARGET_5, group->target_condition);
    if (check->kind->grows) {
        doubt_add(faults, place_of(check, target),
                  "%s: is not used for a %s; set its gain instead", heading_of(check, target),
                  check->kind->name);
    } else if (is_left_out(check, GROUP_CONDITION_9) && is_left_out(check, GROUP_CONDITION_5)) {
        doubt_add(faults, place_of(check, target),
                  "%s: the condition now is not given, so %g of 9 is taken for it",
                  heading_of(check, target), group->condition);
    }
}

/* ---- calving ---- */

static void check_open(const Check *check) {
    Faults *faults = sheet_faults(check->sheet);
    const Place place = place_of(check, GROUP_CALVING_START);
    if (has(check, GROUP_WEANING)) {
        fault_add(faults, place_of(check, GROUP_WEANING),
                  "weaning_date: no calving_start goes with it; give both, or neither");
    }
    if (check->group->cattle_class == CATTLE_BRED_HEIFER) {
        fault_add(faults, place,
                  "calving_start: is empty; when does the first heifer of '%s' calve?",
                  name_of(check));
    } else if (check->kind->can_be_bred) {
        doubt_add(faults, place,
                  "calving_start: is empty, so group '%s' is taken to be open (not in calf)",
                  name_of(check));
    }
}

/* A cow calves once a year: any further off, and her needs would be those of another year. */
#define CALVING_INTERVAL_DAYS 365

static void check_calving_year(const Check *check) {
    const Day start = check->group->calving_start;
    const Place place = place_of(check, GROUP_CALVING_START);
    Faults *faults = sheet_faults(check->sheet);
    if (!check->days_are_known)
        return;
    if (calendar_days_between(start, check->last_day) > CALVING_INTERVAL_DAYS) {
        fault_add(
            faults, place,
            "calving_start: %s is more than a year before the last feeding day; write the "
            "calving of this winter, or is the year wrong?",
            text_of(check, GROUP_CALVING_START));
    } else if (calendar_days_between(check->last_day, start) > GESTATION_DAYS) {
        fault_add(faults, place,
                  "calving_start: %s is later than any calf carried this winter; is the year "
                  "wrong?",
                  text_of(check, GROUP_CALVING_START));
    }
}

#define SHORT_SUCKLING_DAYS 60
#define LONG_SUCKLING_DAYS 365

static void check_weaning(const Check *check) {
    const HerdGroup *group = check->group;
    const int days = calendar_days_between(group->calving_start, group->weaning);
    const Place place = place_of(check, GROUP_WEANING);
    Faults *faults = sheet_faults(check->sheet);
    if (!group->has_weaning)
        return;
    if (calendar_days_between(group->calving_end, group->weaning) < 0) {
        fault_add(faults, place,
                  "weaning_date: %s is before calving_end; write the day the calves of this "
                  "calving come off",
                  text_of(check, GROUP_WEANING));
    } else if (days < SHORT_SUCKLING_DAYS || days > LONG_SUCKLING_DAYS) {
        doubt_add(faults, place,
                  "weaning_date: %d days after the first calf is unusual; is the year right?",
                  days);
    }
}

void herd_check_group(const Sheet *sheet, int row, const HerdGroup *group, Day first_day,
                      Day last_day) {
    const Check check = {
        .sheet = sheet,
        .row = row,
        .group = group,
        .kind = cattle_class_kind(group->cattle_class),
        .first_day = first_day,
        .last_day = last_day,
        .days_are_known = calendar_days_between(first_day, last_day) >= 0,
    };
    check_weight(&check);
    check_mature_weight(&check);
    check_gain(&check);
    check_milk(&check);
    check_condition(&check);
    if (group->is_bred) {
        check_calving_year(&check);
        check_weaning(&check);
    } else if (is_left_out(&check, GROUP_CALVING_START) &&
               is_left_out(&check, GROUP_CALVING_END)) {
        check_open(&check);
    }
}

/* ---- names ---- */

void herd_check_names(Faults *faults, const Herd *herd) {
    for (int i = 0; i < herd->count; i++) {
        const HerdGroup *group = &herd->groups[i];
        const char *name = text_excerpt(faults->arena, group->name);
        const size_t parting = strcspn(group->name, "|/+");
        if (group->name[parting] != '\0') {
            fault_add(faults, group->place,
                      "group: '%s' has a '%c' in it, which parts the names in a groups column; "
                      "write it without",
                      name, group->name[parting]);
        }
        for (int j = 0; j < i; j++) {
            if (group->name[0] == '\0' || !text_same_letters(group->name, herd->groups[j].name))
                continue;
            fault_add(faults, group->place,
                      "group: '%s' is already on line %d; give each group its own name", name,
                      herd->groups[j].place.line);
            break;
        }
    }
}
