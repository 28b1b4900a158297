#include "support/html_page.h"

#include <string.h>

enum { MOST_DEPTH = 64, MOST_CELLS = 20000 };

static const char *const TAGS[] = {
    "html",  "head",    "meta",    "link",    "title",  "style", "body",       "a",
    "p",     "header",  "main",    "footer",  "nav",    "ul",    "li",         "h1",
    "h2",    "h3",      "div",     "dl",      "dt",     "dd",    "span",       "small",
    "table", "caption", "thead",   "tbody",   "tr",     "th",    "td",         "figure",
    "svg",   "desc",    "defs",    "pattern", "rect",   "path",  "figcaption", "circle",
    "line",  "text",    "section", "details", "summary"};

static const char *const ATTRIBUTES[] = {"lang",
                                         "charset",
                                         "name",
                                         "content",
                                         "http-equiv",
                                         "rel",
                                         "href",
                                         "class",
                                         "id",
                                         "role",
                                         "aria-label",
                                         "scope",
                                         "data-key",
                                         "data-label",
                                         "fill",
                                         "x",
                                         "aria-labelledby",
                                         "y",
                                         "width",
                                         "height",
                                         "d",
                                         "cx",
                                         "cy",
                                         "r",
                                         "x1",
                                         "y1",
                                         "x2",
                                         "y2",
                                         "text-anchor",
                                         "aria-describedby",
                                         "viewBox",
                                         "stroke",
                                         "stroke-width",
                                         "patternUnits",
                                         "tabindex"};

static const char *const EMPTY_TAGS[] = {"meta", "link"};

typedef struct {
    Arena *arena;
    const char *page, *at;
    const char *fault;
    const char *open[MOST_DEPTH];
    int depth;
} Reader;

typedef struct {
    const char *name;
    bool is_closing, is_closed; /* "</p>"; "<rect/>" */
    const char *key;            /* its data-key, or NULL */
} Tag;

static bool is_among(const char *word, const char *const *words, size_t count) {
    for (size_t i = 0; i < count; i++) {
        if (text_same(word, words[i]))
            return true;
    }
    return false;
}
#define AMONG(word, words) is_among((word), (words), sizeof(words) / sizeof *(words))

static void blame(Reader *reader, const char *what) {
    if (!reader->fault)
        reader->fault = arena_print(reader->arena, "byte %ld: %s: %.40s",
                                    (long)(reader->at - reader->page), what, reader->at);
}

static const char *read_name(Reader *reader) {
    const size_t length = strspn(reader->at, "abcdefghijklmnopqrstuvwxyz"
                                             "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-");
    const char *name = arena_copy(reader->arena, reader->at, length);
    reader->at += length;
    return name;
}

/* Text up to one of `ends`, with its entities as letters. */
static const char *read_text(Reader *reader, const char *ends) {
    static const struct {
        const char *entity, *letter;
    } ENTITIES[] = {
        {"&amp;", "&"}, {"&lt;", "<"}, {"&gt;", ">"}, {"&quot;", "\""}, {"&#39;", "'"}};
    Text text = text_new(reader->arena);
    while (*reader->at && !strchr(ends, *reader->at) && !reader->fault) {
        const unsigned char letter = (unsigned char)*reader->at;
        size_t taken = 0;
        for (size_t i = 0; letter == '&' && i < sizeof ENTITIES / sizeof *ENTITIES; i++) {
            const size_t length = strlen(ENTITIES[i].entity);
            if (strncmp(reader->at, ENTITIES[i].entity, length) == 0) {
                text_add(&text, ENTITIES[i].letter);
                taken = length;
            }
        }
        if (letter == '>' || letter == '<' || (letter == '&' && taken == 0))
            blame(reader, "a bare mark of markup");
        if (letter == 0x7F || (letter < 0x20 && letter != '\n'))
            blame(reader, "a control character");
        if (taken == 0)
            text_add_bytes(&text, reader->at, 1);
        reader->at += taken > 0 ? taken : 1;
    }
    return text.bytes;
}

static void check_address(Reader *reader, const char *value) {
    if (value[0] != '#' && !text_same(value, "data:,"))
        blame(reader, "an address outside of the page");
}

static void read_attribute(Reader *reader, Tag *tag) {
    const char *name = read_name(reader);
    if (!AMONG(name, ATTRIBUTES))
        blame(reader, arena_print(reader->arena, "an attribute of no page: '%s'", name));
    if (strncmp(reader->at, "=\"", 2) != 0) {
        blame(reader, "an attribute without a quoted value");
        return;
    }
    reader->at += 2;
    const char *value = read_text(reader, "\"");
    if (*reader->at == '"')
        reader->at++;
    if (text_same(name, "href"))
        check_address(reader, value);
    if (text_same(name, "data-key"))
        tag->key = value;
}

static Tag read_tag(Reader *reader) {
    Tag tag = {.name = ""};
    reader->at++;
    tag.is_closing = *reader->at == '/';
    reader->at += tag.is_closing;
    tag.name = read_name(reader);
    if (!AMONG(tag.name, TAGS))
        blame(reader, arena_print(reader->arena, "a tag of no page: '%s'", tag.name));
    while (*reader->at == ' ' && !reader->fault) {
        reader->at++;
        read_attribute(reader, &tag);
    }
    tag.is_closed = *reader->at == '/';
    reader->at += tag.is_closed;
    if (*reader->at != '>')
        blame(reader, "a tag that does not end");
    else
        reader->at++;
    return tag;
}

static void follow(Reader *reader, const Tag *tag) {
    if (tag->is_closing) {
        if (reader->depth == 0 || !text_same(reader->open[reader->depth - 1], tag->name))
            blame(reader, arena_print(reader->arena, "'%s' closed out of turn", tag->name));
        else
            reader->depth--;
        return;
    }
    if (tag->is_closed || AMONG(tag->name, EMPTY_TAGS))
        return;
    if (reader->depth == MOST_DEPTH)
        blame(reader, "tags too deep");
    else
        reader->open[reader->depth++] = tag->name;
}

/* The style sheet is not text: up to its end as it is. */
static void skip_style(Reader *reader) {
    const char *end = strstr(reader->at, "</style>");
    if (end)
        reader->at = end;
    else
        blame(reader, "a style sheet that does not end");
}

static Reader begin(Arena *arena, const char *page) {
    static const char FIRST[] = "<!DOCTYPE html>\n";
    Reader reader = {.arena = arena, .page = page, .at = page};
    if (strncmp(page, FIRST, strlen(FIRST)) == 0)
        reader.at += strlen(FIRST);
    else
        blame(&reader, "no document type");
    return reader;
}

const char *html_fault(Arena *arena, const char *page) {
    Reader reader = begin(arena, page);
    if (text_first_bad_utf8(page, strlen(page)) >= 0)
        return "not UTF-8";
    while (*reader.at && !reader.fault) {
        if (*reader.at != '<') {
            read_text(&reader, "<");
            continue;
        }
        const Tag tag = read_tag(&reader);
        follow(&reader, &tag);
        if (text_same(tag.name, "style") && !tag.is_closing)
            skip_style(&reader);
    }
    if (!reader.fault && reader.depth > 0)
        blame(&reader, arena_print(arena, "'%s' is not closed", reader.open[reader.depth - 1]));
    return reader.fault;
}

static bool is_cell(const Tag *tag) {
    return text_same(tag->name, "th") || text_same(tag->name, "td");
}

/* All letters up to the end of the cell; a unit is parted from its label by a blank. */
static const char *read_cell(Reader *reader, const char *name) {
    Text text = text_new(reader->arena);
    while (*reader->at && !reader->fault) {
        if (*reader->at != '<') {
            text_add(&text, read_text(reader, "<"));
            continue;
        }
        const Tag tag = read_tag(reader);
        if (tag.is_closing && text_same(tag.name, name))
            break;
    }
    return text.bytes;
}

static HtmlTable *read_table(Reader *reader, const char *key) {
    HtmlTable *table = ARENA_NEW(reader->arena, HtmlTable);
    table->key = key;
    table->cells = ARENA_ARRAY(reader->arena, const char *, MOST_CELLS);
    int count = 0;
    while (*reader->at && !reader->fault) {
        if (*reader->at != '<') {
            read_text(reader, "<");
            continue;
        }
        const Tag tag = read_tag(reader);
        if (tag.is_closing && text_same(tag.name, "table"))
            break;
        if (text_same(tag.name, "tr") && tag.is_closing) {
            table->row_count++;
            table->column_count = count / table->row_count;
        }
        if (is_cell(&tag) && !tag.is_closing && count < MOST_CELLS)
            table->cells[count++] = read_cell(reader, tag.name);
    }
    return table;
}

const HtmlTable *html_tables(Arena *arena, const char *page) {
    Reader reader = begin(arena, page);
    HtmlTable *first = NULL;
    HtmlTable *last = NULL;
    while (*reader.at && !reader.fault) {
        if (*reader.at != '<') {
            read_text(&reader, "<");
            continue;
        }
        const Tag tag = read_tag(&reader);
        if (text_same(tag.name, "style") && !tag.is_closing)
            skip_style(&reader);
        if (!text_same(tag.name, "table") || tag.is_closing)
            continue;
        HtmlTable *table = read_table(&reader, tag.key ? tag.key : "");
        if (last)
            last->next = table;
        else
            first = table;
        last = table;
    }
    return first;
}
