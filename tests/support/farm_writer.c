/* A draft as CSV text. The conversions are written out here anew, not taken from the readers'.
 */
#include "base/text.h"
#include "support/farm_maker.h"
#include <math.h>

#define KG_PER_LB 0.45359237
#define TONNES_PER_TON 0.90718474
#define METRES_PER_FT 0.3048
#define CUBIC_FEET_PER_CUBIC_METRE 35.314666721488590
#define KM_PER_MI 1.609344

typedef struct {
    Text text;
    bool is_imperial, is_first;
} Writer;

static Writer writer_new(Arena *arena, const FarmDraft *draft, FarmFile file) {
    return (Writer){text_new(arena), (draft->imperial >> file & 1u) != 0, true};
}

static void word(Writer *writer, const char *text) {
    if (!writer->is_first)
        text_add(&writer->text, ",");
    text_add(&writer->text, text);
    writer->is_first = false;
}

static void end_row(Writer *writer) {
    text_add(&writer->text, "\n");
    writer->is_first = true;
}

/* Fifteen digits: a number drafted with few is written with few, a converted one with all. */
static void number(Writer *writer, double value) {
    word(writer, "");
    if (!isnan(value))
        text_print(&writer->text, "%.15g", value);
}

static void date(Writer *writer, DraftDate date_or_none) {
    char bytes[CALENDAR_TEXT_BYTES] = "";
    if (date_or_none.is_set)
        calendar_print(date_or_none.day, bytes);
    word(writer, bytes);
}

static void either(Writer *writer, const char *metric, const char *imperial) {
    word(writer, writer->is_imperial ? imperial : metric);
}

static void measured(Writer *writer, double metric, double metric_per_imperial) {
    number(writer, writer->is_imperial ? metric / metric_per_imperial : metric);
}

static FileBytes file_of(const Writer *writer, const char *name) {
    return (FileBytes){name, writer->text.bytes, writer->text.length};
}

static void write_herd_headings(Writer *writer, bool is_five_point) {
    word(writer, "group,class,head");
    either(writer, "weight_kg,mature_weight_kg", "weight_lb,mature_weight_lb");
    word(writer, is_five_point ? "condition_score_5,target_condition_5"
                               : "condition_score_9,target_condition_9");
    word(writer, "target_date,calving_start,calving_end,weaning_date");
    either(writer, "peak_milk_kg_per_day,calf_birth_weight_kg,gain_kg_per_day",
           "peak_milk_lb_per_day,calf_birth_weight_lb,gain_lb_per_day");
    word(writer, "breed,coat,shelter,delivery");
    end_row(writer);
}

static FileBytes write_herd(Arena *arena, const FarmDraft *draft) {
    Writer writer = writer_new(arena, draft, FARM_HERD);
    write_herd_headings(&writer, draft->is_five_point);
    for (int g = 0; g < draft->group_count; g++) {
        const DraftGroup *group = &draft->groups[g];
        const double times = draft->is_five_point ? 0.5 : 1.0;
        const double add = draft->is_five_point ? 0.5 : 0.0;
        word(&writer, group->name);
        word(&writer, group->cattle_class);
        number(&writer, group->head);
        measured(&writer, group->weight_kg, KG_PER_LB);
        measured(&writer, group->mature_kg, KG_PER_LB);
        number(&writer, group->condition_9 * times + add);
        number(&writer, group->target_9 * times + add);
        date(&writer, group->target_date);
        date(&writer, group->calving_start);
        date(&writer, group->calving_end);
        date(&writer, group->weaning);
        measured(&writer, group->milk_kg, KG_PER_LB);
        measured(&writer, group->birth_kg, KG_PER_LB);
        measured(&writer, group->gain_kg, KG_PER_LB);
        word(&writer, group->breed);
        word(&writer, group->coat);
        word(&writer, group->shelter);
        word(&writer, group->delivery);
        end_row(&writer);
    }
    return file_of(&writer, "herd.csv");
}

static FileBytes write_stacks(Arena *arena, const FarmDraft *draft) {
    Writer writer = writer_new(arena, draft, FARM_STACKS);
    word(&writer, "stack,kind,feed,cut_date,counted_date,count");
    either(&writer, "bale_weight_kg,total_tonnes", "bale_weight_lb,total_tons");
    either(&writer, "diameter_m,width_m,length_m,height_m",
           "diameter_ft,width_ft,length_ft,height_ft");
    either(&writer, "density_kg_per_m3", "density_lb_per_ft3");
    word(&writer, "density_basis,storage,feeding,storage_loss_pct,feeding_waste_pct");
    either(&writer, "value_per_tonne,haul_per_tonne", "value_per_ton,haul_per_ton");
    word(&writer, "use_from,use_until,groups");
    end_row(&writer);
    for (int s = 0; s < draft->stack_count; s++) {
        const DraftStack *stack = &draft->stacks[s];
        word(&writer, stack->name);
        word(&writer, stack->kind);
        word(&writer, stack->feed);
        date(&writer, stack->cut);
        date(&writer, stack->counted);
        number(&writer, stack->count);
        measured(&writer, stack->bale_kg, KG_PER_LB);
        measured(&writer, stack->total_tonnes, TONNES_PER_TON);
        measured(&writer, stack->diameter_m, METRES_PER_FT);
        measured(&writer, stack->width_m, METRES_PER_FT);
        measured(&writer, stack->length_m, METRES_PER_FT);
        measured(&writer, stack->height_m, METRES_PER_FT);
        measured(&writer, stack->density, KG_PER_LB * CUBIC_FEET_PER_CUBIC_METRE);
        word(&writer, isnan(stack->density) ? "" : "as fed");
        word(&writer, stack->storage);
        word(&writer, stack->feeding);
        number(&writer, stack->loss_pct);
        number(&writer, stack->waste_pct);
        measured(&writer, stack->value, 1.0 / TONNES_PER_TON);
        measured(&writer, stack->haul, 1.0 / TONNES_PER_TON);
        date(&writer, stack->from);
        date(&writer, stack->until);
        word(&writer, stack->groups);
        end_row(&writer);
    }
    return file_of(&writer, "stacks.csv");
}

/* Each form as % NO3: nitrogen is 14.007 of nitrate's 62.004; potassium nitrate is 101.102. */
static const struct {
    const char *heading;
    double per_no3_pct;
} NITRATE_FORMS[] = {
    {"nitrate_no3_pct", 1.0},
    {"nitrate_no3_ppm", 10000.0},
    {"nitrate_n_ppm", 10000.0 / 4.4266},
    {"nitrate_kno3_pct", 1.0 / 0.6133},
};

static FileBytes write_tests(Arena *arena, const FarmDraft *draft) {
    Writer writer = writer_new(arena, draft, FARM_FEED_TESTS);
    word(&writer, "stack,basis");
    word(&writer, writer.is_imperial ? "dry_matter_pct" : "moisture_pct");
    word(&writer, "cores");
    for (int i = 0; i < DRAFT_TESTED_COUNT; i++)
        word(&writer, DRAFT_TESTED[i]);
    word(&writer, NITRATE_FORMS[draft->nitrate_form].heading);
    end_row(&writer);
    for (int t = 0; t < draft->test_count; t++) {
        const DraftTest *test = &draft->tests[t];
        const double written = test->is_as_fed ? (100.0 - test->moisture_pct) / 100.0 : 1.0;
        word(&writer, test->stack);
        word(&writer, test->is_as_fed ? "as fed" : "dry matter");
        number(&writer, writer.is_imperial ? 100.0 - test->moisture_pct : test->moisture_pct);
        number(&writer, test->cores);
        for (int i = 0; i < DRAFT_TESTED_COUNT; i++)
            number(&writer, test->tested[i] * written);
        number(&writer, test->nitrate_no3_pct * written *
                            NITRATE_FORMS[draft->nitrate_form].per_no3_pct);
        end_row(&writer);
    }
    return file_of(&writer, "feed-tests.csv");
}

static FileBytes write_offers(Arena *arena, const FarmDraft *draft) {
    Writer writer = writer_new(arena, draft, FARM_FOR_SALE);
    word(&writer, "feed_for_sale,feed");
    either(&writer, "price_per_tonne,most_tonnes,load_tonnes",
           "price_per_lb,most_tons,load_tons");
    word(&writer, "available_from,available_until,feeding,feeding_waste_pct,shrink_pct");
    either(&writer, "haul_per_tonne", "haul_per_ton");
    word(&writer, "supplement,groups");
    end_row(&writer);
    for (int o = 0; o < draft->offer_count; o++) {
        const DraftOffer *offer = &draft->offers[o];
        word(&writer, offer->name);
        word(&writer, offer->feed);
        measured(&writer, offer->price, 1000.0 / KG_PER_LB);
        measured(&writer, offer->most_tonnes, TONNES_PER_TON);
        measured(&writer, offer->load_tonnes, TONNES_PER_TON);
        date(&writer, offer->from);
        date(&writer, offer->until);
        word(&writer, offer->feeding);
        number(&writer, offer->waste_pct);
        number(&writer, offer->shrink_pct);
        measured(&writer, offer->haul, 1.0 / TONNES_PER_TON);
        word(&writer, offer->is_supplement ? "yes" : "");
        word(&writer, offer->groups);
        end_row(&writer);
    }
    return file_of(&writer, "for-sale.csv");
}

static void setting(Writer *writer, const char *name, double value) {
    if (isnan(value))
        return;
    word(writer, name);
    number(writer, value);
    end_row(writer);
}

static const char *const PROTEIN_SETTINGS[] = {
    [MICROBIAL_TEN_PERCENT] = "",
    [MICROBIAL_THIRTEEN_PERCENT] = "protein,thirteen\n",
    [MICROBIAL_2016] = "protein,2016\n",
};

static void write_ways(Writer *writer, const DraftWays *ways) {
    text_add(&writer->text, PROTEIN_SETTINGS[ways->microbial_form]);
    setting(writer, "caution_weight", ways->caution_weight);
    if (ways->are_asked)
        return;
    if (ways->needs_way == NEEDS_BY_TABLE)
        text_add(&writer->text, "requirements,table\n");
    if (ways->cold_way == COLD_BY_MODEL)
        text_add(&writer->text, "cold,model\n");
}

static FileBytes write_winter(Arena *arena, const FarmDraft *draft) {
    Writer writer = writer_new(arena, draft, FARM_WINTER);
    word(&writer, "setting,value");
    end_row(&writer);
    word(&writer, "first_day");
    date(&writer, (DraftDate){true, draft->first_day});
    end_row(&writer);
    word(&writer, "last_day");
    date(&writer, (DraftDate){true, draft->last_day});
    end_row(&writer);
    if (writer.is_imperial)
        text_add(&writer.text, "units,imperial\n");
    setting(&writer, "yardage_per_head_day", draft->yardage);
    setting(&writer, "water_sulfate_mg_per_l", draft->sulfate_mg);
    setting(&writer, "water_nitrate_mg_per_l", draft->nitrate_mg);
    if (writer.is_imperial)
        setting(&writer, "carry_over_tons", draft->carry_over_tonnes / TONNES_PER_TON);
    else
        setting(&writer, "carry_over_tonnes", draft->carry_over_tonnes);
    write_ways(&writer, &draft->ways);
    return file_of(&writer, "winter.csv");
}

static void temperature(Writer *writer, double celsius) {
    number(writer, writer->is_imperial ? celsius * 9.0 / 5.0 + 32.0 : celsius);
}

static FileBytes write_weather(Arena *arena, const FarmDraft *draft) {
    if (draft->month_count == 0)
        return (FileBytes){"weather.csv", NULL, 0};
    Writer writer = writer_new(arena, draft, FARM_WEATHER);
    word(&writer, "month");
    either(&writer, "mean_temperature_c,cold_spell_temperature_c,wind_km_per_h",
           "mean_temperature_f,cold_spell_temperature_f,wind_mph");
    word(&writer, "wet_days");
    end_row(&writer);
    for (int m = 0; m < draft->month_count; m++) {
        const DraftMonth *month = &draft->months[m];
        number(&writer, month->month);
        temperature(&writer, month->mean_c);
        temperature(&writer, month->cold_c);
        measured(&writer, month->wind_km_per_h, KM_PER_MI);
        number(&writer, month->wet_days);
        end_row(&writer);
    }
    return file_of(&writer, "weather.csv");
}

static FileBytes write_needs(Arena *arena, const FarmDraft *draft) {
    if (draft->need_count == 0)
        return (FileBytes){"needs.csv", NULL, 0};
    Writer writer = writer_new(arena, draft, FARM_NEEDS);
    word(&writer, "group,need,from,until,value,unit");
    end_row(&writer);
    for (int n = 0; n < draft->need_count; n++) {
        const DraftNeed *need = &draft->needs[n];
        word(&writer, need->group);
        word(&writer, need->need);
        date(&writer, need->from);
        date(&writer, need->until);
        measured(&writer, need->value, need->times);
        either(&writer, need->unit, need->other_unit);
        end_row(&writer);
    }
    return file_of(&writer, "needs.csv");
}

void farm_written(Arena *arena, const FarmDraft *draft, FarmRequest *request) {
    *request = (FarmRequest){
        .units = UNITS_METRIC,
        .needs_way_was_asked = draft->ways.are_asked,
        .cold_way_was_asked = draft->ways.are_asked,
        .needs_way = draft->ways.needs_way,
        .cold_way = draft->ways.cold_way,
    };
    request->file[FARM_HERD] = write_herd(arena, draft);
    request->file[FARM_STACKS] = write_stacks(arena, draft);
    request->file[FARM_FEED_TESTS] = draft->test_count > 0
                                         ? write_tests(arena, draft)
                                         : (FileBytes){"feed-tests.csv", NULL, 0};
    request->file[FARM_FOR_SALE] = write_offers(arena, draft);
    request->file[FARM_WINTER] = write_winter(arena, draft);
    request->file[FARM_WEATHER] = write_weather(arena, draft);
    request->file[FARM_NEEDS] = write_needs(arena, draft);
}
