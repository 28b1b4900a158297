#include "outcome/practice_words.h"
#include "base/text.h"

static void add_note(Text *text, const Winter *winter, PracticeChoice choice) {
    text_print(text, " It was chosen in winter.csv; the note there: \"%s\".",
               winter->practice_note[choice]);
}

const char *practice_words(Arena *arena, const Winter *winter) {
    Text text = text_new(arena);
    if (winter_follows(winter, PRACTICE_PRAIRIE)) {
        text_add(&text,
                 "Nitrate in pregnancy follows the prairie practice: until 60 days before "
                 "calving cows may have a feed above 0.885 % NO3, up to 35 % of the diet, if "
                 "the whole diet stays within 0.50 %; other tables allow them no such feed.");
        add_note(&text, winter, CHOICE_NITRATE);
    } else {
        text_add(&text, "Nitrate in pregnancy follows the strict practice: no feed above 0.885 "
                        "% NO3 for pregnant cows (nitrate_practice in winter.csv).");
    }
    if (winter_follows(winter, PRACTICE_SULFUR_FORAGE)) {
        text_add(&text, " Sulfur is let up to 0.50 % of a diet that is 40 % forage or more, "
                        "instead of 0.40 %, and less with less forage.");
        add_note(&text, winter, CHOICE_SULFUR);
    }
    return text.bytes;
}
