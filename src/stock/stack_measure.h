/* What is in a pile, from its size. Volumes are of the shape; weights follow from a density.
 * docs/equations/inventory.md */
#ifndef STOCK_STACK_MEASURE_H
#define STOCK_STACK_MEASURE_H

#include "base/quantity.h"

Volume round_bale_volume(double diameter_m, double width_m); /* pi/4 D^2 W */
Volume box_volume(double length_m, double width_m, double height_m);

typedef struct {
    double floor_width_m, top_width_m, height_m;
    double full_length_m;               /* at full height */
    double first_ramp_m, second_ramp_m; /* wedge ends; 0 where there is a wall or a face */
} Pit;
Volume pit_volume(Pit pit); /* A (full + r1/2 + r2/2), A = H (floor + top)/2 */

/* A bag: length of silage without the tied ends. */
Volume bag_volume(double diameter_m, double silage_length_m);

/* A round bin: grain at the eave depth with a cone of grain above. */
Volume bin_volume(double diameter_m, double depth_m, double cone_height_m);

/* Loose hay: to the eaves, and a roof of which a third is counted. */
Volume heaped_box_volume(double length_m, double width_m, double eaves_m, double roof_m);

/* Long stacks by a rope: `over` from the ground on one side over the top to the ground on the
 * other. 0.52 O - 0.44 W, 0.52 O - 0.46 W, 0.56 O - 0.55 W times W L by the shape of the top.
 */
typedef enum { TOP_LOW, TOP_HIGH, TOP_FLAT } StackTop;
Volume long_stack_volume(StackTop top, double width_m, double length_m, double over_m);

/* A round stack: (0.04 O - 0.012 C) C^2, `around` at the foot. */
Volume round_stack_volume(double around_m, double over_m);

/* Dry matter in an upright silo, kg/m3, by the settled depth. */
typedef enum { SILO_OF_CORN, SILO_OF_HAYLAGE } SiloCrop;
double silo_density(SiloCrop crop, double depth_m);

/* Weight at another moisture with no dry matter lost. Shares 0..1. */
Mass weight_at_moisture(Mass weight, double moisture_then_share, double moisture_now_share);

/* Share of a round bale in its outer skin. */
double weathered_share(double diameter_m, double skin_m);

#endif
