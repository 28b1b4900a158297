/* A farm's files, read as the program reads them. */
#ifndef SUPPORT_FARM_FILES_H
#define SUPPORT_FARM_FILES_H

#include "entry/farm_reading.h"

/* HERD.csv and a folder of the rest, in metric units. Says what is wrong and ends the program
 * when one that is needed cannot be read. */
FarmRequest farm_of_files(Arena *arena, const char *herd, const char *folder);

#endif
