/* Rules about how a farm wants to feed that no animal needs: how many feeds in a ration, whole
 * loads, whole bales, one face open. Settings of winter.csv, docs/file-formats.md; all are off
 * until they are set. */
#ifndef CATTLE_FEEDING_RULE_H
#define CATTLE_FEEDING_RULE_H

#include "base/sheet.h"

enum {
    RULE_SETTING_MOST_FEEDS,
    RULE_SETTING_LEAST_SHARE,
    RULE_SETTING_CHANGE_PCT,
    RULE_SETTING_CHANGE_KG,
    RULE_SETTING_CHANGE_LB,
    RULE_SETTING_LOADS,
    RULE_SETTING_BALES,
    RULE_SETTING_ONE_FACE,
    RULE_SETTING_COUNT
};
#define RULE_SETTING_NAMES                                                                     \
    "most_feeds_in_a_ration", "least_share_of_a_feed_pct", "largest_change_pct",               \
        "largest_change_kg_per_day", "largest_change_lb_per_day", "whole_loads",               \
        "whole_bales", "one_face_open"

typedef struct {
    int most_feeds;              /* in a ration, minerals and urea aside; 0: no rule */
    double least_share;          /* of the dry matter that fills, of a feed that is given */
    double largest_change_share; /* of the dry matter that fills, between periods */
    double largest_change_kg;    /* as fed, a head and day, between periods */
    bool whole_loads, whole_bales, one_face_open;
    Place whole_loads_place, whole_bales_place, one_face_place;
} FeedingRules;

/* row[RULE_SETTING_COUNT]: where each setting stands; -1 where it is not set. */
FeedingRules feeding_rules_read(const Sheet *sheet, const int *row, int value_column);

bool feeding_rules_change_is_held(const FeedingRules *rules);

#endif
