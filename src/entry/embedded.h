/* The published tables of models/coefficients/, carried inside the program: it reads them with
 * the same table_parse as the farm's own files. The definitions are made by `make`
 * (tests/support/embed.awk) into embedded/embedded.c of the build folder. */
#ifndef ENTRY_EMBEDDED_H
#define ENTRY_EMBEDDED_H

#include <stddef.h>

typedef struct {
    const char *name;  /* the file's own name: "book_values.csv" */
    const char *bytes; /* ends with '\0' besides */
    size_t length;
} EmbeddedFile;

/* NULL: there is no such file. */
const EmbeddedFile *embedded_find(const char *name);

/* In the order of their names; *count of them. */
const EmbeddedFile *embedded_all(int *count);

#endif
