#include "base/choice.h"

#include "base/text.h"
#include <stdio.h>
#include <string.h>

typedef enum { ALIAS_SAME, ALIAS_LIKE } AliasKind;

static const struct {
    const char *written, *choice;
    AliasKind kind;
} ALIASES[] = {
#define CHOICE_ALIAS(written, choice, kind) {written, choice, ALIAS_##kind},
#include "base/choice_alias.def"
#undef CHOICE_ALIAS
};

#define ALIAS_COUNT (sizeof ALIASES / sizeof ALIASES[0])

/* ---- the same word ---- */

static bool is_joint(char letter) { return letter == ' ' || letter == '-' || letter == '_'; }

static const char *skip_joints(const char *byte) {
    while (is_joint(*byte))
        byte++;
    return byte;
}

static bool is_plural_end(const char *end) {
    return (*end == 's' || *end == 'S') && *skip_joints(end + 1) == '\0';
}

typedef enum { NUMBER_MATTERS, NUMBER_ASIDE } Strictness; /* singular and plural */

static bool is_same(const char *a, const char *b, Strictness strictness) {
    for (;; a++, b++) {
        a = skip_joints(a);
        b = skip_joints(b);
        if (*a == '\0' || *b == '\0')
            return *a == *b ||
                   (strictness == NUMBER_ASIDE && (is_plural_end(a) || is_plural_end(b)));
        if (!text_same_letters((char[]){*a, '\0'}, (char[]){*b, '\0'}))
            return false;
    }
}

static int find(const char *written, const char *const *choices, int count,
                Strictness strictness) {
    for (int i = 0; i < count; i++) {
        if (is_same(written, choices[i], strictness))
            return i;
    }
    return -1;
}

int choice_find(const char *written, const char *const *choices, int count) {
    int place = find(written, choices, count, NUMBER_MATTERS);
    if (place < 0)
        place = find(written, choices, count, NUMBER_ASIDE);
    for (size_t i = 0; place < 0 && i < ALIAS_COUNT; i++) {
        if (ALIASES[i].kind == ALIAS_SAME && is_same(written, ALIASES[i].written, NUMBER_ASIDE))
            place = find(ALIASES[i].choice, choices, count, NUMBER_MATTERS);
    }
    return place;
}

/* ---- a word like it ---- */

#define GUESSES_MOST 6

typedef struct {
    const char *names[GUESSES_MOST];
    int count; /* of all there are; the names hold the first */
} Guesses;

static void add_guess(Guesses *guesses, const char *name) {
    if (guesses->count < GUESSES_MOST)
        guesses->names[guesses->count] = name;
    guesses->count++;
}

static Guesses other_words(const char *written, const char *const *choices, int count) {
    Guesses guesses = {.count = 0};
    for (size_t i = 0; i < ALIAS_COUNT; i++) {
        if (!is_same(written, ALIASES[i].written, NUMBER_ASIDE))
            continue;
        const int place = find(ALIASES[i].choice, choices, count, NUMBER_MATTERS);
        if (place >= 0)
            add_guess(&guesses, choices[place]);
    }
    return guesses;
}

#define LONGEST 100 /* bytes; a longer text is no choice and no name */

/* " oat straw " of "Oat_straw": words in small letters with a blank before and behind each. */
static char *words_of(Arena *arena, const char *text) {
    char *words = arena_take(arena, LONGEST + 3, 1);
    size_t length = 0;
    words[length++] = ' ';
    for (const char *byte = text; *byte && byte - text < LONGEST; byte++) {
        const char letter = *byte >= 'A' && *byte <= 'Z' ? (char)(*byte - 'A' + 'a') : *byte;
        const bool parts = is_joint(letter) || strchr("(),;/", letter);
        if (!parts)
            words[length++] = letter;
        else if (words[length - 1] != ' ')
            words[length++] = ' ';
    }
    if (words[length - 1] != ' ')
        words[length++] = ' ';
    words[length] = '\0';
    return words;
}

#define LEAST_LETTERS 3 /* of a word worth looking for in others */

/* Choices in which the whole of what was written begins a word: "alfalfa", "mineral", "Pit". */
static Guesses holding(Arena *arena, const char *written, const char *const *choices,
                       int count) {
    Guesses guesses = {.count = 0};
    char *part = words_of(arena, written);
    size_t length = strlen(part);
    if (length > 1)
        part[--length] = '\0'; /* without the blank behind */
    if (length > LEAST_LETTERS + 1 && part[length - 1] == 's')
        part[--length] = '\0';
    for (int i = 0; length > LEAST_LETTERS && i < count; i++) {
        if (strstr(words_of(arena, choices[i]), part))
            add_guess(&guesses, choices[i]);
    }
    return guesses;
}

static int shared_words(Arena *arena, const char *words, const char *choice) {
    const char *const others = words_of(arena, choice);
    int shared = 0;
    for (const char *word = words + 1; *word;) {
        const size_t length = strcspn(word, " ");
        char whole[LONGEST + 3];
        snprintf(whole, sizeof whole, " %.*s ", (int)length, word);
        shared += length >= LEAST_LETTERS && strstr(others, whole) != NULL;
        word += length + (word[length] == ' ');
    }
    return shared;
}

/* Choices that have the most words in common with what was written, if they are few. */
static Guesses sharing(Arena *arena, const char *written, const char *const *choices,
                       int count) {
    Guesses guesses = {.count = 0};
    int most = 1;
    const char *const words = words_of(arena, written);
    for (int i = 0; i < count; i++) {
        const int shared = shared_words(arena, words, choices[i]);
        if (shared < most)
            continue;
        if (shared > most)
            guesses.count = 0;
        most = shared;
        add_guess(&guesses, choices[i]);
    }
    if (guesses.count > GUESSES_MOST)
        guesses.count = 0;
    return guesses;
}

static const char *question(Arena *arena, const Guesses *guesses) {
    if (guesses->count == 1)
        return arena_print(arena, "did you mean '%s'?", guesses->names[0]);
    Text text = text_new(arena);
    const int named = guesses->count < GUESSES_MOST ? guesses->count : GUESSES_MOST;
    for (int i = 0; i < named; i++) {
        text_print(&text, "%s'%s'",
                   i == 0                                             ? "is it "
                   : i == named - 1 && guesses->count <= GUESSES_MOST ? " or "
                                                                      : ", ",
                   guesses->names[i]);
    }
    if (guesses->count > GUESSES_MOST)
        text_print(&text, " or another of the %d like it", guesses->count);
    text_add(&text, "?");
    return text.bytes;
}

const char *choice_guess(Arena *arena, const char *written, const char *const *choices,
                         int count) {
    if (strlen(written) > LONGEST)
        return NULL;
    Guesses guesses = other_words(written, choices, count);
    if (guesses.count == 0)
        guesses = holding(arena, written, choices, count);
    if (guesses.count == 0) {
        const char *const nearest = text_nearest(written, choices, count);
        if (nearest)
            add_guess(&guesses, nearest);
    }
    if (guesses.count == 0)
        guesses = sharing(arena, written, choices, count);
    return guesses.count > 0 ? question(arena, &guesses) : NULL;
}
