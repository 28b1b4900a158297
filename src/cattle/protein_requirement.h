/* Protein: need and supply. docs/equations/protein.md */
#ifndef CATTLE_PROTEIN_REQUIREMENT_H
#define CATTLE_PROTEIN_REQUIREMENT_H

#include "base/quantity.h"

GramRate maintenance_protein(Mass shrunk); /* 3.8 SBW^0.75, metabolizable */

#define MP_PER_MICROBIAL_PROTEIN 0.64
#define MP_PER_UNDEGRADED_PROTEIN 0.80
#define CP_TO_MP 0.67 /* CP = MP / 0.67 when a single figure is wanted */

typedef enum {
    MICROBIAL_TEN_PERCENT,      /* 0.10 TDN intake: the default */
    MICROBIAL_THIRTEEN_PERCENT, /* 0.13 TDN intake */
    MICROBIAL_2016              /* 0.087 TDN intake + 42.73 g */
} MicrobialForm;

/* Microbial crude protein the energy allows; tdn_intake kg/day. */
GramRate microbial_protein(MicrobialForm form, FeedRate tdn_intake);

/* 0.64 min(microbial, degraded) + 0.80 undegraded. */
GramRate metabolizable_protein_supply(GramRate microbial, GramRate degraded,
                                      GramRate undegraded);

#endif
