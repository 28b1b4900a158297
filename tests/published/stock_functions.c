/* The inventory equations as the cases call them, in the units the pages print. Rules for work
 * by hand that the program has inside a larger step are written out here as printed. */
#include "published/published.h"

#include "stock/stack_measure.h"
#include "stock/storage_loss.h"
#include "stock/weight_error.h"

#include <stddef.h>

#define CUBIC_FEET (1.0 / (METRES_PER_FOOT * METRES_PER_FOOT * METRES_PER_FOOT))
#define INCHES_PER_FOOT 12.0

static double feet(double value) { return value * METRES_PER_FOOT; }

/* Bales: diameter and width in feet */

static double call_bale_volume(const double *in) {
    return round_bale_volume(feet(in[0]), feet(in[1])).cubic_metres;
}
static double call_bale_volume_cubic_feet(const double *in) {
    return call_bale_volume(in) * CUBIC_FEET;
}
static double call_bale_density(const double *in) { /* lb, diameter, width -> lb/ft3 */
    return in[0] / call_bale_volume_cubic_feet(in + 1);
}
/* a weighed bale's lb, diameter, width; another's diameter, width -> lb at the same density */
static double call_bale_scaled(const double *in) {
    return call_bale_density(in) * call_bale_volume_cubic_feet(in + 3);
}
static double call_weathered_pct(const double *in) { /* diameter ft, skin inches */
    return 100.0 * weathered_share(feet(in[0]), feet(in[1] / INCHES_PER_FOOT));
}
static double call_dry_weight(const double *in) { /* count, weight, moisture % */
    return in[0] * weight_at_moisture((Mass){in[1]}, in[2] / 100.0, 0.0).kg;
}
static double call_weight_at_moisture(const double *in) { /* kg, % then, % now */
    return weight_at_moisture((Mass){in[0]}, in[1] / 100.0, in[2] / 100.0).kg;
}
/* count, weight, moisture %, storage loss % -> dry weight left */
static double call_dry_weight_left(const double *in) {
    return call_dry_weight(in) * (1.0 - in[3] / 100.0);
}

/* Bag, pit, silo, bin */

static double call_bag_volume(const double *in) {
    return bag_volume(in[0], in[1]).cubic_metres;
}
static double call_bag_dry_tonnes(const double *in) { /* m, m, kg DM/m3 */
    return call_bag_volume(in) * in[2] / KG_PER_TONNE;
}
/* floor, top, height, full length, two ramps, m */
static double call_pit_volume(const double *in) {
    const Pit pit = {.floor_width_m = in[0],
                     .top_width_m = in[1],
                     .height_m = in[2],
                     .full_length_m = in[3],
                     .first_ramp_m = in[4],
                     .second_ramp_m = in[5]};
    return pit_volume(pit).cubic_metres;
}
/* the same, less the corners above the walls: bevel height, m, at both sides */
static double call_pit_volume_bevelled(const double *in) {
    const double length = in[3] + (in[4] + in[5]) / 2.0;
    return call_pit_volume(in) - in[6] * in[6] * length;
}
/* Corn silage in an upright silo: diameter, settled depth, ft -> short tons of dry matter,
 * density 8.0 + 0.15 depth lb/ft3 [ISU_C6_82] */
static double call_upright_silo_tons(const double *in) {
    const double cubic_feet =
        bin_volume(feet(in[0]), feet(in[1]), 0.0).cubic_metres * CUBIC_FEET;
    return cubic_feet * (8.0 + 0.15 * in[1]) / 2000.0;
}
static double call_bin_volume(const double *in) { /* diameter, eave depth, cone, ft -> m3 */
    return bin_volume(feet(in[0]), feet(in[1]), feet(in[2])).cubic_metres;
}
/* the same in bushels, 0.8 to the cubic foot [ISU_C6_82] */
static double call_bin_bushels(const double *in) {
    return call_bin_volume(in) * CUBIC_FEET * 0.8;
}

/* diameter, settled depth, ft -> short tons of dry matter by the program's own density */
static double call_silo_tons(const double *in, SiloCrop crop) {
    const double kg = bin_volume(feet(in[0]), feet(in[1]), 0.0).cubic_metres *
                      silo_density(crop, feet(in[1]));
    return kg / KG_PER_SHORT_TON;
}
static double call_corn_silo_tons(const double *in) { return call_silo_tons(in, SILO_OF_CORN); }
static double call_haylage_silo_tons(const double *in) {
    return call_silo_tons(in, SILO_OF_HAYLAGE);
}
/* width, depth, length, ft, lb/ft3 -> short tons as it lies */
static double call_bunker_tons(const double *in) {
    const Pit pit = {.floor_width_m = feet(in[0]),
                     .top_width_m = feet(in[0]),
                     .height_m = feet(in[1]),
                     .full_length_m = feet(in[2])};
    return pit_volume(pit).cubic_metres * CUBIC_FEET * in[3] / 2000.0;
}

/* Loose stacks, ft -> ft3 */

static double call_heaped_stack(const double *in) { /* length, width, eaves, roof */
    return heaped_box_volume(feet(in[0]), feet(in[1]), feet(in[2]), feet(in[3])).cubic_metres *
           CUBIC_FEET;
}
static double call_long_stack(const double *in, StackTop top) { /* width, over, length */
    return long_stack_volume(top, feet(in[0]), feet(in[2]), feet(in[1])).cubic_metres *
           CUBIC_FEET;
}
static double call_low_stack(const double *in) { return call_long_stack(in, TOP_LOW); }
static double call_high_stack(const double *in) { return call_long_stack(in, TOP_HIGH); }
static double call_flat_stack(const double *in) { return call_long_stack(in, TOP_FLAT); }
static double call_round_stack(const double *in) { /* around, over */
    return round_stack_volume(feet(in[0]), feet(in[1])).cubic_metres * CUBIC_FEET;
}
/* ft3, ft3 a ton -> tons */
static double call_stack_tons(const double *in) { return in[0] / in[1]; }

/* How far off */

static double call_weighed_bales_error_pct(const double *in) { /* bales weighed */
    return 100.0 * weight_error_share(STACK_ROUND_BALES, WEIGHT_OF_SOME_BALES, in[0]);
}

/* Losses */

static double
call_storage_loss_pct(const double *in) { /* % by month 8, % a month after, months */
    const StorageLoss loss = {in[0] / 100.0, in[1] / 100.0};
    return 100.0 * storage_loss_share(loss, in[2]);
}
static double call_storage_loss_between_pct(const double *in) { /* the same, month, month */
    const StorageLoss loss = {in[0] / 100.0, in[1] / 100.0};
    return 100.0 * storage_loss_between(loss, in[2], in[3]);
}

/* Need and money */

static double call_herd_need(const double *in) { /* head, weight, % of weight, days */
    return in[0] * in[1] * in[2] / 100.0 * in[3];
}
static double call_days_on_hand(const double *in) { /* t, kg a day */
    return in[0] * KG_PER_TONNE / in[1];
}
static double call_yardage(const double *in) { return in[0] * in[1] / in[2]; }
/* head fed once a day, inches each */
static double call_bunk_feet(const double *in) { return in[0] * in[1] / INCHES_PER_FOOT; }
/* price, lb it buys, dry matter %, nutrient % -> price per lb of nutrient */
static double call_cost_of_nutrient(const double *in) {
    return in[0] / (in[1] * in[2] / 100.0 * in[3] / 100.0);
}

const PublishedFunction STOCK_FUNCTIONS[] = {
    {"bale_volume", 2, call_bale_volume},                           /* ft -> m3 */
    {"bale_volume_cubic_feet", 2, call_bale_volume_cubic_feet},     /* ft -> ft3 */
    {"bale_density", 3, call_bale_density},                         /* lb, ft -> lb/ft3 */
    {"bale_scaled", 5, call_bale_scaled},                           /* lb, ft -> lb */
    {"weathered_pct", 2, call_weathered_pct},                       /* ft, in -> % */
    {"dry_weight", 3, call_dry_weight},                             /* any weight */
    {"dry_weight_left", 4, call_dry_weight_left},                   /* any weight */
    {"weight_at_moisture", 3, call_weight_at_moisture},             /* kg */
    {"bag_volume", 2, call_bag_volume},                             /* m -> m3 */
    {"bag_dry_tonnes", 3, call_bag_dry_tonnes},                     /* m, kg/m3 -> t */
    {"pit_volume", 6, call_pit_volume},                             /* m -> m3 */
    {"pit_volume_bevelled", 7, call_pit_volume_bevelled},           /* m -> m3 */
    {"upright_silo_tons", 2, call_upright_silo_tons},               /* ft -> ton */
    {"corn_silo_tons", 2, call_corn_silo_tons},                     /* ft -> ton */
    {"haylage_silo_tons", 2, call_haylage_silo_tons},               /* ft -> ton */
    {"bunker_tons", 4, call_bunker_tons},                           /* ft, lb/ft3 -> ton */
    {"heaped_stack", 4, call_heaped_stack},                         /* ft -> ft3 */
    {"low_stack", 3, call_low_stack},                               /* ft -> ft3 */
    {"high_stack", 3, call_high_stack},                             /* ft -> ft3 */
    {"flat_stack", 3, call_flat_stack},                             /* ft -> ft3 */
    {"round_stack", 2, call_round_stack},                           /* ft -> ft3 */
    {"stack_tons", 2, call_stack_tons},                             /* ft3 -> ton */
    {"weighed_bales_error_pct", 1, call_weighed_bales_error_pct},   /* bales -> % */
    {"bin_volume", 3, call_bin_volume},                             /* ft -> m3 */
    {"bin_bushels", 3, call_bin_bushels},                           /* ft -> bu */
    {"storage_loss_pct", 3, call_storage_loss_pct},                 /* % */
    {"storage_loss_between_pct", 4, call_storage_loss_between_pct}, /* % */
    {"herd_need", 4, call_herd_need},                               /* any weight */
    {"days_on_hand", 2, call_days_on_hand},                         /* t, kg/day -> days */
    {"yardage", 3, call_yardage},                                   /* h, $/h, head */
    {"cost_of_nutrient", 4, call_cost_of_nutrient},                 /* $/lb */
    {"bunk_feet", 2, call_bunk_feet},                               /* head, in -> ft */
    {NULL, 0, NULL},
};
