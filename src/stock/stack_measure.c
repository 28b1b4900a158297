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
