#include "base/drawn_number.h"
#include <math.h>

#define STEP 0x9E3779B97F4A7C15u

/* The finalizer of SplitMix64 [STEELE_2014]. */
static uint64_t mixed(uint64_t bits) {
    bits = (bits ^ (bits >> 30)) * 0xBF58476D1CE4E5B9u;
    bits = (bits ^ (bits >> 27)) * 0x94D049BB133111EBu;
    return bits ^ (bits >> 31);
}

uint64_t drawn_bits(uint64_t seed, uint64_t place) { return mixed(seed + (place + 1) * STEP); }

DrawSource draw_source(uint64_t seed, uint64_t place) {
    return (DrawSource){drawn_bits(seed, place)};
}

DrawSource draw_source_at(DrawSource source, uint64_t place) {
    return draw_source(source.key, place);
}

DrawSource draw_source_named(DrawSource source, const char *name) {
    uint64_t bits = source.key;
    for (const char *letter = name; *letter != '\0'; letter++)
        bits = drawn_bits(bits, (unsigned char)*letter);
    return (DrawSource){bits};
}

/* The upper 53 bits, in the middle of their step: never 0 and never 1. */
double drawn_share(DrawSource source, uint64_t place) {
    return ((double)(drawn_bits(source.key, place) >> 11) + 0.5) * 0x1p-53;
}

#define TURN 6.28318530717958647692

/* Two even shares to a normal number by a radius and an angle [BOX_MULLER_1958]. */
double drawn_normal(DrawSource source, uint64_t place) {
    const double radius = sqrt(-2.0 * log(drawn_share(source, 2 * place)));
    const double normal = radius * cos(TURN * drawn_share(source, 2 * place + 1));
    return fmax(fmin(normal, MOST_DEVIATIONS), -MOST_DEVIATIONS);
}
