/* Stages of life and season that limits tell apart (stage.def). A period can hold several at
 * once: within the calving window some cows are late and some nurse; a limit for either counts.
 */
#ifndef CATTLE_STAGE_H
#define CATTLE_STAGE_H

typedef enum {
#define STAGE(id, name) STAGE_##id,
#include "cattle/stage.def"
#undef STAGE
    STAGE_COUNT
} Stage;

typedef unsigned StageSet; /* bit (1u << stage) */

#define STAGE_BIT(stage) (1u << (unsigned)(stage))
#define STAGE_ALL ((1u << (unsigned)STAGE_COUNT) - 1u)
#define LATE_PREGNANCY_DAYS 60
#define CLOSE_TO_CALVING_DAYS 14
#define CALF_MOST_WEIGHT_KG 250.0

const char *stage_name(Stage stage);

#endif
