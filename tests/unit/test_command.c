#include "entry/command.h"

#include "support/unit.h"

#include <stdlib.h>
#include <string.h>

enum { MOST_ARGUMENTS = 16 };

/* The line cut at its blanks, as a shell would. */
static Command asked(Arena *arena, const char *line) {
    char *arguments[MOST_ARGUMENTS + 1] = {NULL};
    int count = 0;
    for (const char *at = line; *at; at += strspn(at, " ")) {
        const size_t length = strcspn(at, " ");
        assert_true(count < MOST_ARGUMENTS);
        arguments[count++] = arena_copy(arena, at, length);
        at += length;
    }
    return command_parse(arena, count, arguments);
}

static void assert_complaint(Arena *arena, const char *line, const char *complaint) {
    const Command command = asked(arena, line);
    assert_int_equal(command.wish, WISH_UNCLEAR);
    assert_string_equal(command.complaint, complaint);
}

static void a_command_has_a_herd_and_an_inventory(void **state) {
    const Command command = asked(*state, "winterstack plan herds/a.csv yard");
    assert_int_equal(command.wish, WISH_TASK);
    assert_int_equal(command.name, COMMAND_plan);
    assert_string_equal(command.herd_path, "herds/a.csv");
    assert_string_equal(command.inventory_folder, "yard");
    assert_false(command.units_were_asked);
    assert_int_equal(command.format, OUTPUT_TEXT);
    assert_null(command.out_path);
    assert_int_equal(command.width, 0);
    assert_null(command.complaint);
}

static void options_may_stand_anywhere_and_take_their_value_either_way(void **state) {
    static const char *const lines[] = {
        "winterstack --units imperial --format=json needs h --out f i --width 100",
        "winterstack needs h i --units=imperial --format json -o f --width=100",
        "winterstack -of --width 100 --format json --units imperial -- needs h i",
    };
    for (size_t i = 0; i < sizeof lines / sizeof *lines; i++) {
        const Command command = asked(*state, lines[i]);
        assert_int_equal(command.wish, WISH_TASK);
        assert_int_equal(command.name, COMMAND_needs);
        assert_string_equal(command.herd_path, "h");
        assert_string_equal(command.inventory_folder, "i");
        assert_true(command.units_were_asked);
        assert_int_equal(command.units, UNITS_IMPERIAL);
        assert_int_equal(command.format, OUTPUT_JSON);
        assert_string_equal(command.out_path, "f");
        assert_int_equal(command.width, 100);
    }
}

static void the_environment_does_not_change_how_options_are_read(void **state) {
    setenv("POSIXLY_CORRECT", "1", 1);
    const Command command = asked(*state, "winterstack plan h i --format json");
    unsetenv("POSIXLY_CORRECT");
    assert_int_equal(command.wish, WISH_TASK);
    assert_int_equal(command.format, OUTPUT_JSON);
}

static void after_two_dashes_a_path_may_begin_with_a_dash(void **state) {
    const Command command = asked(*state, "winterstack plan -- -herd.csv --help");
    assert_int_equal(command.wish, WISH_TASK);
    assert_string_equal(command.herd_path, "-herd.csv");
    assert_string_equal(command.inventory_folder, "--help");
}

static void the_tables_to_compare_with_books_go_with_needs(void **state) {
    assert_true(asked(*state, "winterstack needs h i --year-table").wants_year_table);
    assert_false(asked(*state, "winterstack needs h i").wants_year_table);
    assert_complaint(*state, "winterstack plan h i --year-table",
                     "--year-table goes with needs");
}

static void where_needs_come_from_and_how_cold_is_reckoned_may_be_asked(void **state) {
    const Command usual = asked(*state, "winterstack plan h i");
    assert_false(usual.needs_way_was_asked || usual.cold_way_was_asked);
    const Command other =
        asked(*state, "winterstack plan h i --requirements table --cold=model");
    assert_true(other.needs_way_was_asked && other.cold_way_was_asked);
    assert_int_equal(other.needs_way, NEEDS_BY_TABLE);
    assert_int_equal(other.cold_way, COLD_BY_MODEL);
    assert_complaint(*state, "winterstack plan h i --cold modl",
                     "--cold: 'modl' is not known; did you mean 'model'?");
}

static void a_comparison_takes_what_ifs_a_number_and_a_day(void **state) {
    const Command command =
        asked(*state, "winterstack compare h i a.csv b.csv "
                      "--vary for-sale,Barley,price_per_tonne,200,400 --ship 2026-11-15");
    assert_int_equal(command.wish, WISH_TASK);
    assert_int_equal(command.what_if_count, 2);
    assert_string_equal(command.what_if_paths[1], "b.csv");
    assert_string_equal(command.vary[VARY_FILE], "for-sale");
    assert_string_equal(command.vary[VARY_ROW], "Barley");
    assert_string_equal(command.vary[VARY_COLUMN], "price_per_tonne");
    assert_string_equal(command.vary[VARY_FROM], "200");
    assert_string_equal(command.vary[VARY_TO], "400");
    assert_true(command.wants_ship);
    assert_int_equal(command.ship_from.number, calendar_day(2026, 11, 15).number);
}

static void a_row_of_what_is_varied_may_have_commas_in_its_name(void **state) {
    const Command command =
        asked(*state, "winterstack compare h i --vary=stacks.csv,Hay,_east,count,10,20");
    assert_int_equal(command.wish, WISH_TASK);
    assert_string_equal(command.vary[VARY_ROW], "Hay,_east");
    assert_string_equal(command.vary[VARY_COLUMN], "count");
}

static void the_column_of_what_is_varied_may_be_left_empty_and_nothing_else(void **state) {
    const Command command =
        asked(*state, "winterstack compare h i --vary winter,last_day,,2027-05-01,2027-05-20");
    assert_int_equal(command.wish, WISH_TASK);
    assert_string_equal(command.vary[VARY_ROW], "last_day");
    assert_string_equal(command.vary[VARY_COLUMN], "");
    assert_complaint(*state, "winterstack compare h i --vary winter,,value,1,2",
                     "--vary: 'winter,,value,1,2' is not FILE,ROW,COLUMN,FROM,TO, as in "
                     "'for-sale.csv,Feed barley,price_per_tonne,200,400'");
}

static void a_comparison_of_nothing_or_by_half_is_not_understood(void **state) {
    assert_complaint(*state, "winterstack compare h i",
                     "compare wants a what-if to set beside the farm, --vary or --ship");
    assert_complaint(*state, "winterstack plan h i --ship 2026-11-15",
                     "--ship goes with compare");
    assert_complaint(*state, "winterstack compare h i --vary a,b,1,2",
                     "--vary: 'a,b,1,2' is not FILE,ROW,COLUMN,FROM,TO, as in "
                     "'for-sale.csv,Feed barley,price_per_tonne,200,400'");
    assert_complaint(*state, "winterstack compare h i --vary ,,,,",
                     "--vary: ',,,,' is not FILE,ROW,COLUMN,FROM,TO, as in "
                     "'for-sale.csv,Feed barley,price_per_tonne,200,400'");
    assert_complaint(*state, "winterstack compare h i --ship soon",
                     "--ship: 'soon' is not a date: write year-month-day, as in 2026-11-01");
}

static void a_dash_as_output_is_standard_output(void **state) {
    assert_null(asked(*state, "winterstack plan h i --out -").out_path);
    assert_null(asked(*state, "winterstack plan h i --out f -o -").out_path);
}

static void the_program_alone_or_asked_for_help_explains_itself(void **state) {
    Command command = asked(*state, "winterstack");
    assert_int_equal(command.wish, WISH_HELP);
    assert_int_equal(command.name, COMMAND_COUNT);
    command = asked(*state, "winterstack --help");
    assert_int_equal(command.wish, WISH_HELP);
    assert_int_equal(command.name, COMMAND_COUNT);
    command = asked(*state, "winterstack plan -h");
    assert_int_equal(command.wish, WISH_HELP);
    assert_int_equal(command.name, COMMAND_plan);
    assert_int_equal(asked(*state, "winterstack --version").wish, WISH_VERSION);
}

static void the_overview_names_every_command(void **state) {
    Text help = text_new(*state);
    command_help(COMMAND_COUNT, &help);
    for (int name = 0; name < COMMAND_COUNT; name++) {
        const char *row = arena_print(*state, "\n  %s ", command_word((CommandName)name));
        assert_non_null(strstr(help.bytes, row));
    }
}

static void the_help_of_a_command_shows_how_it_is_called(void **state) {
    Text help = text_new(*state);
    command_help(COMMAND_needs, &help);
    assert_non_null(strstr(help.bytes, "\n  winterstack needs HERD INVENTORY [options]\n"));
    assert_non_null(strstr(help.bytes, "--units metric|imperial"));
    assert_non_null(strstr(help.bytes, "--format text|html|json|csv"));
}

static void no_line_of_help_is_wider_than_a_usual_page(void **state) {
    for (int name = 0; name <= COMMAND_COUNT; name++) {
        Text help = text_new(*state);
        command_help((CommandName)name, &help);
        const char *line = help.bytes;
        for (const char *end; (end = strchr(line, '\n')); line = end + 1)
            if (end - line > USUAL_WIDTH)
                fail_msg("%.*s", (int)(end - line), line);
    }
}

static void a_feeding_is_a_group_a_stack_and_an_amount(void **state) {
    const Command command = asked(*state, "winterstack fed h i --group Cows --stack Pit "
                                          "--weight 1200kg --date 2026-11-30");
    assert_int_equal(command.wish, WISH_TASK);
    assert_false(command.record.is_recount);
    assert_string_equal(command.record.group, "Cows");
    assert_string_equal(command.record.stack, "Pit");
    assert_string_equal(command.record.number, "1200");
    assert_int_equal(command.record.unit, AMOUNT_KG);
    assert_int_equal(calendar_days_between(calendar_day(2026, 11, 30), command.record.date), 0);
}

static void a_count_is_of_a_whole_stack(void **state) {
    const Command bales = asked(*state, "winterstack fed h i --stack Hay --left-bales 41");
    assert_true(bales.wish == WISH_TASK && bales.record.is_recount);
    const Command weight = asked(*state, "winterstack fed h i --stack Hay --left-weight 12t");
    assert_true(weight.record.is_recount && weight.record.unit == AMOUNT_TONNES);
    const Command none = asked(*state, "winterstack fed h i --stack Hay --empty");
    assert_true(none.record.is_recount);
    assert_string_equal(none.record.number, "0");
}

#define SEE "; see winterstack fed --help"

static void an_entry_that_lacks_something_is_told_what(void **state) {
    assert_complaint(*state, "winterstack fed h i",
                     "say how much: --bales or --weight was fed, or --left-bales, "
                     "--left-weight or --empty was counted" SEE);
    assert_complaint(*state, "winterstack fed h i --bales 6 --group Cows",
                     "--stack is missing: the stack it is of" SEE);
    assert_complaint(*state, "winterstack fed h i --bales 6 --stack Hay",
                     "--group is missing: the group it was fed to" SEE);
    assert_complaint(*state, "winterstack fed h i --empty --stack Hay --group Cows",
                     "--group goes with a feeding; a count is of the whole stack" SEE);
    assert_complaint(*state, "winterstack fed h i --bales 6 --empty --stack Hay",
                     "the amount is there twice; give one of --bales, --weight, --left-bales, "
                     "--left-weight, --empty" SEE);
    assert_complaint(*state, "winterstack fed h i --bales 0 --stack Hay --group Cows",
                     "nothing was fed; an empty stack is written with --empty" SEE);
    assert_complaint(*state, "winterstack fed h i --undo --stack Hay",
                     "--undo stands alone; leave --stack out" SEE);
}

static void an_amount_or_a_date_nobody_can_read_is_refused_with_the_cure(void **state) {
    assert_complaint(*state, "winterstack fed h i --bales six --stack Hay --group Cows",
                     "--bales: 'six' is not a number of bales; write it in digits, as in 6");
    assert_complaint(*state, "winterstack fed h i --bales -6 --stack Hay --group Cows",
                     "--bales: '-6' is not a number of bales; write it in digits, as in 6");
    assert_complaint(
        *state, "winterstack fed h i --weight 1200 --stack Hay --group Cows",
        "--weight: '1200' is not a weight; write the number and its unit together: "
        "1200kg, 2600lb, 1.2t (tonne) or 1.3tons (2,000 lb)");
    assert_complaint(*state, "winterstack fed h i --weight 6bales --stack Hay --group Cows",
                     "--weight: '6bales' is not a weight; bales go with --bales or "
                     "--left-bales");
    assert_complaint(*state, "winterstack fed h i --date 30.11.2026 --bales 1 --stack Hay",
                     "--date: '30.11.2026' is not in the form year-month-day: write "
                     "2026-11-30");
    assert_complaint(*state, "winterstack fed h i --note a --note b --empty --stack Hay",
                     "--note is there twice; an entry has one of each");
}

static void the_day_of_the_stock_typed_as_that_of_a_feeding_is_named(void **state) {
    assert_complaint(*state, "winterstack stock h i --date 2026-12-07",
                     "--date goes with fed; the day here is --from");
    assert_complaint(*state, "winterstack needs h i --date 2026-12-07", "--date goes with fed");
}

static void
options_of_the_record_and_of_the_rest_of_winter_keep_to_their_commands(void **state) {
    assert_complaint(*state, "winterstack plan h i --bales 6", "--bales goes with fed");
    assert_complaint(*state, "winterstack needs h i --from 2026-12-01",
                     "--from goes with plan, stock and compare");
    assert_complaint(*state, "winterstack stock h i --keep", "--keep goes with plan");
    const Command plan = asked(*state, "winterstack plan h i --from 2026-12-01 --keep");
    assert_true(plan.wish == WISH_TASK && plan.has_from && plan.wants_keeping);
}

static void help_may_be_typed_as_a_command(void **state) {
    const Command overview = asked(*state, "winterstack help");
    assert_true(overview.wish == WISH_HELP && overview.name == COMMAND_COUNT);
    const Command of_plan = asked(*state, "winterstack help plan");
    assert_true(of_plan.wish == WISH_HELP && of_plan.name == COMMAND_plan);
    assert_complaint(*state, "winterstack help pln",
                     "unknown command 'pln'; did you mean 'plan'?");
}

static void a_plan_in_brief_draws_hard_winters_only_where_they_are_asked_for(void **state) {
    assert_complaint(*state, "winterstack stock h i --brief", "--brief goes with plan");
    const Command brief = asked(*state, "winterstack plan h i --brief");
    assert_true(brief.wish == WISH_TASK && brief.wants_brief);
    assert_int_equal(brief.winters, 0);
    assert_int_equal(asked(*state, "winterstack plan h i --winters 50 --brief").winters, 50);
    const Command cheapest = asked(*state, "winterstack plan h i --cheapest");
    assert_true(cheapest.wants_cheapest && cheapest.wants_brief && cheapest.winters == 0);
    const Command whole = asked(*state, "winterstack plan h i");
    assert_false(whole.wants_brief);
    assert_int_equal(whole.winters, USUAL_WINTERS);
}

static void days_of_cutting_and_the_feed_to_buy_go_with_cut(void **state) {
    const Command command = asked(
        *state, "winterstack cut h i --cut-on 2027-07-20 --cut-on=2027-08-12 --buy Barley");
    assert_int_equal(command.wish, WISH_TASK);
    assert_int_equal(command.name, COMMAND_cut);
    assert_int_equal(command.date_count, 2);
    assert_int_equal(calendar_days_between(command.dates[0], command.dates[1]), 23);
    assert_string_equal(command.buy, "Barley");
    assert_complaint(*state, "winterstack plan h i --buy Barley", "--buy goes with cut");
    assert_complaint(
        *state, "winterstack cut h i --cut-on 20-7-2027",
        "--cut-on: '20-7-2027' is not in the form year-month-day: write 2027-07-20");
    assert_complaint(
        *state,
        "winterstack cut h i --cut-on 2027-07-20 --cut-on 2027-08-12 --cut-on 2027-09-01",
        "--cut-on: at most two days of cutting are compared");
}

static void an_unknown_command_is_answered_with_the_nearest_or_all(void **state) {
    assert_complaint(*state, "winterstack plna h i",
                     "unknown command 'plna'; did you mean 'plan'?");
    assert_complaint(*state, "winterstack dance h i",
                     "unknown command 'dance'; the commands are check, feeds, needs, plan, "
                     "stock, fed, compare, cut, worth");
    assert_complaint(*state, "winterstack plna --help",
                     "unknown command 'plna'; did you mean 'plan'?");
}

static void an_unknown_option_is_answered_with_the_nearest(void **state) {
    assert_complaint(*state, "winterstack plan h i --formt json",
                     "unknown option '--formt'; did you mean '--format'?");
    assert_complaint(*state, "winterstack plan h i --wdith=90",
                     "unknown option '--wdith'; did you mean '--width'?");
    assert_complaint(*state, "winterstack plan h i --colour",
                     "unknown option '--colour'; see winterstack --help");
    assert_complaint(*state, "winterstack plan h i -x",
                     "unknown option '-x'; see winterstack --help");
    assert_complaint(*state, "winterstack --help=all", "--help takes no value");
}

static void a_format_is_one_of_four(void **state) {
    assert_int_equal(asked(*state, "winterstack plan h i --format html").format, OUTPUT_HTML);
    assert_int_equal(asked(*state, "winterstack plan h i --format csv").format, OUTPUT_CSV);
    assert_true(asked(*state, "winterstack plan h i --format text").format_was_asked);
    assert_false(asked(*state, "winterstack plan h i").format_was_asked);
    assert_complaint(*state, "winterstack plan h i --format yaml",
                     "--format: 'yaml' is not known; it is text, html, json or csv");
}

static void the_end_of_a_path_says_the_format_where_none_was_asked(void **state) {
    assert_int_equal(asked(*state, "winterstack plan h i -o a.html").format, OUTPUT_HTML);
    assert_int_equal(asked(*state, "winterstack plan h i -o a.b/c.CSV").format, OUTPUT_CSV);
    assert_int_equal(asked(*state, "winterstack plan h i -o a.json").format, OUTPUT_JSON);
    assert_int_equal(asked(*state, "winterstack plan h i -o a.txt").format, OUTPUT_TEXT);
    assert_int_equal(asked(*state, "winterstack plan h i -o html").format, OUTPUT_TEXT);
    assert_int_equal(asked(*state, "winterstack plan h i -o a.html --format text").format,
                     OUTPUT_TEXT);
}

static void units_are_one_of_three(void **state) {
    assert_int_equal(asked(*state, "winterstack plan h i --units metric").units, UNITS_METRIC);
    assert_int_equal(asked(*state, "winterstack plan h i --units mixed").units, UNITS_MIXED);
    assert_complaint(*state, "winterstack plan h i --units imperal",
                     "--units: 'imperal' is not known; did you mean 'imperial'?");
    assert_complaint(*state, "winterstack plan h i --units pounds",
                     "--units: 'pounds' is not known; it is metric, imperial or mixed");
}

static void a_width_is_a_whole_number_that_fits_a_page(void **state) {
    assert_int_equal(asked(*state, "winterstack plan h i --width 60").width, 60);
    assert_int_equal(asked(*state, "winterstack plan h i --width 200").width, 200);
    static const char *const wrong[] = {"59",  "201", "80.5", "wide",
                                        "-80", "+80", "0x50", "99999999999999999999"};
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++)
        assert_complaint(
            *state, arena_print(*state, "winterstack plan h i --width=%s", wrong[i]),
            arena_print(*state, "--width: '%s' is not a whole number from 60 to 200 columns",
                        wrong[i]));
}

static void winters_are_drawn_by_number_and_seed(void **state) {
    const Command usual = asked(*state, "winterstack plan h i");
    assert_int_equal(usual.winters, USUAL_WINTERS);
    assert_true(usual.seed == 1);
    const Command other = asked(*state, "winterstack plan h i --winters=0 --seed 77");
    assert_int_equal(other.winters, 0);
    assert_true(other.seed == 77);
    assert_complaint(*state, "winterstack plan h i --winters 100001",
                     "--winters: '100001' is not a whole number from 0 to 100000");
    assert_complaint(*state, "winterstack plan h i --seed -1",
                     "--seed: '-1' is not a whole number from 0 to 999999999999999999");
    assert_complaint(*state, "winterstack needs h i --seed 2",
                     "--seed goes with plan, stock and compare");
}

static void a_missing_value_or_path_is_named(void **state) {
    assert_complaint(*state, "winterstack plan h i --width", "--width needs a value after it");
    assert_complaint(*state, "winterstack plan h i -o", "-o needs a value after it");
    assert_complaint(
        *state, "winterstack plan",
        "HERD and INVENTORY are missing: winterstack plan HERD INVENTORY [options]");
    assert_complaint(*state, "winterstack check h",
                     "INVENTORY, the folder of its feed, is missing: "
                     "winterstack check HERD INVENTORY [options]");
    assert_complaint(*state, "winterstack --format json",
                     "no command was named; see winterstack --help");
    assert_complaint(*state, "winterstack plan h i --out=",
                     "--out: the path is empty; name a file, or - for standard output");
}

static void an_argument_too_many_is_refused(void **state) {
    assert_complaint(*state, "winterstack plan h i j",
                     "'j' is one too many: a command takes HERD and INVENTORY, and options");
}

static void an_empty_path_is_a_missing_one(void **state) {
    char program[] = "winterstack", plan[] = "plan", herd[] = "", inventory[] = "i";
    char *const arguments[] = {program, plan, herd, inventory, NULL};
    const Command command = command_parse(*state, 4, arguments);
    assert_int_equal(command.wish, WISH_UNCLEAR);
    assert_string_equal(command.complaint, "HERD, the file of the cattle, is missing: "
                                           "winterstack plan HERD INVENTORY [options]");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(a_command_has_a_herd_and_an_inventory),
        UNIT_TEST(options_may_stand_anywhere_and_take_their_value_either_way),
        UNIT_TEST(the_environment_does_not_change_how_options_are_read),
        UNIT_TEST(after_two_dashes_a_path_may_begin_with_a_dash),
        UNIT_TEST(the_tables_to_compare_with_books_go_with_needs),
        UNIT_TEST(where_needs_come_from_and_how_cold_is_reckoned_may_be_asked),
        UNIT_TEST(a_comparison_takes_what_ifs_a_number_and_a_day),
        UNIT_TEST(a_row_of_what_is_varied_may_have_commas_in_its_name),
        UNIT_TEST(the_column_of_what_is_varied_may_be_left_empty_and_nothing_else),
        UNIT_TEST(a_comparison_of_nothing_or_by_half_is_not_understood),
        UNIT_TEST(a_dash_as_output_is_standard_output),
        UNIT_TEST(the_program_alone_or_asked_for_help_explains_itself),
        UNIT_TEST(the_overview_names_every_command),
        UNIT_TEST(the_help_of_a_command_shows_how_it_is_called),
        UNIT_TEST(no_line_of_help_is_wider_than_a_usual_page),
        UNIT_TEST(days_of_cutting_and_the_feed_to_buy_go_with_cut),
        UNIT_TEST(a_feeding_is_a_group_a_stack_and_an_amount),
        UNIT_TEST(a_count_is_of_a_whole_stack),
        UNIT_TEST(an_entry_that_lacks_something_is_told_what),
        UNIT_TEST(an_amount_or_a_date_nobody_can_read_is_refused_with_the_cure),
        UNIT_TEST(options_of_the_record_and_of_the_rest_of_winter_keep_to_their_commands),
        UNIT_TEST(help_may_be_typed_as_a_command),
        UNIT_TEST(a_plan_in_brief_draws_hard_winters_only_where_they_are_asked_for),
        UNIT_TEST(an_unknown_command_is_answered_with_the_nearest_or_all),
        UNIT_TEST(an_unknown_option_is_answered_with_the_nearest),
        UNIT_TEST(a_format_is_one_of_four),
        UNIT_TEST(the_end_of_a_path_says_the_format_where_none_was_asked),
        UNIT_TEST(units_are_one_of_three),
        UNIT_TEST(a_width_is_a_whole_number_that_fits_a_page),
        UNIT_TEST(the_day_of_the_stock_typed_as_that_of_a_feeding_is_named),
        UNIT_TEST(winters_are_drawn_by_number_and_seed),
        UNIT_TEST(a_missing_value_or_path_is_named),
        UNIT_TEST(an_argument_too_many_is_refused),
        UNIT_TEST(an_empty_path_is_a_missing_one),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
