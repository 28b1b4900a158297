#include "outcome/figure.h"

#include "support/unit.h"

#include <math.h>

static void members_stay_in_the_order_added(void **state) {
    Figure *root = figure_object(*state);
    figure_text(root, "verdict", "balanced");
    figure_number(root, "cost", 12.5);
    figure_truth(root, "is_mixed", true);

    const Figure *member = root->first;
    assert_string_equal(member->key, "verdict");
    assert_string_equal(member->text, "balanced");
    member = member->next;
    assert_string_equal(member->key, "cost");
    assert_true(member->number == 12.5);
    member = member->next;
    assert_int_equal(member->kind, FIGURE_TRUTH);
    assert_true(member->truth);
    assert_ptr_equal(member, root->last);
    assert_null(member->next);
}

static void an_unknown_number_is_nothing_and_never_zero(void **state) {
    Figure *root = figure_object(*state);
    figure_number(root, "a", NAN);
    figure_number(root, "b", INFINITY);
    figure_number(root, "c", -INFINITY);
    figure_list_number(figure_list(root, "d"), NAN);
    for (const Figure *member = root->first; member != root->last; member = member->next)
        assert_int_equal(member->kind, FIGURE_NOTHING);
    assert_int_equal(root->last->first->kind, FIGURE_NOTHING);
}

static void a_text_that_is_not_there_is_nothing(void **state) {
    Figure *root = figure_object(*state);
    figure_text(root, "note", NULL);
    figure_nothing(root, "more");
    figure_list_text(figure_list(root, "list"), NULL);
    assert_int_equal(root->first->kind, FIGURE_NOTHING);
    assert_int_equal(root->first->next->kind, FIGURE_NOTHING);
    assert_int_equal(root->last->first->kind, FIGURE_NOTHING);
}

static void elements_of_a_list_have_no_key(void **state) {
    Figure *root = figure_object(*state);
    Figure *list = figure_list(root, "groups");
    figure_list_text(list, "cows");
    figure_list_number(list, 3);
    Figure *group = figure_list_object(list);
    figure_number(group, "head", 120);
    for (const Figure *element = list->first; element; element = element->next)
        assert_null(element->key);
    assert_ptr_equal(list->last, group);
    assert_string_equal(group->first->key, "head");
}

static void a_child_is_filled_through_what_is_handed_back(void **state) {
    Figure *root = figure_object(*state);
    Figure *cost = figure_child(root, "cost");
    figure_number(cost, "total", 7);
    assert_int_equal(root->first->kind, FIGURE_OBJECT);
    assert_string_equal(root->first->first->key, "total");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(members_stay_in_the_order_added),
        UNIT_TEST(an_unknown_number_is_nothing_and_never_zero),
        UNIT_TEST(a_text_that_is_not_there_is_nothing),
        UNIT_TEST(elements_of_a_list_have_no_key),
        UNIT_TEST(a_child_is_filled_through_what_is_handed_back),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
