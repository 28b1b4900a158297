/* A report in which one text of somebody's stands in every place a report has for text. */
#ifndef SUPPORT_TOLD_EVERYWHERE_H
#define SUPPORT_TOLD_EVERYWHERE_H

#include "outcome/report.h"

const Report *told_everywhere(Arena *arena, const char *words);

#endif
