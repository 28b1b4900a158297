#include "cattle/feeding_rule.h"
#include "base/quantity.h"

static const char *const SETTING[RULE_SETTING_COUNT] = {RULE_SETTING_NAMES};
static const char *const NO_YES[] = {"no", "yes"};

typedef struct {
    const Sheet *sheet;
    const int *row;
    int column;
} Settings;

static Place place_of(const Settings *settings, int setting) {
    return sheet_place(settings->sheet, settings->row[setting], settings->column);
}

/* false, with a fault unless it is not set, when it is not above 0 and at most `most`: a rule
 * is switched off by leaving it out. */
static bool read_rule(const Settings *settings, int setting, double most, double *value) {
    double number;
    const int row = settings->row[setting];
    if (row < 0 || !sheet_number(settings->sheet, row, settings->column, &number))
        return false;
    if (number <= 0.0 || number > most) {
        fault_add(sheet_faults(settings->sheet), place_of(settings, setting),
                  "%s: %g is outside what it can be, more than 0 to %g; leave the line out "
                  "where there is no such rule",
                  SETTING[setting], number, most);
        return false;
    }
    *value = number;
    return true;
}

#define MOST_FEEDS 20 /* more than anybody loads into one mix */

static void read_most_feeds(const Settings *settings, FeedingRules *rules) {
    double count;
    if (!read_rule(settings, RULE_SETTING_MOST_FEEDS, MOST_FEEDS, &count))
        return;
    if (floor(count) != count) {
        fault_add(sheet_faults(settings->sheet), place_of(settings, RULE_SETTING_MOST_FEEDS),
                  "%s: %g is no whole number of feeds", SETTING[RULE_SETTING_MOST_FEEDS],
                  count);
        return;
    }
    rules->most_feeds = (int)count;
}

/* A percentage below one looks like a share of one. */
static void doubt_share(const Settings *settings, int setting, double percent) {
    if (percent < 1.0)
        doubt_add(sheet_faults(settings->sheet), place_of(settings, setting),
                  "%s: %.3g%% is next to nothing; for a share of one write %.3g",
                  SETTING[setting], percent, percent * 100.0);
}

#define MOST_LEAST_SHARE_PCT 50.0 /* beyond it no two feeds could be in one ration */

static void read_shares(const Settings *settings, FeedingRules *rules) {
    double percent;
    if (read_rule(settings, RULE_SETTING_LEAST_SHARE, MOST_LEAST_SHARE_PCT, &percent)) {
        doubt_share(settings, RULE_SETTING_LEAST_SHARE, percent);
        rules->least_share = percent / 100.0;
    }
    if (read_rule(settings, RULE_SETTING_CHANGE_PCT, 100.0, &percent)) {
        doubt_share(settings, RULE_SETTING_CHANGE_PCT, percent);
        rules->largest_change_share = percent / 100.0;
    }
}

#define MOST_CHANGE_KG 50.0

static void read_change(const Settings *settings, FeedingRules *rules) {
    double amount;
    if (settings->row[RULE_SETTING_CHANGE_KG] >= 0 &&
        settings->row[RULE_SETTING_CHANGE_LB] >= 0) {
        fault_add(sheet_faults(settings->sheet), place_of(settings, RULE_SETTING_CHANGE_LB),
                  "largest_change is given in kg and in lb; keep one");
        return;
    }
    if (read_rule(settings, RULE_SETTING_CHANGE_KG, MOST_CHANGE_KG, &amount))
        rules->largest_change_kg = amount;
    if (read_rule(settings, RULE_SETTING_CHANGE_LB, MOST_CHANGE_KG / KG_PER_POUND, &amount))
        rules->largest_change_kg = amount * KG_PER_POUND;
}

static bool read_yes(const Settings *settings, int setting, Place *place) {
    const int row = settings->row[setting];
    if (row < 0)
        return false;
    *place = place_of(settings, setting);
    return sheet_choice(settings->sheet, row, settings->column, NO_YES, 2) == 1;
}

FeedingRules feeding_rules_read(const Sheet *sheet, const int *row, int value_column) {
    const Settings settings = {sheet, row, value_column};
    FeedingRules rules = {0};
    read_most_feeds(&settings, &rules);
    read_shares(&settings, &rules);
    read_change(&settings, &rules);
    rules.whole_loads = read_yes(&settings, RULE_SETTING_LOADS, &rules.whole_loads_place);
    rules.whole_bales = read_yes(&settings, RULE_SETTING_BALES, &rules.whole_bales_place);
    rules.one_face_open = read_yes(&settings, RULE_SETTING_ONE_FACE, &rules.one_face_place);
    return rules;
}

bool feeding_rules_change_is_held(const FeedingRules *rules) {
    return rules->largest_change_share > 0.0 || rules->largest_change_kg > 0.0;
}
