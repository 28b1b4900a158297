#include "cattle/limit_feeds.h"
#include "feedstuff/feed_worth_testing.h"
#include "outcome/day_words.h"
#include "outcome/feeds_parts.h"
#include "stock/stack_sampling.h"
#include <math.h>

static void add_reading(Figure *list, const char *name, const char *unit, Reading reading) {
    Figure *of = figure_list_object(list);
    figure_text(of, "nutrient", name);
    figure_text(of, "unit", unit);
    figure_number(of, "value", reading_or(reading, (double)NAN));
    figure_text(of, "origin", origin_name(reading.origin));
    figure_text(of, "source", source_key(reading.source));
}

static void add_information(Figure *of, const Feedstuff *feed) {
    Figure *list = figure_list(of, "for_information");
    add_reading(list, "nfc", "%", feed->nfc);
    add_reading(list, "rfv", "", feed->rfv);
    add_reading(list, "rup_pct_of_cp", "% of CP", feed->rup);
}

static void add_error(Figure *of, const char *key, const SampleError *error) {
    Figure *child = figure_child(of, key);
    figure_number(child, "standard_error", error->working);
    figure_number(child, "standard_error_between_samples", error->between);
}

static void add_sampling(Figure *of, const Feedstuff *feed) {
    const Sampling *sampling = &feed->sampling;
    Figure *child = figure_child(of, "sampling");
    figure_number(child, "cores", feed->core_count > 0.0 ? feed->core_count : (double)NAN);
    figure_text(child, "newest",
                sampling->has_date ? day_iso(of->arena, sampling->newest) : NULL);
    add_error(child, "crude_protein_pct", &sampling->crude_protein);
    add_error(child, "tdn_pct", &sampling->tdn);
    add_error(child, "nitrate_no3_pct", &sampling->nitrate);
}

static void add_stack(Figure *of, Figure *flags, const Stack *stack) {
    if (stack_sampling(stack) == SAMPLING_NOT_SAID)
        figure_list_text(flags, "cores not said");
    if (stack_sampling(stack) == SAMPLING_TOO_FEW)
        figure_list_text(flags, "too few cores");
    if (stack_test_is_old(stack))
        figure_list_text(flags, "test is old");
    const char *analyses[MOST_WORTH_TESTING];
    const int count =
        feed_worth_testing(&stack->feed, limit_feeds_untested(&stack->feed), analyses);
    Figure *worth = figure_list(of, "worth_testing");
    for (int i = 0; i < count; i++)
        figure_list_text(worth, analyses[i]);
}

static void add_feed(const Feeds *feeds, Figure *list, int place) {
    const Feedstuff *feed = feeds_at(feeds->farm, place);
    const bool is_own = place < feeds->farm->inventory.stacks.count;
    Figure *of = figure_list_object(list);
    figure_text(of, "feed", feed->name);
    figure_truth(of, "own", is_own);
    figure_text(of, "book_feed", feed->book_feed);
    figure_text(of, "class", feed_class_kind(feed->feed_class)->key);
    figure_text(of, "origin", feed->sample_count > 0 ? "laboratory" : "book");
    figure_number(of, "samples", feed->sample_count);
    figure_number(of, "dry_matter_pct", feed->analysis.dry_matter.value);
    figure_text(of, "dry_matter_origin", origin_name(feed->analysis.dry_matter.origin));
    figure_text(of, "energy_route", energy_route_name(feed->route));
    Figure *routes = figure_child(of, "tdn_by_route");
    static const char *const KEYS[ROUTE_COUNT] = {"digestibility", "lignin", "fibre",
                                                  "laboratory", "book"};
    for (int route = 0; route < ROUTE_COUNT; route++)
        figure_number(routes, KEYS[route], feed->tdn_by_route[route]);
    Figure *nutrients = figure_list(of, "nutrients");
    for (int i = 0; i < NUTRIENT_COUNT; i++)
        add_reading(nutrients, nutrient_kind((Nutrient)i)->stem,
                    nutrient_kind((Nutrient)i)->unit, feed->analysis.of[i]);
    add_information(of, feed);
    figure_number(of, "nitrate_for_safety_pct", feed->nitrate_for_safety);
    figure_number(of, "protein_lost_to_heat_pct", feed->protein_lost_to_heat);
    Figure *flags = figure_list(of, "flags");
    if (feed->nitrate_is_assumed)
        figure_list_text(flags, "nitrate not tested");
    if (feed->sample_count == 0)
        figure_list_text(flags, "no laboratory test");
    if (feed->sulfur_is_assumed)
        figure_list_text(flags, "sulfur not tested");
    for (int watch = 0; watch < FEED_WATCH_COUNT; watch++) {
        if (feed->watch & WATCH_BIT(watch))
            figure_list_text(flags, feed_watch_name((FeedWatch)watch));
    }
    add_sampling(of, feed);
    if (is_own)
        add_stack(of, flags, &feeds->farm->inventory.stacks.stacks[place]);
}

void feeds_add_figures(const Feeds *feeds) {
    Figure *root = feeds->report->figures;
    Figure *list = figure_list(root, "feeds");
    for (int f = 0; f < feeds_count(feeds->farm); f++)
        add_feed(feeds, list, f);
    Figure *book = figure_list(root, "book_feeds");
    for (int i = 0; i < feeds->farm->book->count; i++)
        figure_list_text(book, feeds->farm->book->feeds[i].feed);
}
