/* Quantities that cross a module boundary: the compiler tells them apart, and the FIELD NAME IS
 * THE UNIT. Unwrap once at the head of an equation, wrap once at its end. */
#ifndef BASE_QUANTITY_H
#define BASE_QUANTITY_H

#include <math.h>

// clang-format off
typedef struct { double kg; } Mass;
typedef struct { double kg_per_day; } FeedRate;         /* dry matter or milk, one head */
typedef struct { double g_per_day; } GramRate;          /* protein, minerals, one head */
typedef struct { double mcal_per_day; } EnergyRate;
typedef struct { double mcal_per_kg; } EnergyDensity;   /* of dry matter */
typedef struct { double mcal; } Energy;
typedef struct { double celsius; } Temperature;
typedef struct { double km_per_hour; } Speed;
typedef struct { double cubic_metres; } Volume;
typedef struct { double dollars; } Money;
// clang-format on

#define NO_LIMIT ((double)INFINITY)

#define KG_PER_POUND 0.45359237 /* exact by definition */
#define KG_PER_TONNE 1000.0
#define KG_PER_SHORT_TON 907.18474      /* 2,000 lb, exact */
#define METRES_PER_FOOT 0.3048          /* exact by definition */
#define KM_PER_MILE 1.609344            /* exact by definition */
#define HECTARES_PER_ACRE 0.40468564224 /* international acre, exact */
#define CELSIUS_PER_FAHRENHEIT (5.0 / 9.0)
#define GRAMS_PER_KG 1000.0

static inline double celsius_from_fahrenheit(double fahrenheit) {
    return (fahrenheit - 32.0) * CELSIUS_PER_FAHRENHEIT;
}
static inline double fahrenheit_from_celsius(double celsius) {
    return celsius / CELSIUS_PER_FAHRENHEIT + 32.0;
}

#endif
