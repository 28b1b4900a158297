/* Any record of any yard: the books balance on every day, whatever was written in whatever
 * order and unit, and the rest of winter begins with what they leave. */
#include "planner/farm_from.h"
#include "stock/recount_meaning.h"
#include "stock/stack_keeping.h"
#include "support/planned_farm.h"
#include "support/unit.h"

#include <stdlib.h>
#include <string.h>

enum { YARDS = 150, MOST_ROWS = 60 };

typedef struct {
    Farm *farm;
    Draws draws;
    char *rows[MOST_ROWS]; /* of fed.csv */
    int row_count;
    const char *counts;
} Yard;

#define FED "date,group,stack,amount,unit,note,entry\n"
#define COUNTS "date,stack,amount,unit,note,entry\n"

static Day drawn_day(Yard *yard) {
    const Winter *winter = &yard->farm->winter;
    return calendar_add(winter->first_day,
                        draw_whole(&yard->draws, 0, winter_days(winter) - 1));
}

static const char *iso(Arena *arena, Day day) {
    char text[CALENDAR_TEXT_BYTES];
    calendar_print(day, text);
    return arena_print(arena, "%s", text);
}

/* An amount up to a tenth of the stack, now and then far more than there is. */
static const char *drawn_amount(Arena *arena, Yard *yard, const Stack *stack, double share) {
    static const struct {
        const char *unit;
        double kg;
    } WEIGHTS[] = {
        {"kg", 1}, {"lb", KG_PER_POUND}, {"tonnes", 1000}, {"tons", KG_PER_SHORT_TON}};
    const double most = draw_chance(&yard->draws, 0.05) ? 3.0 * share : share;
    if (stack->bale_count >= 10.0 && draw_chance(&yard->draws, 0.6))
        return arena_print(arena, "%d,bales",
                           draw_whole(&yard->draws, 1, 1 + (int)(stack->bale_count * most)));
    const int unit = draw_whole(&yard->draws, 0, 3);
    const double kg = stack->counted_kg * draw_between(&yard->draws, 0.001, most, 3);
    return arena_print(arena, "%.3f,%s", kg / WEIGHTS[unit].kg + 0.001, WEIGHTS[unit].unit);
}

/* Names of the drafts may hold what a cell must quote. */
static const char *quoted(Arena *arena, const char *name) {
    return arena_print(arena, "\"%s\"", name);
}

static void parse(Arena *arena, Yard *yard, const char *fed, const char *counts) {
    Farm *farm = yard->farm;
    Faults faults = faults_new(arena);
    const RecordContext context = {&farm->inventory, farm->herd.names, farm->herd.count,
                                   farm->winter.first_day, farm->winter.last_day};
    farm->record = (FeedRecord){0};
    feedings_parse(arena, &faults, &context, "fed.csv", fed, strlen(fed), &farm->record);
    recounts_parse(arena, &faults, &context, "counts.csv", counts, strlen(counts),
                   &farm->record);
    if (faults.wrong_count > 0)
        fail_msg("%s", unit_faults(&faults, arena));
}

static const char *fed_file(Arena *arena, const Yard *yard) {
    Text text = text_new(arena);
    text_add(&text, FED);
    for (int i = 0; i < yard->row_count; i++)
        text_add(&text, yard->rows[i]);
    return text.bytes;
}

static Yard drawn_yard(Arena *arena, unsigned long long seed) {
    const FarmSize size = {2, 6, 6, 60 + (int)(seed % 140), true};
    const FarmDraft *draft = farm_drafted(arena, seed, size);
    Yard yard = {.farm = &asked_farm(arena, draft)->farm, .draws = draws_new(seed ^ 0x5EEDULL)};
    const Stacks *stacks = &yard.farm->inventory.stacks;
    yard.row_count = draw_whole(&yard.draws, 0, MOST_ROWS);
    for (int i = 0; i < yard.row_count; i++) {
        const int place = draw_whole(&yard.draws, 0, stacks->count - 1);
        const int group = draw_whole(&yard.draws, 0, yard.farm->herd.count - 1);
        yard.rows[i] = arena_print(
            arena, "%s,%s,%s,%s,,%d\n", iso(arena, drawn_day(&yard)),
            quoted(arena, yard.farm->herd.names[group]), quoted(arena, stacks->names[place]),
            drawn_amount(arena, &yard, &stacks->stacks[place], 0.1), i + 1);
    }
    Text counts = text_new(arena);
    text_add(&counts, COUNTS);
    for (int i = draw_whole(&yard.draws, 0, 8); i > 0; i--) {
        const int place = draw_whole(&yard.draws, 0, stacks->count - 1);
        text_print(&counts, "%s,%s,%s,,%d\n", iso(arena, drawn_day(&yard)),
                   quoted(arena, stacks->names[place]),
                   draw_chance(&yard.draws, 0.2)
                       ? "0,"
                       : drawn_amount(arena, &yard, &stacks->stacks[place], 0.9),
                   yard.row_count + i);
    }
    yard.counts = counts.bytes;
    parse(arena, &yard, fed_file(arena, &yard), yard.counts);
    return yard;
}

/* A law over the yards, each in an arena of its own. */
typedef void YardLaw(Arena *arena, Yard *yard);

static void try_yards(YardLaw *law) {
    for (unsigned long long seed = 1; seed <= YARDS; seed++) {
        Arena *arena = arena_open();
        Yard yard = drawn_yard(arena, seed);
        law(arena, &yard);
        arena_close(arena);
    }
}

static StackBook book_of(const Yard *yard, int place, Day day, BookHour hour) {
    return stack_book(&yard->farm->inventory, &yard->farm->record, place, day, hour);
}

#define GRAM 0.001

static void books_balance_at(const Yard *yard, int place, Day day, BookHour hour) {
    const StackBook book = book_of(yard, place, day, hour);
    assert_near(book.fed_kg + book.loss_kg + book.missing_kg + book.left_kg, book.started_kg,
                GRAM);
    assert_true(book.left_kg >= -GRAM && book.loss_kg >= 0.0 && book.fed_kg >= 0.0);
    if (book.bale_kg > 0.0)
        assert_near(book.left_bales * book.bale_kg, book.left_kg, GRAM);
}

static void balance_every_day(Arena *arena, Yard *yard) {
    (void)arena;
    const Winter *winter = &yard->farm->winter;
    for (int place = 0; place < yard->farm->inventory.stacks.count; place++) {
        for (int day = -5; day < winter_days(winter) + 5; day += 3) {
            books_balance_at(yard, place, calendar_add(winter->first_day, day),
                             BOOK_IN_THE_MORNING);
            books_balance_at(yard, place, calendar_add(winter->first_day, day),
                             BOOK_IN_THE_EVENING);
        }
    }
}

static void the_books_balance_on_every_day(void **state) {
    (void)state;
    try_yards(balance_every_day);
}

static void add_the_groups(Arena *arena, Yard *yard) {
    (void)arena;
    const Farm *farm = yard->farm;
    const Day last = farm->winter.last_day;
    for (int place = 0; place < farm->inventory.stacks.count; place++) {
        double sum = 0.0;
        for (int g = 0; g < farm->herd.count; g++)
            sum += feedings_kg(&farm->inventory, &farm->record, place, farm->herd.names[g],
                               farm->inventory.stacks.stacks[place].counted, last);
        assert_near(sum, book_of(yard, place, last, BOOK_IN_THE_EVENING).fed_kg, GRAM);
    }
}

static void what_the_groups_were_fed_is_what_left_the_stack(void **state) {
    (void)state;
    try_yards(add_the_groups);
}

static void shuffle_rows(Arena *arena, Yard *yard) {
    const Day day = drawn_day(yard);
    const int count = yard->farm->inventory.stacks.count;
    double *left = ARENA_ARRAY(arena, double, count);
    for (int place = 0; place < count; place++)
        left[place] = book_of(yard, place, day, BOOK_IN_THE_EVENING).left_kg;
    for (int i = yard->row_count - 1; i > 0; i--) {
        const int other = draw_whole(&yard->draws, 0, i);
        char *moved = yard->rows[i];
        yard->rows[i] = yard->rows[other];
        yard->rows[other] = moved;
    }
    parse(arena, yard, fed_file(arena, yard), yard->counts);
    for (int place = 0; place < count; place++)
        assert_near(book_of(yard, place, day, BOOK_IN_THE_EVENING).left_kg, left[place], GRAM);
}

static void the_order_of_rows_changes_nothing(void **state) {
    (void)state;
    try_yards(shuffle_rows);
}

static void feed_more(Arena *arena, Yard *yard) {
    const Day day = drawn_day(yard);
    const int place = draw_whole(&yard->draws, 0, yard->farm->inventory.stacks.count - 1);
    const double before = book_of(yard, place, day, BOOK_IN_THE_EVENING).left_kg;
    const char *more = arena_print(arena, "%s%s,X,%s,500,kg,,\n", fed_file(arena, yard),
                                   iso(arena, drawn_day(yard)),
                                   quoted(arena, yard->farm->inventory.stacks.names[place]));
    parse(arena, yard, more, yard->counts);
    assert_true(book_of(yard, place, day, BOOK_IN_THE_EVENING).left_kg <= before + GRAM);
}

static void one_feeding_more_never_leaves_more(void **state) {
    (void)state;
    try_yards(feed_more);
}

static void count_it(Arena *arena, Yard *yard) {
    const Day day = drawn_day(yard);
    const int place = draw_whole(&yard->draws, 0, yard->farm->inventory.stacks.count - 1);
    const Stack *stack = &yard->farm->inventory.stacks.stacks[place];
    if (calendar_days_between(stack->counted, day) < 0)
        return;
    const char *counts = arena_print(arena, "%s%s,%s,1234.5,kg,,\n", yard->counts,
                                     iso(arena, day), quoted(arena, stack->name));
    parse(arena, yard, fed_file(arena, yard), counts);
    const StackBook book = book_of(yard, place, day, BOOK_IN_THE_EVENING);
    assert_near(book.left_kg, 1234.5, GRAM);
    assert_near(book.before_recount_kg - book.at_recount_kg + book.fed_kg + book.loss_kg +
                    book.left_kg,
                book.started_kg - (book.missing_kg - (book.before_recount_kg - 1234.5)), GRAM);
}

static void a_count_of_the_evening_is_what_is_left(void **state) {
    (void)state;
    try_yards(count_it);
}

/* A weight that is offered makes the record and the count agree. */
static void take_the_offer(Arena *arena, Yard *yard) {
    (void)arena;
    Farm *farm = yard->farm;
    Stack *stacks = ARENA_ARRAY(arena, Stack, farm->inventory.stacks.count);
    for (int place = 0; place < farm->inventory.stacks.count; place++) {
        RecountMeaning meaning;
        stacks[place] = farm->inventory.stacks.stacks[place];
        if (!recount_meaning(&farm->inventory, &farm->record, place, farm->winter.last_day,
                             &meaning) ||
            !isfinite(meaning.weight_times))
            continue;
        stacks[place].counted_kg *= meaning.weight_times;
        Inventory inventory = farm->inventory;
        Stack *mended = ARENA_ARRAY(arena, Stack, inventory.stacks.count);
        memcpy(mended, farm->inventory.stacks.stacks,
               (size_t)inventory.stacks.count * sizeof *mended);
        mended[place] = stacks[place];
        inventory.stacks.stacks = mended;
        const StackBook old = book_of(yard, place, farm->winter.last_day, BOOK_IN_THE_EVENING);
        const StackBook then = stack_book(&inventory, &farm->record, place, old.recount->date,
                                          BOOK_IN_THE_EVENING);
        /* what was fed beyond what there was, or before an earlier count, is no straight line
         */
        if (then.missing_kg < -GRAM || then.before_recount_kg <= GRAM)
            continue;
        assert_near(then.before_recount_kg, then.at_recount_kg, 0.01);
    }
}

static void the_weight_offered_makes_count_and_record_agree(void **state) {
    (void)state;
    try_yards(take_the_offer);
}

/* ---- the rest of winter ---- */

static void begin_with_what_is_left(Arena *arena, Yard *yard) {
    const Day from = drawn_day(yard);
    const Farm *farm = yard->farm;
    if (calendar_days_between(from, farm->winter.last_day) < 1)
        return;
    Farm rest = *farm;
    Faults faults = faults_new(arena);
    assert_true(farm_from(arena, &faults, (Place){0}, &rest, from));
    for (int place = 0; place < farm->inventory.stacks.count; place++) {
        const Stack *stack = &farm->inventory.stacks.stacks[place];
        const Stack *left = &rest.inventory.stacks.stacks[place];
        if (calendar_days_between(stack->counted, from) < 0)
            continue;
        const StackBook book = book_of(yard, place, from, BOOK_IN_THE_MORNING);
        assert_near(left->counted_kg, book.left_kg, GRAM);
        assert_near(left->bale_count, book.left_bales, 1e-6);
        const int half = calendar_days_between(from, farm->winter.last_day) / 2;
        const double keeps = stack_keeps(stack, from, calendar_add(from, half));
        assert_near(stack_as_fed(left).kg, book.left_kg * keeps, GRAM);
    }
    const PlanQuestion whole = plan_question(arena, farm);
    const PlanQuestion cut = plan_question(arena, &rest);
    const PlanBlock *last_whole = &whole.blocks[whole.block_count - 1];
    const PlanBlock *last_cut = &cut.blocks[cut.block_count - 1];
    if (calendar_days_between(last_whole->from, last_cut->from) == 0)
        assert_near(requirement_nem(&last_cut->need).mcal_per_day,
                    requirement_nem(&last_whole->need).mcal_per_day, 1e-9);
}

static void the_rest_of_winter_begins_with_what_the_books_leave(void **state) {
    (void)state;
    try_yards(begin_with_what_is_left);
}

/* From the first day, with nothing written, the question is the same to the last bit that
 * counts.
 */
static void ask_twice(Arena *arena, Yard *yard) {
    Farm *farm = yard->farm;
    farm->record = (FeedRecord){0};
    Farm rest = *farm;
    Faults faults = faults_new(arena);
    assert_true(farm_from(arena, &faults, (Place){0}, &rest, farm->winter.first_day));
    const PlanQuestion whole = plan_question(arena, farm);
    const PlanQuestion again = plan_question(arena, &rest);
    assert_int_equal(again.block_count, whole.block_count);
    for (int f = 0; f < whole.feed_count; f++) {
        const bool is_table =
            !whole.feeds[f].is_own || !farm->inventory.stacks.stacks[f].loss_is_users;
        if (is_table || farm->inventory.stacks.stacks[f].wait_days > 0)
            assert_near(again.feeds[f].available_kg, whole.feeds[f].available_kg,
                        1e-9 * (1.0 + whole.feeds[f].available_kg));
    }
    for (int b = 0; b < whole.block_count; b++) {
        assert_near(requirement_nem(&again.blocks[b].need).mcal_per_day,
                    requirement_nem(&whole.blocks[b].need).mcal_per_day, 0.0);
        assert_near(again.blocks[b].head, whole.blocks[b].head, 0.0);
    }
}

static void from_the_first_day_it_is_the_same_question(void **state) {
    (void)state;
    try_yards(ask_twice);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_books_balance_on_every_day),
        cmocka_unit_test(what_the_groups_were_fed_is_what_left_the_stack),
        cmocka_unit_test(the_order_of_rows_changes_nothing),
        cmocka_unit_test(one_feeding_more_never_leaves_more),
        cmocka_unit_test(a_count_of_the_evening_is_what_is_left),
        cmocka_unit_test(the_weight_offered_makes_count_and_record_agree),
        cmocka_unit_test(the_rest_of_winter_begins_with_what_the_books_leave),
        cmocka_unit_test(from_the_first_day_it_is_the_same_question),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
