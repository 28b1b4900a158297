/* The columns of a herd's file, shared by its reader and its checks. */
#ifndef CATTLE_HERD_COLUMN_H
#define CATTLE_HERD_COLUMN_H

#include "cattle/herd_group.h"

enum {
    GROUP_NAME,
    GROUP_CLASS,
    GROUP_HEAD,
    GROUP_WEIGHT,
    GROUP_MATURE_WEIGHT,
    GROUP_CONDITION_9,
    GROUP_CONDITION_5,
    GROUP_TARGET_9,
    GROUP_TARGET_5,
    GROUP_TARGET_DATE,
    GROUP_CALVING_START,
    GROUP_CALVING_END,
    GROUP_PEAK_MILK,
    GROUP_BIRTH_WEIGHT,
    GROUP_WEANING,
    GROUP_GAIN,
    GROUP_BREED,
    GROUP_COAT,
    GROUP_SHELTER,
    GROUP_DELIVERY,
    GROUP_GRAZING,
    GROUP_BUNK_LENGTH,
    GROUP_YARD,
    GROUP_PRICE,
    GROUP_NOTE,
    GROUP_COLUMN_COUNT
};

/* Faults and doubts of one group whose cells were read. Days: as for herd_parse. */
void herd_check_group(const Sheet *sheet, int row, const HerdGroup *group, Day first_day,
                      Day last_day);

/* Two groups of one name, or a name that a list of groups would part. */
void herd_check_names(Faults *faults, const Herd *herd);

#endif
