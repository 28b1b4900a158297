#include "cattle/stage.h"

static const char *const NAMES[STAGE_COUNT] = {
#define STAGE(id, name) name,
#include "cattle/stage.def"
#undef STAGE
};

const char *stage_name(Stage stage) { return NAMES[stage]; }
