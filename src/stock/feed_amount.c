#include "stock/feed_amount.h"
#include "base/choice.h"
#include "base/number_text.h"
#include "base/quantity.h"
#include "base/text.h"
#include <string.h>

const char *const AMOUNT_UNIT_NAME[AMOUNT_UNIT_COUNT] = {
#define FEED_AMOUNT(id, written, kg, words) written,
#include "stock/feed_amount.def"
#undef FEED_AMOUNT
};

static const struct {
    double kg;
    const char *words;
} UNITS[AMOUNT_UNIT_COUNT] = {
#define FEED_AMOUNT(id, written, kg, words) {kg, words},
#include "stock/feed_amount.def"
#undef FEED_AMOUNT
};

double feed_amount_kg(FeedAmount amount, double bale_kg) {
    return amount.number * (amount.unit == AMOUNT_BALES ? bale_kg : UNITS[amount.unit].kg);
}

const char *feed_amount_words(Arena *arena, FeedAmount amount) {
    const bool is_one_bale = amount.unit == AMOUNT_BALES && amount.number == 1.0;
    return arena_print(arena, "%.10g%s", amount.number,
                       is_one_bale ? " bale" : UNITS[amount.unit].words);
}

static const char WEIGHT_CURE[] = "write the number and its unit together: 1200kg, 2600lb, "
                                  "1.2t (tonne) or 1.3tons (2,000 lb)";

bool feed_weight_read(Arena *arena, const char *text, const char **number, AmountUnit *unit,
                      const char **cure) {
    const size_t digits = strspn(text, "0123456789.");
    const char *word = text + digits;
    word += strspn(word, " ");
    double value;
    *number = arena_copy(arena, text, digits);
    *cure = WEIGHT_CURE;
    if (!number_read(*number, false, &value) || *word == '\0')
        return false;
    const int found = choice_find(word, AMOUNT_UNIT_NAME, AMOUNT_UNIT_COUNT);
    if (found < 0)
        return false;
    if (found == AMOUNT_BALES) {
        *cure = "bales go with --bales or --left-bales";
        return false;
    }
    *unit = (AmountUnit)found;
    return true;
}
