/* So much feed, in the unit in which somebody wrote it down: bales, or a weight as it lies. */
#ifndef STOCK_FEED_AMOUNT_H
#define STOCK_FEED_AMOUNT_H

#include "base/arena.h"
#include <stdbool.h>

typedef enum {
#define FEED_AMOUNT(id, written, kg, words) AMOUNT_##id,
#include "stock/feed_amount.def"
#undef FEED_AMOUNT
    AMOUNT_UNIT_COUNT
} AmountUnit;

extern const char *const AMOUNT_UNIT_NAME[AMOUNT_UNIT_COUNT]; /* "bales", "kg", ... */

typedef struct {
    double number;
    AmountUnit unit;
} FeedAmount;

/* bale_kg: of one bale as it lies on that day; not used for a weight. */
double feed_amount_kg(FeedAmount amount, double bale_kg);

/* "6 bales", "1,250 kg"; text in the arena. */
const char *feed_amount_words(Arena *arena, FeedAmount amount);

/* A weight as typed in one word, "1200kg", "1.2 t", "2600 lb", "1.3tons": its number as text
 * and its unit. false: *cure says what to write. */
bool feed_weight_read(Arena *arena, const char *text, const char **number, AmountUnit *unit,
                      const char **cure);

#endif
