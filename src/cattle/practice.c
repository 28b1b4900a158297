#include "cattle/practice.h"
#include "base/text.h"
#include <assert.h>

typedef struct {
    PracticeChoice choice;
    const char *setting, *line;
} PracticeKind;

static const PracticeKind KINDS[PRACTICE_COUNT] = {
#define PRACTICE(id, choice, setting, line) {CHOICE_##choice, setting, line},
#include "cattle/practice.def"
#undef PRACTICE
};

int practice_settings(PracticeChoice choice, const char *names[PRACTICE_COUNT]) {
    int count = 0;
    for (int i = 0; i < PRACTICE_COUNT; i++) {
        if (KINDS[i].choice == choice)
            names[count++] = KINDS[i].setting;
    }
    return count;
}

Practice practice_at(PracticeChoice choice, int place) {
    for (int i = 0; i < PRACTICE_COUNT; i++) {
        if (KINDS[i].choice == choice && place-- == 0)
            return (Practice)i;
    }
    assert(!"a choice has no practice at that place");
    return PRACTICE_STRICT;
}

bool practice_find(const char *line, Practice *practice) {
    for (int i = 0; i < PRACTICE_COUNT; i++) {
        if (text_same(KINDS[i].line, line)) {
            *practice = (Practice)i;
            return true;
        }
    }
    return false;
}
