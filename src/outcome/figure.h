/* A tree of named figures: what JSON shows. Numbers stay numbers; a number that is not finite
 * is shown as null, never as 0. Keys and texts must outlive the tree. */
#ifndef OUTCOME_FIGURE_H
#define OUTCOME_FIGURE_H

#include "base/arena.h"
#include <stdbool.h>

typedef enum {
    FIGURE_NOTHING,
    FIGURE_TRUTH,
    FIGURE_NUMBER,
    FIGURE_TEXT,
    FIGURE_LIST,
    FIGURE_OBJECT
} FigureKind;

typedef struct Figure {
    FigureKind kind;
    const char *key;  /* of a member of an object; NULL in a list */
    const char *text; /* FIGURE_TEXT */
    double number;
    bool truth;
    Arena *arena;
    struct Figure *first, *last; /* members of a list or object, in the order added */
    struct Figure *next;
} Figure;

Figure *figure_object(Arena *arena);

/* Each adds to an object under a key; the object and list forms return the new child. */
void figure_number(Figure *object, const char *key, double number);
void figure_text(Figure *object, const char *key, const char *text); /* NULL becomes null */
void figure_truth(Figure *object, const char *key, bool truth);
void figure_nothing(Figure *object, const char *key);
Figure *figure_child(Figure *object, const char *key);
Figure *figure_list(Figure *object, const char *key);

/* Each adds an element to a list. */
Figure *figure_list_object(Figure *list);
Figure *figure_list_list(Figure *list);
void figure_list_text(Figure *list, const char *text);
void figure_list_number(Figure *list, double number);

#endif
