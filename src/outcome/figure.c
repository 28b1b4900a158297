#include "outcome/figure.h"

#include <assert.h>
#include <math.h>

static Figure *figure_new(Arena *arena, FigureKind kind) {
    Figure *figure = ARENA_NEW(arena, Figure);
    figure->kind = kind;
    figure->arena = arena;
    return figure;
}

static Figure *append(Figure *parent, const char *key, FigureKind kind) {
    Figure *member = figure_new(parent->arena, kind);
    member->key = key;
    if (parent->last)
        parent->last->next = member;
    else
        parent->first = member;
    parent->last = member;
    return member;
}

static Figure *add_member(Figure *object, const char *key, FigureKind kind) {
    assert(object->kind == FIGURE_OBJECT && key);
    return append(object, key, kind);
}

static Figure *add_element(Figure *list, FigureKind kind) {
    assert(list->kind == FIGURE_LIST);
    return append(list, NULL, kind);
}

static FigureKind kind_of_number(double number) {
    return isfinite(number) ? FIGURE_NUMBER : FIGURE_NOTHING;
}

static FigureKind kind_of_text(const char *text) { return text ? FIGURE_TEXT : FIGURE_NOTHING; }

Figure *figure_object(Arena *arena) { return figure_new(arena, FIGURE_OBJECT); }

void figure_number(Figure *object, const char *key, double number) {
    add_member(object, key, kind_of_number(number))->number = number;
}

void figure_text(Figure *object, const char *key, const char *text) {
    add_member(object, key, kind_of_text(text))->text = text;
}

void figure_truth(Figure *object, const char *key, bool truth) {
    add_member(object, key, FIGURE_TRUTH)->truth = truth;
}

void figure_nothing(Figure *object, const char *key) {
    add_member(object, key, FIGURE_NOTHING);
}

Figure *figure_child(Figure *object, const char *key) {
    return add_member(object, key, FIGURE_OBJECT);
}

Figure *figure_list(Figure *object, const char *key) {
    return add_member(object, key, FIGURE_LIST);
}

Figure *figure_list_object(Figure *list) { return add_element(list, FIGURE_OBJECT); }

Figure *figure_list_list(Figure *list) { return add_element(list, FIGURE_LIST); }

void figure_list_text(Figure *list, const char *text) {
    add_element(list, kind_of_text(text))->text = text;
}

void figure_list_number(Figure *list, double number) {
    add_element(list, kind_of_number(number))->number = number;
}
