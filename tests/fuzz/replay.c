/* Feeds every file named to the fuzz target it is linked with: the kept inputs are tried in
 * every run of the tests, with any compiler. */
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

/* NULL when the file cannot be read. */
static uint8_t *read_file(const char *path, size_t *size) {
    FILE *const file = fopen(path, "rb");
    if (!file)
        return NULL;
    uint8_t *bytes = NULL;
    long end = -1;
    if (fseek(file, 0, SEEK_END) == 0)
        end = ftell(file);
    if (end >= 0 && fseek(file, 0, SEEK_SET) == 0)
        bytes = malloc((size_t)end + 1);
    if (bytes)
        *size = fread(bytes, 1, (size_t)end, file);
    fclose(file);
    return bytes;
}

int main(int count, char **paths) {
    for (int i = 1; i < count; i++) {
        size_t size = 0;
        uint8_t *const read = read_file(paths[i], &size);
        /* in a piece of its exact size, so that the address sanitizer sees an overrun */
        uint8_t *const exact = read ? realloc(read, size > 0 ? size : 1) : NULL;
        if (!exact) {
            fprintf(stderr, "%s: cannot be read\n", paths[i]);
            return EXIT_FAILURE;
        }
        LLVMFuzzerTestOneInput(exact, size);
        free(exact);
    }
    return EXIT_SUCCESS;
}
