/* One walk by days over the feedings and recounts of a stack. What lies there shrinks in
 * storage between them, so a bale weighs less the later it is fed. */
#include "stock/stack_book.h"
#include "base/text.h"
#include "stock/stack_keeping.h"
#include <math.h>

typedef struct {
    const Stack *stack;
    double counted_bale_kg;
    Day day; /* the book is up to here */
    StackBook book;
} Walk;

static double bale_kg_on(const Walk *walk, Day day) {
    return walk->counted_bale_kg * stack_keeps(walk->stack, walk->stack->counted, day);
}

static void wait_until(Walk *walk, Day day) {
    const double kept = stack_keeps(walk->stack, walk->day, day);
    walk->book.loss_kg += walk->book.left_kg * (1.0 - kept);
    walk->book.left_kg *= kept;
    walk->book.weighed_out_kg *= kept;
    walk->day = day;
}

/* What was written as fed beyond what the record leaves: 0 where there was enough. */
static double feed_out(Walk *walk, const Feeding *feeding) {
    wait_until(walk, feeding->date);
    const double fed = feed_amount_kg(feeding->amount, bale_kg_on(walk, feeding->date));
    const double beyond = fmax(fed - walk->book.left_kg, 0.0);
    walk->book.fed_kg += fed;
    walk->book.left_kg -= fed - beyond;
    if (feeding->amount.unit != AMOUNT_BALES)
        walk->book.weighed_out_kg += fed;
    walk->book.missing_kg -= beyond;
    return beyond;
}

static void count_again(Walk *walk, const Recount *recount) {
    wait_until(walk, recount->date);
    StackBook *book = &walk->book;
    book->recount = recount;
    book->before_recount_kg = book->left_kg;
    book->at_recount_kg = feed_amount_kg(recount->left, bale_kg_on(walk, recount->date));
    book->missing_kg += book->left_kg - book->at_recount_kg;
    book->left_kg = book->at_recount_kg;
    book->is_marked_empty = book->at_recount_kg <= 0.0;
    book->weighed_out_kg = 0.0;
}

static bool is_before(Day a, Day b) { return calendar_days_between(a, b) > 0; }

/* The next row of this stack from *at on, that is not before it was counted. */
static const Feeding *next_feeding(const FeedRecord *record, int stack, Day counted, int *at) {
    while (*at < record->feeding_count) {
        const Feeding *feeding = &record->feedings[(*at)++];
        if (feeding->stack == stack && !is_before(feeding->date, counted))
            return feeding;
    }
    return NULL;
}

static const Recount *next_recount(const FeedRecord *record, int stack, Day counted, int *at) {
    while (*at < record->recount_count) {
        const Recount *recount = &record->recounts[(*at)++];
        if (recount->stack == stack && !is_before(recount->date, counted))
            return recount;
    }
    return NULL;
}

typedef void OnFeeding(const Walk *walk, const Feeding *feeding, double beyond_kg, void *to);

static Walk walk_to(const Inventory *inventory, const FeedRecord *record, int place, Day day,
                    BookHour hour, OnFeeding *on_feeding, void *to) {
    const Stack *stack = &inventory->stacks.stacks[place];
    Walk walk = {.stack = stack, .day = stack->counted};
    walk.book.started_kg = walk.book.left_kg = stack->counted_kg;
    if (stack->bale_count > 0.0)
        walk.counted_bale_kg = stack->counted_kg / stack->bale_count;
    const Day last_fed = hour == BOOK_IN_THE_MORNING ? calendar_add(day, -1) : day;
    int feeding_at = 0;
    int recount_at = 0;
    const Feeding *feeding = next_feeding(record, place, stack->counted, &feeding_at);
    const Recount *recount = next_recount(record, place, stack->counted, &recount_at);
    for (;;) {
        const bool has_feeding = feeding && !is_before(last_fed, feeding->date);
        const bool has_recount = recount && !is_before(day, recount->date);
        if (has_feeding && !(has_recount && is_before(recount->date, feeding->date))) {
            const double beyond = feed_out(&walk, feeding);
            if (on_feeding)
                on_feeding(&walk, feeding, beyond, to);
            feeding = next_feeding(record, place, stack->counted, &feeding_at);
        } else if (has_recount) {
            count_again(&walk, recount);
            recount = next_recount(record, place, stack->counted, &recount_at);
        } else {
            break;
        }
    }
    if (is_before(walk.day, day))
        wait_until(&walk, day);
    return walk;
}

double feedings_kg(const Inventory *inventory, const FeedRecord *record, int place,
                   const char *group, Day from, Day to) {
    const Stack *stack = &inventory->stacks.stacks[place];
    const double counted_bale =
        stack->bale_count > 0.0 ? stack->counted_kg / stack->bale_count : 0.0;
    double sum = 0.0;
    for (int i = 0; i < record->feeding_count; i++) {
        const Feeding *feeding = &record->feedings[i];
        if (feeding->stack != place || is_before(feeding->date, from) ||
            is_before(to, feeding->date) || is_before(feeding->date, stack->counted) ||
            (group && !text_same_letters(feeding->group, group)))
            continue;
        const double bale = counted_bale * stack_keeps(stack, stack->counted, feeding->date);
        sum += feed_amount_kg(feeding->amount, bale);
    }
    return sum;
}

/* Past this the record says next to nothing of what is left [OWN_CHOICE]. */
#define MOST_LEFT_ERROR 0.5

double stack_left_error_share(const Stack *stack, const StackBook *book) {
    const double usual = stack->weight_error_share;
    if (book->left_kg <= 0.0 || usual >= MOST_LEFT_ERROR)
        return usual;
    return fmin(usual * (1.0 + book->weighed_out_kg / book->left_kg), MOST_LEFT_ERROR);
}

double bought_feedings_kg(const FeedRecord *record, int offer, Day to) {
    double sum = 0.0;
    for (int i = 0; i < record->feeding_count; i++) {
        const Feeding *feeding = &record->feedings[i];
        if (feeding->stack < 0 && feeding->offer == offer && !is_before(to, feeding->date))
            sum += feed_amount_kg(feeding->amount, 0.0);
    }
    return sum;
}

/* The day the stack was opened; `otherwise` when it never was. */
static Day opened_on(const FeedRecord *record, int place, Day counted, Day otherwise) {
    int at = 0;
    const Feeding *first = next_feeding(record, place, counted, &at);
    return first ? first->date : otherwise;
}

static void set_recent(const Inventory *inventory, const FeedRecord *record, int place,
                       Day last_fed, StackBook *book) {
    const Stack *stack = &inventory->stacks.stacks[place];
    const Day opened = opened_on(record, place, stack->counted, calendar_add(last_fed, 1));
    Day from = calendar_add(last_fed, 1 - BOOK_RECENT_DAYS);
    if (is_before(from, opened))
        from = opened;
    const int days = calendar_days_between(from, last_fed) + 1;
    if (days < BOOK_FEWEST_DAYS)
        return;
    const double fed = feedings_kg(inventory, record, place, NULL, from, last_fed);
    book->recent_kg_per_day = fed / days;
    book->was_fed_recently = fed > 0.0;
}

StackBook stack_book(const Inventory *inventory, const FeedRecord *record, int place, Day day,
                     BookHour hour) {
    const Walk walk = walk_to(inventory, record, place, day, hour, NULL, NULL);
    StackBook book = walk.book;
    book.bale_kg = bale_kg_on(&walk, day);
    book.left_bales = book.bale_kg > 0.0 ? book.left_kg / book.bale_kg : 0.0;
    set_recent(inventory, record, place,
               hour == BOOK_IN_THE_MORNING ? calendar_add(day, -1) : day, &book);
    return book;
}

/* A bale more than there were is a slip; a rounding of the last one is not. */
#define ROUNDING_KG 1.0

static void doubt_feeding(const Walk *walk, const Feeding *feeding, double beyond_kg,
                          void *faults) {
    if (beyond_kg < ROUNDING_KG)
        return;
    const double before =
        feed_amount_kg(feeding->amount, bale_kg_on(walk, feeding->date)) - beyond_kg;
    Faults *to = faults;
    const char *name = text_excerpt(to->arena, walk->stack->name);
    if (walk->book.is_marked_empty)
        doubt_add(to, feeding->place,
                  "amount: '%s' was marked empty before; it stays empty until a recount says "
                  "what is there",
                  name);
    else
        doubt_add(to, feeding->place,
                  "amount: %s is %.0f kg (%.0f lb) more than the record leaves of '%s', which "
                  "is %.0f kg; is it the right stack? Count it again",
                  feed_amount_words(to->arena, feeding->amount), beyond_kg,
                  beyond_kg / KG_PER_POUND, name, before);
}

static void doubt_before_count(Faults *faults, const Inventory *inventory, int place, Day date,
                               Place at) {
    if (place < 0 || !is_before(date, inventory->stacks.stacks[place].counted))
        return;
    char counted[CALENDAR_TEXT_BYTES];
    calendar_print(inventory->stacks.stacks[place].counted, counted);
    doubt_add(
        faults, at,
        "amount: it is of a day before '%s' was counted, %s by stacks.csv: it is taken as "
        "in that count, and changes nothing",
        text_excerpt(faults->arena, inventory->stacks.names[place]), counted);
}

/* A stack does not grow. Own choice, as where a recount and the record disagree. */
#define GROWN_SHARE 1.01

static void doubt_grown(Faults *faults, const Inventory *inventory, const Recount *recount) {
    const Stack *stack = &inventory->stacks.stacks[recount->stack];
    const double bale = stack->bale_count > 0.0 ? stack->counted_kg / stack->bale_count : 0.0;
    const double kg = feed_amount_kg(recount->left, bale);
    if (kg <= GROWN_SHARE * stack->counted_kg || is_before(recount->date, stack->counted))
        return;
    doubt_add(
        faults, recount->place,
        "amount: %s is more than there ever was of '%s', %.0f kg (%.0f lb) by stacks.csv; "
        "is it the right stack, and the right unit?",
        feed_amount_words(faults->arena, recount->left),
        text_excerpt(faults->arena, stack->name), stack->counted_kg,
        stack->counted_kg / KG_PER_POUND);
}

void stack_books_doubt(Faults *faults, const Inventory *inventory, const FeedRecord *record) {
    for (int i = 0; i < record->feeding_count; i++)
        doubt_before_count(faults, inventory, record->feedings[i].stack,
                           record->feedings[i].date, record->feedings[i].place);
    for (int i = 0; i < record->recount_count; i++)
        doubt_before_count(faults, inventory, record->recounts[i].stack,
                           record->recounts[i].date, record->recounts[i].place);
    for (int i = 0; i < record->recount_count; i++)
        doubt_grown(faults, inventory, &record->recounts[i]);
    if (record->feeding_count == 0)
        return;
    const Day end = record->feedings[record->feeding_count - 1].date;
    for (int place = 0; place < inventory->stacks.count; place++)
        walk_to(inventory, record, place, end, BOOK_IN_THE_EVENING, doubt_feeding, faults);
}
