/* Dry matter lost in storage as time goes on. docs/equations/inventory.md */
#ifndef STOCK_STORAGE_LOSS_H
#define STOCK_STORAGE_LOSS_H

#define STORAGE_DAYS_PER_MONTH 30.4

typedef struct {
    double share_by_month_8; /* 0..1 of the dry matter put up */
    double share_per_month_after;
} StorageLoss;

/* Share lost since it was put up: rises as 1 - e^(-t/4) to month 8, then straight. Kept in
 * 0..0.95. */
double storage_loss_share(StorageLoss loss, double months);

/* Share of what was there at month `counted` that is gone by month `used` (used >= counted). */
double storage_loss_between(StorageLoss loss, double months_counted, double months_used);

#endif
