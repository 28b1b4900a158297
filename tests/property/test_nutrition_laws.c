/* What must hold for any animal, any weather and any feed, whatever the numbers are: random
 * cattle, a thousand of them a law, each from its seed. */
#include "base/unit_family.h"
#include "feedstuff/feed_energy.h"
#include "support/animal_maker.h"
#include "support/planned_farm.h"
#include "support/unit.h"

#include <string.h>

#define CASES 1000
#define HAIR 1e-9 /* the last digits of a sum */

#ifdef __SANITIZE_ADDRESS__
#define FARMS 8
#else
#define FARMS 60
#endif

static const MineralNeeds NO_MINERALS;

static Requirement need_of(const Animal *animal) {
    return requirement_of(&animal->group, &animal->weather, &NO_MINERALS, animal->from,
                          animal->from, calendar_add(animal->from, animal->days - 1));
}

static void assert_never_less(double more, double less, int seed, const char *what) {
    if (more >= less - HAIR * fmax(fabs(less), 1.0))
        return;
    print_error("seed %d: %s falls from %.12g to %.12g\n", seed, what, less, more);
    fail();
}

static void assert_energy_never_less(const Requirement *more, const Requirement *less,
                                     int seed) {
    assert_never_less(requirement_nem(more).mcal_per_day, requirement_nem(less).mcal_per_day,
                      seed, "NEm");
    assert_never_less(more->retained.mcal_per_day, less->retained.mcal_per_day, seed, "NEg");
}

static void assert_all_never_less(const Requirement *more, const Requirement *less, int seed) {
    assert_energy_never_less(more, less, seed);
    assert_never_less(requirement_protein(more).g_per_day, requirement_protein(less).g_per_day,
                      seed, "protein");
    assert_never_less(more->calcium.g_per_day, less->calcium.g_per_day, seed, "calcium");
    assert_never_less(more->phosphorus.g_per_day, less->phosphorus.g_per_day, seed,
                      "phosphorus");
}

/* ---- one thing more, all else the same ---- */

static void colder_never_needs_less(void **state) {
    (void)state;
    for (int seed = 1; seed <= CASES; seed++) {
        Animal animal = animal_made(seed);
        const Requirement mild = need_of(&animal);
        for (int month = 1; month <= 12; month++)
            animal.weather.month[month].mean.celsius -= draw_between(&animal.draws, 0, 25, 1);
        const Requirement cold = need_of(&animal);
        assert_all_never_less(&cold, &mild, seed);
    }
}

static void windier_never_needs_less(void **state) {
    (void)state;
    for (int seed = 1; seed <= CASES; seed++) {
        Animal animal = animal_made(seed);
        const Requirement calm = need_of(&animal);
        for (int month = 1; month <= 12; month++)
            animal.weather.month[month].wind.km_per_hour +=
                draw_between(&animal.draws, 0, 40, 1);
        const Requirement windy = need_of(&animal);
        assert_all_never_less(&windy, &calm, seed);
    }
}

static void a_thinner_coat_never_needs_less(void **state) {
    (void)state;
    for (int seed = 1; seed <= CASES; seed++) {
        Animal animal = animal_made(seed);
        animal.group.coat = (Coat)draw_whole(&animal.draws, COAT_FALL, COAT_HEAVY);
        const Requirement thick = need_of(&animal);
        animal.group.coat =
            (Coat)draw_whole(&animal.draws, COAT_SUMMER, (int)animal.group.coat - 1);
        const Requirement thin = need_of(&animal);
        assert_all_never_less(&thin, &thick, seed);
    }
}

/* Of cattle that need not lose flesh: what a cow lives off when she may lose a score is more
 * for a heavier one. Energy only: a heavier animal lays down less protein in the same gain. */
static void heavier_never_needs_less_energy(void **state) {
    (void)state;
    for (int seed = 1; seed <= CASES; seed++) {
        Animal animal = animal_made(seed);
        HerdGroup *group = &animal.group;
        group->target_condition = fmax(group->target_condition, group->condition);
        const Requirement light = need_of(&animal);
        group->weight.kg *= 1.0 + draw_between(&animal.draws, 0, 0.3, 3);
        const Requirement heavy = need_of(&animal);
        assert_energy_never_less(&heavy, &light, seed);
        assert_never_less(heavy.protein.maintenance, light.protein.maintenance, seed,
                          "protein for upkeep");
    }
}

/* A dry cow, day after day to the day she calves, in weather that stays. */
static void later_in_pregnancy_never_needs_less(void **state) {
    (void)state;
    for (int seed = 1; seed <= CASES; seed++) {
        Animal animal = animal_made(seed);
        animal_calving_drawn(&animal.draws, &animal.group, animal.from);
        animal.group.cattle_class = CATTLE_COW;
        animal.group.is_bred = true;
        animal.group.has_target = animal.group.has_weaning = false;
        animal.group.gain.kg_per_day = 0.0;
        animal.group.calving_start = animal.group.calving_end =
            calendar_add(animal.from, draw_whole(&animal.draws, 2, 282));
        for (int month = 1; month < 12; month++)
            animal.weather.month[month] = animal.weather.month[12];
        animal.days = 1;
        const int to_term = calendar_days_between(animal.from, animal.group.calving_start);
        const Requirement early = need_of(&animal);
        animal.from = calendar_add(animal.from, draw_whole(&animal.draws, 1, to_term - 1));
        const Requirement late = need_of(&animal);
        assert_all_never_less(&late, &early, seed);
    }
}

static void more_milk_never_needs_less(void **state) {
    (void)state;
    for (int seed = 1; seed <= CASES; seed++) {
        Animal animal = animal_made(seed);
        const Requirement less = need_of(&animal);
        animal.group.peak_milk.kg_per_day += draw_between(&animal.draws, 0, 6, 1);
        const Requirement more = need_of(&animal);
        assert_all_never_less(&more, &less, seed);
    }
}

/* ---- feeds ---- */

static void more_fibre_is_never_more_energy(void **state) {
    (void)state;
    double (*const lines[])(double) = {tdn_nfta_hay, tdn_california_alfalfa,
                                       tdn_penn_state_legume, tdn_nfta_corn_silage};
    for (int seed = 1; seed <= CASES; seed++) {
        Draws draws = draws_new((unsigned long long)seed);
        const double low = draw_between(&draws, 5, 70, 2);
        const double high = low + draw_between(&draws, 0, 25, 2);
        for (size_t i = 0; i < sizeof lines / sizeof *lines; i++)
            assert_never_less(lines[i](low), lines[i](high), seed, "TDN of a line");
        for (int equation = FIBRE_HAY; equation < FIBRE_NONE; equation++) {
            const double more = tdn_from_adf((FibreEquation)equation, low);
            const double less = tdn_from_adf((FibreEquation)equation, high);
            assert_never_less(more, less, seed, "TDN");
            assert_never_less(nem_from_tdn(more).mcal_per_kg, nem_from_tdn(less).mcal_per_kg,
                              seed, "NEm of the feed");
            assert_never_less(neg_from_tdn(more).mcal_per_kg, neg_from_tdn(less).mcal_per_kg,
                              seed, "NEg of the feed");
        }
    }
}

static const Sheet *sheet_of(Arena *arena, const SheetColumn *column, const Text *text) {
    Faults faults = faults_new(arena);
    const Sheet *sheet =
        sheet_parse(arena, &faults, "sheet.csv", text->bytes, text->length, column, 1);
    assert_string_equal(unit_faults(&faults, arena), "");
    assert_non_null(sheet);
    return sheet;
}

/* Own numbers written under a heading of the form and read again. */
static void assert_round_trip(Arena *arena, UnitFamily family, const UnitForm *form) {
    const SheetColumn column = {"amount", family, COLUMN_REQUIRED, -1e12, 1e12};
    Text heading = text_new(arena);
    text_print(&heading, "amount%s\n", form->suffix);
    const Sheet *empty = sheet_of(arena, &column, &heading);
    Draws draws = draws_new((unsigned long long)family + 1);
    double own[CASES];
    Text text = text_new(arena);
    text_add(&text, heading.bytes);
    for (int i = 0; i < CASES; i++) {
        own[i] = 0.001 + 900.0 * draw_share(&draws);
        text_print(&text, "%.17g\n", sheet_as_written(empty, 0, own[i]));
    }
    const Sheet *sheet = sheet_of(arena, &column, &text);
    assert_int_equal(sheet_row_count(sheet), CASES);
    for (int i = 0; i < CASES; i++) {
        double again = (double)NAN;
        assert_true(sheet_number(sheet, i, 0, &again));
        assert_near(again, own[i], 1e-12 * fmax(own[i], 1.0));
    }
}

static void a_number_written_in_any_unit_is_read_as_it_was(void **state) {
    (void)state;
    for (int family = 0; family < UNIT_FAMILY_COUNT; family++) {
        int count = 0;
        const UnitForm *forms = unit_forms((UnitFamily)family, &count);
        for (int i = 0; i < count; i++) {
            Arena *arena = arena_open();
            assert_round_trip(arena, (UnitFamily)family, &forms[i]);
            arena_close(arena);
        }
    }
}

/* ---- periods and groups ---- */

enum { PART_COUNT = 24 };

/* What a period's need is the mean of. Days in calf are a mean over those not yet calved. */
static void parts_of(const Requirement *need, double parts[PART_COUNT]) {
    const Mass shrunk = {600.0};
    const EnergyDensity diet = {1.2};
    const double list[PART_COUNT] = {
        need->energy.maintenance,
        need->energy.cold,
        need->energy.pregnancy,
        need->energy.milk,
        need->energy.condition,
        need->retained.mcal_per_day,
        need->protein.maintenance,
        need->protein.pregnancy,
        need->protein.milk,
        need->protein.gain,
        need->calcium.g_per_day,
        need->phosphorus.g_per_day,
        need->live_weight.kg,
        need->shrunk.kg,
        need->milk.kg_per_day,
        need->gain.kg_per_day,
        need->calved_share,
        need->days_pregnant * (1.0 - need->calved_share),
        need->ndf_most_kg,
        need->cold_share,
        need->cold_spell_energy,
        need->felt.celsius,
        intake_at(need->most, shrunk, diet).kg_per_day,
        intake_at(need->least, shrunk, diet).kg_per_day,
    };
    memcpy(parts, list, sizeof list);
}

static void a_period_needs_the_mean_of_its_halves(void **state) {
    (void)state;
    for (int seed = 1; seed <= CASES; seed++) {
        Animal animal = animal_made(seed);
        const int first = draw_whole(&animal.draws, 1, 6);
        const int second = draw_whole(&animal.draws, 1, 6);
        const Day from = calendar_add(animal.from, draw_whole(&animal.draws, 0, 120));
        const Day middle = calendar_add(from, first);
        const Day end = calendar_add(middle, second - 1);
        const Requirement needs[3] = {
            requirement_of(&animal.group, &animal.weather, &NO_MINERALS, animal.from, from,
                           calendar_add(middle, -1)),
            requirement_of(&animal.group, &animal.weather, &NO_MINERALS, animal.from, middle,
                           end),
            requirement_of(&animal.group, &animal.weather, &NO_MINERALS, animal.from, from,
                           end),
        };
        double parts[3][PART_COUNT];
        for (int i = 0; i < 3; i++)
            parts_of(&needs[i], parts[i]);
        for (int i = 0; i < PART_COUNT; i++) {
            const double mean = (first * parts[0][i] + second * parts[1][i]) / (first + second);
            if (fabs(parts[2][i] - mean) > HAIR * fmax(fabs(mean), 1.0))
                fail_msg("seed %d: part %d is %.12g, the mean of the halves %.12g", seed, i,
                         parts[2][i], mean);
        }
        assert_int_equal(needs[2].stages, needs[0].stages | needs[1].stages);
    }
}

static const FarmSize A_FARM = {3, 3, 6, 110, true};

/* Every group halved: first the one half of each, then the other. */
static const FarmDraft *halved(Arena *arena, FarmDraft *whole) {
    FarmDraft *halves = ARENA_NEW(arena, FarmDraft);
    *halves = *whole;
    halves->group_count = 2 * whole->group_count;
    halves->groups = ARENA_ARRAY(arena, DraftGroup, halves->group_count);
    for (int g = 0; g < whole->group_count; g++) {
        DraftGroup half = whole->groups[g];
        whole->groups[g].head = 2 * half.head;
        halves->groups[g] = half;
        half.name = arena_print(arena, "%s too", half.name);
        halves->groups[whole->group_count + g] = half;
    }
    halves->need_count = 2 * whole->need_count;
    halves->needs = ARENA_ARRAY(arena, DraftNeed, halves->need_count);
    for (int n = 0; n < whole->need_count; n++) {
        DraftNeed own = whole->needs[n];
        halves->needs[2 * n] = own;
        own.group = arena_print(arena, "%s too", own.group);
        halves->needs[2 * n + 1] = own;
    }
    return halves;
}

static FarmDraft *farm_for_all(Arena *arena, int seed) {
    FarmDraft *draft = farm_drafted(arena, (unsigned long long)seed, A_FARM);
    for (int s = 0; s < draft->stack_count; s++)
        draft->stacks[s].groups = "";
    for (int o = 0; o < draft->offer_count; o++)
        draft->offers[o].groups = "";
    return draft;
}

static void two_halves_of_a_group_need_what_the_group_needs(void **state) {
    (void)state;
    for (int seed = 1; seed <= FARMS; seed++) {
        Arena *arena = arena_open();
        FarmDraft *draft = farm_for_all(arena, seed);
        const FarmDraft *split = halved(arena, draft);
        const PlanQuestion *whole = &asked_farm(arena, draft)->question;
        const PlanQuestion *halves = &asked_farm(arena, split)->question;
        assert_int_equal(halves->block_count, 2 * whole->block_count);
        for (int b = 0; b < halves->block_count; b++) {
            const PlanBlock *half = &halves->blocks[b];
            const PlanBlock *of = &whole->blocks[b % whole->block_count];
            double parts[2][PART_COUNT];
            parts_of(&half->need, parts[0]);
            parts_of(&of->need, parts[1]);
            assert_int_equal(half->days, of->days);
            assert_near(2.0 * half->head, of->head, 0.0);
            for (int i = 0; i < PART_COUNT; i++)
                assert_near(parts[0][i], parts[1][i], 0.0);
        }
        arena_close(arena);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(colder_never_needs_less),
        cmocka_unit_test(windier_never_needs_less),
        cmocka_unit_test(a_thinner_coat_never_needs_less),
        cmocka_unit_test(heavier_never_needs_less_energy),
        cmocka_unit_test(later_in_pregnancy_never_needs_less),
        cmocka_unit_test(more_milk_never_needs_less),
        cmocka_unit_test(more_fibre_is_never_more_energy),
        cmocka_unit_test(a_number_written_in_any_unit_is_read_as_it_was),
        cmocka_unit_test(a_period_needs_the_mean_of_its_halves),
        cmocka_unit_test(two_halves_of_a_group_need_what_the_group_needs),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
