/* Shapes as they are measured with a tape. The geometry is exact; the density that turns a
 * volume into a weight is where the error sits. */
#include "stock/stack_measure.h"

#include <assert.h>

#define PI 3.14159265358979323846

static double circle_area(double diameter_m) { return PI / 4.0 * diameter_m * diameter_m; }

/* Bales are named width x diameter; 0.7854 D^2 L [SDSU_MEASURE]. */
Volume round_bale_volume(double diameter_m, double width_m) {
    return (Volume){circle_area(diameter_m) * width_m};
}

Volume box_volume(double length_m, double width_m, double height_m) {
    return (Volume){length_m * width_m * height_m};
}

/* The section is a trapezoid; a ramp holds half of what its length would hold at full height.
 * [IFJ_PITS] measures a pit the same way. */
Volume pit_volume(Pit pit) {
    const double section_m2 = pit.height_m * (pit.floor_width_m + pit.top_width_m) / 2.0;
    const double length_m = pit.full_length_m + (pit.first_ramp_m + pit.second_ramp_m) / 2.0;
    return (Volume){section_m2 * length_m};
}

Volume bag_volume(double diameter_m, double silage_length_m) {
    return (Volume){circle_area(diameter_m) * silage_length_m};
}

/* A cone holds a third of the cylinder around it [ISU_C6_82]. */
Volume bin_volume(double diameter_m, double depth_m, double cone_height_m) {
    return (Volume){circle_area(diameter_m) * (depth_m + cone_height_m / 3.0)};
}

/* As it was measured when hay was stacked loose: length by breadth by the height to the eaves
 * and a third of the roof [SALT_1846] [STACK_RULE_1929]. */
Volume heaped_box_volume(double length_m, double width_m, double eaves_m, double roof_m) {
    return box_volume(length_m, width_m, eaves_m + roof_m / 3.0);
}

/* [USDA_STACKS]; half of over less width, times width and length [STACK_RULE_1880], comes to 10
 * to 15 % less. Holds for an over of 1.5 to 4 widths; below, nothing stands. */
Volume long_stack_volume(StackTop top, double width_m, double length_m, double over_m) {
    static const double OVER_TIMES[] = {0.52, 0.52, 0.56};
    static const double WIDTH_TIMES[] = {0.44, 0.46, 0.55};
    const double section_m2 = (OVER_TIMES[top] * over_m - WIDTH_TIMES[top] * width_m) * width_m;
    return (Volume){fmax(section_m2, 0.0) * length_m};
}

/* [USDA_STACKS]. */
Volume round_stack_volume(double around_m, double over_m) {
    const double height_like_m = fmax(0.04 * over_m - 0.012 * around_m, 0.0);
    return (Volume){height_like_m * around_m * around_m};
}

/* Corn silage 8.0 + 0.15 h, haylage 5.90 + 0.10 h, lb of dry matter a cubic foot, h ft, to some
 * 60 ft [ISU_C6_82], where the page prints tons. */
double silo_density(SiloCrop crop, double depth_m) {
    const double depth_ft = depth_m / METRES_PER_FOOT;
    const double pounds = crop == SILO_OF_CORN ? 8.0 + 0.15 * depth_ft : 5.90 + 0.10 * depth_ft;
    return pounds * KG_PER_POUND / (METRES_PER_FOOT * METRES_PER_FOOT * METRES_PER_FOOT);
}

/* Drying is not a loss: dry matter is the same before and after. */
Mass weight_at_moisture(Mass weight, double moisture_then_share, double moisture_now_share) {
    assert(moisture_now_share < 1.0);
    return (Mass){weight.kg * (1.0 - moisture_then_share) / (1.0 - moisture_now_share)};
}

/* 1 - ((D - 2x) / D)^2: 2 inches of a 4 to 6 ft bale are 10 to 16 % of it, 6 inches 31 to 44 %
 * [OHIO_LAYER]. */
double weathered_share(double diameter_m, double skin_m) {
    assert(diameter_m > 0.0);
    const double sound = fmax(diameter_m - 2.0 * skin_m, 0.0) / diameter_m;
    return 1.0 - sound * sound;
}
