#include "outcome/day_words.h"
#include "outcome/varied_report.h"
#include <math.h>

static void add_value(Figure *of, const VariedCost *varied, const char *key, double at) {
    if (varied->is_day)
        figure_text(of, key, day_iso(of->arena, (Day){(int)at}));
    else
        figure_number(of, key, at);
}

static void add_future(Figure *list, const VariedCost *varied, const VariedFuture *future) {
    Figure *of = figure_list_object(list);
    figure_text(of, "name", future->name);
    Figure *pieces = figure_list(of, "pieces");
    for (int p = 0; p < future->piece_count; p++) {
        const CostPiece *piece = &future->pieces[p];
        Figure *figure = figure_list_object(pieces);
        add_value(figure, varied, "from", piece->from);
        add_value(figure, varied, "to", piece->to);
        figure_number(figure, "cost_from", piece->cost_from);
        figure_number(figure, "cost_to", piece->cost_to);
        figure_truth(figure, "balanced", piece->within.is_balanced);
        Figure *feeds = figure_list(figure, "feeds");
        for (int f = 0; f < piece->within.feed_count; f++) {
            Figure *feed = figure_list_object(feeds);
            figure_text(feed, "feed", piece->within.name[f]);
            figure_number(feed, "taken_kg", piece->within.taken_kg[f]);
        }
    }
}

static void add_even(Figure *list, const VariedCost *varied, const VariedPair *pair,
                     const BreakEven *even) {
    Figure *of = figure_list_object(list);
    const char *a = varied->futures[pair->a].name, *b = varied->futures[pair->b].name;
    figure_text(of, "a", a);
    figure_text(of, "b", b);
    if (!varied->range.is_whole)
        figure_number(of, "at", even->at);
    add_value(of, varied, "before", even->before);
    add_value(of, varied, "behind", even->behind);
    figure_number(of, "cost", even->cost);
    figure_number(of, "left_open", pair->open);
    if (isfinite(pair->open)) {
        const CurveRange open = varied_open(varied, pair, even);
        add_value(of, varied, "open_from", open.from);
        add_value(of, varied, "open_to", open.to);
    }
    figure_text(of, "cheaper_below", even->a_is_cheaper_below ? a : b);
    figure_text(of, "cheaper_above", even->a_is_cheaper_below ? b : a);
}

void varied_figures(Figure *root, const VariedCost *varied) {
    Figure *of = figure_child(root, "varied");
    figure_text(of, "what", varied->what);
    add_value(of, varied, "from", varied->range.from);
    add_value(of, varied, "to", varied->range.to);
    Figure *futures = figure_list(of, "futures");
    for (int i = 0; i < varied->future_count; i++)
        add_future(futures, varied, &varied->futures[i]);
    Figure *evens = figure_list(of, "break_evens");
    for (int i = 0; i < varied->pair_count; i++) {
        for (int k = 0; k < varied->pairs[i].count; k++)
            add_even(evens, varied, &varied->pairs[i], &varied->pairs[i].found[k]);
    }
}
