/* Most of a winter's loss comes in the first months [UNL_TIGHT]; the shape that says so,
 * 1 - e^(-t/4) up to month 8, is this project's own [OWN_CHOICE]. */
#include "stock/storage_loss.h"

#include <assert.h>
#include <math.h>

#define SHAPE_MONTHS 4.0 /* e-folding time of the first part [OWN_CHOICE] */
#define BEND_MONTH 8.0   /* the published tables end "within 9 months" [OSU_STORE] */
#define MOST_LOST 0.95   /* something is always left to count */

static double clamped(double share) { return fmin(fmax(share, 0.0), MOST_LOST); }

double storage_loss_share(StorageLoss loss, double months) {
    if (months <= 0.0)
        return 0.0;
    if (months <= BEND_MONTH) {
        const double risen = 1.0 - exp(-months / SHAPE_MONTHS);
        const double risen_by_bend = 1.0 - exp(-BEND_MONTH / SHAPE_MONTHS);
        return clamped(loss.share_by_month_8 * risen / risen_by_bend);
    }
    return clamped(loss.share_by_month_8 + loss.share_per_month_after * (months - BEND_MONTH));
}

double storage_loss_between(StorageLoss loss, double months_counted, double months_used) {
    assert(months_used >= months_counted);
    const double left_when_counted = 1.0 - storage_loss_share(loss, months_counted);
    const double left_when_used = 1.0 - storage_loss_share(loss, months_used);
    return 1.0 - left_when_used / left_when_counted;
}
