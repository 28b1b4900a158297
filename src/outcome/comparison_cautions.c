/* Cautions that come with a future, and those that go. */
#include "base/text.h"
#include "outcome/comparison.h"

static bool has_topic(const Future *future, const Caution *caution) {
    for (int i = 0; i < future->caution_count; i++) {
        if (text_same(future->cautions[i].topic, caution->topic) &&
            future->cautions[i].severity >= caution->severity)
            return true;
    }
    return false;
}

static void add_topics(Text *text, const Future *of, const Future *other) {
    const size_t before = text->length;
    for (int i = 0; i < of->caution_count; i++) {
        const Caution *caution = &of->cautions[i];
        const bool was_said = i > 0 && text_same(of->cautions[i - 1].topic, caution->topic);
        if (!was_said && !has_topic(other, caution))
            text_print(text, "%s%s", text->length > before ? ", " : "", caution->topic);
    }
    if (text->length == before)
        text_add(text, "none");
}

static int dangers_of(const Future *future, const char *topic) {
    int count = 0;
    for (int i = 0; i < future->caution_count; i++)
        count += future->cautions[i].severity == SEVERITY_DANGER &&
                 text_same(future->cautions[i].topic, topic);
    return count;
}

/* A topic both have may hold for more of the cattle, or longer, in one of them. */
static void add_more_dangers(Text *text, const Future *of, const Future *other) {
    for (int i = 0; i < of->caution_count; i++) {
        const char *topic = of->cautions[i].topic;
        const bool was_said = i > 0 && text_same(of->cautions[i - 1].topic, topic);
        const int here = dangers_of(of, topic), there = dangers_of(other, topic);
        if (!was_said && there > 0 && here > there)
            text_print(text, "; more dangers of %s: %d, where as it is there %s %d", topic,
                       here, there == 1 ? "is" : "are", there);
    }
}

void comparison_add_cautions(Report *report, const Comparison *comparison) {
    const Future *as_it_is = &comparison->futures[0];
    report_section(report, "cautions", "Cautions that come and go");
    for (int i = 1; i < comparison->count; i++) {
        const Future *future = &comparison->futures[i];
        Text text = text_new(report->arena);
        text_print(&text, "New with '%s': ", future->name);
        add_topics(&text, future, as_it_is);
        text_add(&text, "; gone: ");
        add_topics(&text, as_it_is, future);
        add_more_dangers(&text, future, as_it_is);
        report_paragraph(report, "%s.", text.bytes);
    }
    report_paragraph(
        report, "Plan the future you choose with `winterstack plan` before you feed it, and "
                "read its dangers and cautions there: talk it over with your veterinarian "
                "and a nutritionist. What is cheapest is not thereby safe.");
}
