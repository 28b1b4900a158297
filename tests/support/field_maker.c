#include "support/field_maker.h"
#include "base/text.h"
#include <string.h>

static const char HEAD[] =
    "field,area_acres,feed,growth,seeded_date,cut_date,way,yield_kg_per_hectare,yield_basis,"
    "basis,crude_protein_pct,ndf_pct,tdn_pct,calcium_pct,nitrate_no3_pct,seed_per_acre,"
    "cutting_per_acre,putting_up_per_tonne,hauling_per_tonne,grazing_value_per_tonne,storage,"
    "feeding,value_per_tonne,haul_per_tonne,rain_chance_pct\n";

typedef struct {
    const char *way, *feed, *storage, *feeding;
} Way;
static const Way WAYS[] = {
    {"hay", "cover-crop hay late", "net wrap rows", "unrolled"},
    {"bale silage", "cover-crop bale silage", "wrapped", "bale silage on snow"},
    {"chopped silage", "cover-crop silage early", "covered pit", "bunk"},
};

static void add_number(Text *out, double value, bool is_there) {
    if (is_there)
        text_print(out, ",%.15g", value);
    else
        text_add(out, ",");
}

static void add_day(Text *out, Day day) {
    char bytes[CALENDAR_TEXT_BYTES];
    calendar_print(day, bytes);
    text_print(out, ",%s", bytes);
}

static void add_row(Text *out, Draws *draws, int field, double acres, Day seeded, int days,
                    const Way *way, bool is_own) {
    const double ripe = (days - 45) / 50.0; /* 0 young, 1 ripe */
    text_print(out, "Field %d,%.15g,%s,mix", field + 1, acres, way->feed);
    add_day(out, seeded);
    add_day(out, calendar_add(seeded, days));
    text_print(out, ",%s", way->way);
    add_number(out, draw_between(draws, 1500, 3000, 0) + 3000.0 * ripe, is_own);
    text_add(out, is_own ? ",dry matter,dry matter" : ",,");
    add_number(out, draw_between(draws, 15, 19, 1) - 8.0 * ripe, is_own);
    add_number(out, draw_between(draws, 46, 52, 1) + 8.0 * ripe, is_own);
    add_number(out, draw_between(draws, 62, 67, 1) - 7.0 * ripe, is_own);
    add_number(out, draw_between(draws, 0.3, 0.9, 2), is_own);
    add_number(out, draw_between(draws, 0.01, 0.2, 2), is_own);
    add_number(out, draw_between(draws, 20, 60, 0), true);
    add_number(out, draw_between(draws, 15, 40, 0), true);
    add_number(out, draw_between(draws, 10, 30, 0), true);
    add_number(out, draw_between(draws, 3, 10, 0), true);
    add_number(out, draw_between(draws, 20, 90, 0), draw_chance(draws, 0.5));
    text_print(out, ",%s,%s", way->storage, way->feeding);
    add_number(out, draw_between(draws, 20, 60, 0), draw_chance(draws, 0.7));
    add_number(out, draw_between(draws, 5, 15, 0), true);
    add_number(out, draw_between(draws, 0, 60, 0), draw_chance(draws, 0.5));
    text_add(out, "\n");
}

void fields_made(Arena *arena, unsigned long long seed, const FarmDraft *draft,
                 FarmRequest *request) {
    Draws draws = draws_new(seed * 7919 + 13);
    Text out = text_new(arena);
    text_add(&out, HEAD);
    const int fields = draw_whole(&draws, 1, 3);
    for (int field = 0; field < fields; field++) {
        const double acres = draw_between(&draws, 5, 160, 0);
        const Day seeded = calendar_add(calendar_day(calendar_year(draft->first_day), 5, 15),
                                        draw_whole(&draws, 0, 20));
        const int dates = draw_whole(&draws, 1, 3);
        int days = draw_whole(&draws, 46, 60);
        for (int date = 0; date < dates; date++) {
            const int first = draw_whole(&draws, 0, 2);
            const int ways = draw_whole(&draws, 1, 2);
            for (int way = 0; way < ways; way++)
                add_row(&out, &draws, field, acres, seeded, days, &WAYS[(first + way) % 3],
                        (date == 0 && way == 0) || draw_chance(&draws, 0.4));
            days += draw_whole(&draws, 5, 20);
        }
    }
    request->file[FARM_FIELDS] = (FileBytes){"fields.csv", out.bytes, out.length};
}
