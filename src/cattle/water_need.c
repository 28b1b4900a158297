#include "cattle/water_need.h"

#define LITRES_PER_US_GALLON 3.785411784 /* exact by definition */
#define GALLONS_PER_POUND_OF_SALT 5.0    /* [OKSTATE_SALT] */

double water_for_salt_l(Mass salt) {
    return GALLONS_PER_POUND_OF_SALT * LITRES_PER_US_GALLON * salt.kg / KG_PER_POUND;
}

/* US gallons a head and day by the mean of the month, degrees F [MSU_WATER]. Below 40 F cattle
 * drink as at 40 F [WINCHESTER_1956], so the rows of colder months are left out, and above 90 F
 * the last row stands. Where two months lie close (50 and 52 F) both are kept. */
enum { NURSING, DRY, BULL, GROWING_400, GROWING_600, GROWING_800, COLUMN_COUNT };
typedef struct {
    double mean_f, gallons[COLUMN_COUNT];
} WaterRow;

static const WaterRow ROWS[] = {
    {40, {11.5, 6.0, 8.0, 4.0, 5.5, 6.5}},  {50, {12.5, 6.5, 8.6, 4.5, 6.0, 7.0}},
    {52, {13.0, 6.5, 9.0, 4.5, 6.0, 7.0}},  {64, {15.5, 8.0, 10.5, 5.5, 7.0, 8.5}},
    {73, {17.0, 9.0, 12.0, 6.0, 8.0, 9.5}}, {90, {16.5, 14.5, 19.0, 9.5, 13.0, 15.0}},
};
enum { ROW_COUNT = sizeof ROWS / sizeof ROWS[0] };

static double gallons(int column, double mean_f) {
    const double at_f = fmin(fmax(mean_f, ROWS[0].mean_f), ROWS[ROW_COUNT - 1].mean_f);
    int low = 0;
    while (low < ROW_COUNT - 2 && at_f >= ROWS[low + 1].mean_f)
        low++;
    const WaterRow *a = &ROWS[low];
    const WaterRow *b = &ROWS[low + 1];
    const double share = (at_f - a->mean_f) / (b->mean_f - a->mean_f);
    return a->gallons[column] + share * (b->gallons[column] - a->gallons[column]);
}

/* Printed for 400, 600 and 800 lb; straight between, and the outer slopes go on, down to half
 * of what 400 lb take. Own choice beyond 400 to 800 lb. */
static double growing_gallons(Mass live, double mean_f) {
    const double pounds = live.kg / KG_PER_POUND;
    const double at_400 = gallons(GROWING_400, mean_f);
    const double at_600 = gallons(GROWING_600, mean_f);
    const double at_800 = gallons(GROWING_800, mean_f);
    if (pounds < 600.0)
        return fmax(at_600 + (at_600 - at_400) * (pounds - 600.0) / 200.0, at_400 / 2.0);
    return at_600 + (at_800 - at_600) * (pounds - 600.0) / 200.0;
}

double water_need_l(WaterClass water_class, Mass live_weight, Temperature month_mean) {
    const double mean_f = fahrenheit_from_celsius(month_mean.celsius);
    switch (water_class) {
    case WATER_NURSING_COW:
        return LITRES_PER_US_GALLON * gallons(NURSING, mean_f);
    case WATER_DRY_COW:
        return LITRES_PER_US_GALLON * gallons(DRY, mean_f);
    case WATER_BULL:
        return LITRES_PER_US_GALLON * gallons(BULL, mean_f);
    case WATER_GROWING:
        break;
    }
    return LITRES_PER_US_GALLON * growing_gallons(live_weight, mean_f);
}
