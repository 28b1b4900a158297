#include "base/arena.h"

#include "support/unit.h"
#include <stdint.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

static void a_piece_is_zeroed_and_aligned(void **state) {
    for (size_t size = 0; size < 300; size += 7) {
        unsigned char *const piece = arena_take(*state, size, 1);
        assert_non_null(piece);
        assert_int_equal((uintptr_t)piece % _Alignof(max_align_t), 0);
        for (size_t i = 0; i < size; i++) {
            assert_int_equal(piece[i], 0);
            piece[i] = 0xFF; /* the next one must be zero all the same */
        }
    }
}

static void pieces_do_not_overlap(void **state) {
    enum { COUNT = 2000 };
    int *pieces[COUNT];
    for (int i = 0; i < COUNT; i++) {
        pieces[i] = ARENA_ARRAY(*state, int, 13);
        for (int k = 0; k < 13; k++)
            pieces[i][k] = i;
    }
    for (int i = 0; i < COUNT; i++) {
        for (int k = 0; k < 13; k++)
            assert_int_equal(pieces[i][k], i);
    }
}

static void a_piece_may_be_larger_than_a_block(void **state) {
    char *const before = arena_copy(*state, "before", 6);
    const size_t size = 3000000;
    char *const large = arena_take(*state, size, 1);
    memset(large, 'x', size);
    char *const after = arena_copy(*state, "after", 5);
    assert_string_equal(before, "before");
    assert_string_equal(after, "after");
}

static void a_copy_ends_with_zero(void **state) {
    assert_string_equal(arena_copy(*state, "barley straw", 6), "barley");
    assert_string_equal(arena_copy(*state, "", 0), "");
}

static void printing_takes_as_much_as_it_needs(void **state) {
    char *const text = arena_print(*state, "%s:%d:%1000s", "herd.csv", 7, "x");
    assert_int_equal(strlen(text), strlen("herd.csv:7:") + 1000);
    assert_memory_equal(text, "herd.csv:7: ", 12);
}

static void closing_nothing_is_allowed(void **state) {
    (void)state;
    arena_close(NULL);
}

/* The exit code of a child that takes count * size; it prints nothing. */
static int exit_code_of_taking(size_t count, size_t size) {
    const pid_t child = fork();
    if (child == 0) {
        Arena *const arena = arena_open();
        volatile const void *const piece = arena_take(arena, count, size);
        (void)piece;
        _exit(0);
    }
    int status = 0;
    assert_int_equal(waitpid(child, &status, 0), child);
    assert_true(WIFEXITED(status));
    return WEXITSTATUS(status);
}

static void a_size_that_overflows_ends_with_70(void **state) {
    (void)state;
    assert_int_equal(exit_code_of_taking(SIZE_MAX / 2, 3), 70);
    assert_int_equal(exit_code_of_taking(SIZE_MAX, 1), 70);
}

/* The leak check sees it when the child is not closed with its parent. */
static void what_is_adopted_is_closed_with_its_parent(void **state) {
    (void)state;
    Arena *parent = arena_open();
    Arena *child = arena_open();
    char *text = arena_copy(child, "kept", 4);
    arena_adopt(parent, child);
    Arena *second = arena_open();
    arena_adopt(parent, second);
    char *more = arena_copy(child, "more", 4);
    assert_string_equal(text, "kept");
    assert_string_equal(more, "more");
    arena_close(parent);
}

/* The leak check sees one that its parent forgot, and the address check one it closes again. */
static void what_is_adopted_may_be_closed_before_its_parent(void **state) {
    (void)state;
    enum { CHILDREN = 3 };
    for (int closed = 0; closed < CHILDREN; closed++) {
        Arena *parent = arena_open();
        Arena *child[CHILDREN];
        for (int i = 0; i < CHILDREN; i++) {
            child[i] = arena_open();
            arena_adopt(parent, child[i]);
        }
        const char *text = arena_copy(child[(closed + 1) % CHILDREN], "kept", 4);
        arena_close(child[closed]);
        assert_string_equal(text, "kept");
        arena_close(parent);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(a_piece_is_zeroed_and_aligned),
        UNIT_TEST(pieces_do_not_overlap),
        UNIT_TEST(a_piece_may_be_larger_than_a_block),
        UNIT_TEST(a_copy_ends_with_zero),
        UNIT_TEST(printing_takes_as_much_as_it_needs),
        cmocka_unit_test(closing_nothing_is_allowed),
        cmocka_unit_test(what_is_adopted_is_closed_with_its_parent),
        cmocka_unit_test(what_is_adopted_may_be_closed_before_its_parent),
        cmocka_unit_test(a_size_that_overflows_ends_with_70),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
