/* Chance without memory: a number that depends on nothing but a seed and the places it is asked
 * for, so that any part of a run can be drawn alone, in any order, on any machine.
 *
 * SplitMix64 [STEELE_2014]: output n of seed s is the mix of s + (n + 1) 0x9E3779B97F4A7C15. A
 * source is the output of one such row at one place; rows can be nested. */
#ifndef BASE_DRAWN_NUMBER_H
#define BASE_DRAWN_NUMBER_H

#include <stdint.h>

typedef struct {
    uint64_t key;
} DrawSource;

uint64_t drawn_bits(uint64_t seed, uint64_t place);

DrawSource draw_source(uint64_t seed, uint64_t place);
/* One inside another, by a number or by a name (letters as they are written). */
DrawSource draw_source_at(DrawSource source, uint64_t place);
DrawSource draw_source_named(DrawSource source, const char *name);

double drawn_share(DrawSource source, uint64_t place); /* above 0, below 1 */

/* Of mean 0 and deviation 1, never beyond MOST_DEVIATIONS (the rest is put on the edge); takes
 * the places 2 place and 2 place + 1 of its source. */
#define MOST_DEVIATIONS 4.0
double drawn_normal(DrawSource source, uint64_t place);

#endif
