/* What a case of tests/published may call: name, number of inputs, the call itself. The unit of
 * each input and of the result is in the comment beside the row. */
#ifndef PUBLISHED_PUBLISHED_H
#define PUBLISHED_PUBLISHED_H

typedef struct {
    const char *name;
    int inputs;
    double (*call)(const double *input);
} PublishedFunction;

/* Each ends with a row {NULL, 0, NULL}. */
extern const PublishedFunction CATTLE_FUNCTIONS[], FEED_FUNCTIONS[], STOCK_FUNCTIONS[],
    RATION_FUNCTIONS[], PLANNED_FUNCTIONS[], WEATHER_FUNCTIONS[], YEAR_FUNCTIONS[],
    PRICE_FUNCTIONS[];

#endif
