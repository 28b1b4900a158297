# winterstack: `make demo` shows a plan, `make check` tests everything, `make help` lists the rest.

VERSION := 1.0
MODE    := release
PREFIX  := /usr/local
SECONDS := 60
CASE    :=

CC    := gcc
CLANG := clang-14

# One folder a layer, from the bottom up; a layer includes only itself and those before it.
LAYERS := base feedstuff cattle stock planner outcome present entry

# Debian packages, one list a purpose. Missing ones are installed; INSTALL=no only says which.
PACKAGES_BUILD    := gcc libc6-dev libglpk-dev libcsv-dev
PACKAGES_CHECK    := $(PACKAGES_BUILD) libcmocka-dev glpk-utils coinor-clp jq
PACKAGES_VALGRIND := valgrind libc6-dbg
PACKAGES_COVERAGE := gcovr
PACKAGES_FUZZ     := clang-14 libclang-rt-14-dev
PACKAGES_FORMAT   := clang-format-14
PACKAGES_LINT     := clang-tidy-14 cppcheck codespell shellcheck
PACKAGES_BENCH    := time
PACKAGES_BROWSER  := chromium fonts-liberation $(if $(shell command -v npm),,nodejs npm)

WARNINGS := -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wdouble-promotion -Wformat=2 \
            -Wundef -Wstrict-prototypes -Wmissing-prototypes -Wwrite-strings -Wcast-qual \
            -Wswitch-enum -Wvla -Werror
GCC_WARNINGS := -Wlogical-op -Wduplicated-cond -Wnull-dereference

# Asserts stay on in every mode: the program is small, and wrong numbers are worse than a stop.
# Under the sanitizers gcc sees null where there is none, so that warning is left to release.
CPPFLAGS := -D_POSIX_C_SOURCE=200809L -DWINTERSTACK_VERSION='"$(VERSION)"' -Isrc
CFLAGS   := -std=c17 $(WARNINGS) $(GCC_WARNINGS) -ffp-contract=off
LDFLAGS  :=
LDLIBS   := -lglpk -lcsv -lm

ifeq ($(MODE),release)
CPPFLAGS += -D_FORTIFY_SOURCE=2
CFLAGS   += -O2 -fstack-protector-strong
else ifeq ($(MODE),debug)
CFLAGS   += -O0 -g
else ifeq ($(MODE),sanitize)
SANITIZE := -fsanitize=address,undefined -fno-sanitize-recover=all
CPPFLAGS += -DARENA_BLOCK_BYTES=1
CFLAGS   += -O1 -g -fno-omit-frame-pointer -Wno-null-dereference $(SANITIZE)
LDFLAGS  += $(SANITIZE)
else ifeq ($(MODE),coverage)
CFLAGS   += -O0 -g --coverage
LDFLAGS  += --coverage
else ifeq ($(MODE),fuzz)
SANITIZE := -fsanitize=address,undefined -fno-sanitize-recover=all
CC       := $(CLANG)
CPPFLAGS += -DARENA_BLOCK_BYTES=1
CFLAGS   := -std=c17 -Wall -Wextra -Werror -ffp-contract=off -O1 -g $(SANITIZE) \
            -fsanitize=fuzzer-no-link
LDFLAGS  += $(SANITIZE)
else
$(error MODE is debug, release, sanitize or coverage, not '$(MODE)')
endif

# ------------------------------------------------------------------------------------------------

BUILD   := build/$(MODE)
PROGRAM := $(BUILD)/winterstack
LIBRARY := $(BUILD)/library.a

SOURCES := $(sort $(foreach layer,$(LAYERS),$(wildcard src/$(layer)/*.c)))
HEADERS := $(sort $(foreach layer,$(LAYERS),$(wildcard src/$(layer)/*.h)))
TABLES  := $(sort $(wildcard models/coefficients/*.csv))

MAIN_OBJECT     := $(BUILD)/src/entry/main.o
EMBEDDED_OBJECT := $(BUILD)/embedded/embedded.o
LIBRARY_OBJECTS := $(filter-out $(MAIN_OBJECT),$(SOURCES:%.c=$(BUILD)/%.o)) $(EMBEDDED_OBJECT)

# tests/unit/test_x.c and the like: one program each.
SUPPORT_OBJECTS   := $(patsubst %.c,$(BUILD)/%.o,$(wildcard tests/support/*.c))
UNIT_PROGRAMS     := $(patsubst %.c,$(BUILD)/%,$(sort $(wildcard tests/unit/test_*.c)))
PROPERTY_PROGRAMS := $(patsubst %.c,$(BUILD)/%,$(sort $(wildcard tests/property/test_*.c)))
OTHER_PROGRAMS    := $(patsubst %.c,$(BUILD)/%,$(sort $(wildcard tests/oracle/*.c tests/bench/*.c tests/browser/*.c)))
SINGLE_PROGRAMS   := $(UNIT_PROGRAMS) $(PROPERTY_PROGRAMS) $(OTHER_PROGRAMS)

PUBLISHED_OBJECTS := $(patsubst %.c,$(BUILD)/%.o,$(sort $(wildcard tests/published/*.c)))
PUBLISHED_PROGRAM := $(if $(PUBLISHED_OBJECTS),$(BUILD)/tests/published/run_published)

FUZZ_TARGETS    := $(patsubst tests/fuzz/fuzz_%.c,%,$(sort $(wildcard tests/fuzz/fuzz_*.c)))
FUZZ_SUPPORT    := $(BUILD)/tests/support/html_page.o $(BUILD)/tests/support/told_everywhere.o
REPLAY_PROGRAMS := $(FUZZ_TARGETS:%=$(BUILD)/tests/fuzz/replay_%)
FUZZ_PROGRAMS   := $(FUZZ_TARGETS:%=$(BUILD)/tests/fuzz/fuzz_%)

TEST_PROGRAMS := $(SINGLE_PROGRAMS) $(PUBLISHED_PROGRAM) $(REPLAY_PROGRAMS)
TEST_OBJECTS  := $(SINGLE_PROGRAMS:=.o) $(PUBLISHED_OBJECTS) $(SUPPORT_OBJECTS) \
                 $(FUZZ_PROGRAMS:=.o) $(BUILD)/tests/fuzz/replay.o

FORMATTED := $(SOURCES) $(HEADERS) $(sort $(wildcard tests/*/*.c tests/*/*.h))
SCRIPTS   := $(sort $(wildcard tests/*/*.sh)) .ci/run

# Inside a recipe: as many jobs as there are processors, unless the caller said how many.
PARALLEL = $(if $(filter -j% --jobserver%,$(MAKEFLAGS)),,-j$(shell nproc))
MAKEFLAGS += --no-print-directory

# The same order of words and the same decimal point on every machine.
export LC_ALL := C

# V=1 shows the commands.
Q := $(if $(V),,@)

CHECKS := layers sources references nutrient unit published property replay record oracle by-hand golden

.SECONDARY:
.DELETE_ON_ERROR:
.PHONY: all demo check $(CHECKS:%=check-%) check-long check-browser picture check-sanitize check-valgrind coverage fuzz fuzzers \
        test-programs bench lint format check-format accept-golden references install clean help \
        packages-build packages-check FORCE

## all: build the program (MODE=release, debug, sanitize or coverage), build/MODE/winterstack
all: $(PROGRAM)

## demo: build the program and plan the winter of the sample herd: in brief here, the whole as pages
demo: packages-build
	@$(MAKE) $(PARALLEL) MODE=release all
	@build/release/winterstack plan herds/main-herd.csv sample-inventory --brief || [ $$? -eq 3 ]
	@build/release/winterstack plan herds/main-herd.csv sample-inventory --out build/demo/ || [ $$? -eq 3 ]
	@echo
	@echo "The whole plan, to open in a browser: build/demo/report.html"
	@echo "A sheet a group and period, for the tractor: build/demo/feed-sheets.html"

## packages-build: install what the program needs to be built
packages-build:
	@tests/support/packages.sh "build" $(PACKAGES_BUILD)

## packages-check: install what the tests need
packages-check:
	@tests/support/packages.sh "run the tests" $(PACKAGES_CHECK)

$(PROGRAM): $(MAIN_OBJECT) $(LIBRARY)
	@echo '  link $@'
	$(Q)$(CC) $(CFLAGS) $(LDFLAGS) -o $@ $^ $(LDLIBS)

# Made anew when the list of objects changes too, so that a removed file leaves nothing behind.
$(LIBRARY): $(LIBRARY_OBJECTS) $(BUILD)/library.list
	@rm -f $@
	$(Q)ar rcs $@ $(LIBRARY_OBJECTS)

$(BUILD)/library.list: FORCE
	@mkdir -p $(@D)
	@echo '$(LIBRARY_OBJECTS)' | cmp -s - $@ || echo '$(LIBRARY_OBJECTS)' >$@

$(BUILD)/src/%.o: src/%.c Makefile | packages-build
	@mkdir -p $(@D)
	@echo '  compile $<'
	$(Q)$(CC) $(CPPFLAGS) $(CFLAGS) -MMD -MP -c -o $@ $<

# The published tables as strings; ISO C promises no literal of more than 4095 characters.
$(BUILD)/embedded/embedded.c: FORCE
	@mkdir -p $(@D)
	@awk -f tests/support/embed.awk $(TABLES) >$@.$$$$ && \
	    if cmp -s $@.$$$$ $@; then rm $@.$$$$; else mv $@.$$$$ $@; fi

$(EMBEDDED_OBJECT): $(BUILD)/embedded/embedded.c Makefile | packages-build
	@mkdir -p $(@D)
	@echo '  compile $<'
	$(Q)$(CC) $(CPPFLAGS) $(CFLAGS) -Wno-overlength-strings -MMD -MP -c -o $@ $<

# ------------------------------------------------------------------------------------------------

packages-check: packages-build

$(BUILD)/tests/%.o: tests/%.c Makefile | packages-check
	@mkdir -p $(@D)
	@echo '  compile $<'
	$(Q)$(CC) $(CPPFLAGS) -Itests $(CFLAGS) -MMD -MP -c -o $@ $<

# libFuzzer declares its entry point nowhere.
$(FUZZ_PROGRAMS:=.o) $(BUILD)/tests/fuzz/replay.o: CFLAGS += -Wno-missing-prototypes

$(SINGLE_PROGRAMS): %: %.o $(SUPPORT_OBJECTS) $(LIBRARY)
	@echo '  link $@'
	$(Q)$(CC) $(CFLAGS) $(LDFLAGS) -o $@ $^ $(LDLIBS) -lcmocka

$(BUILD)/tests/published/run_published: $(PUBLISHED_OBJECTS) $(SUPPORT_OBJECTS) $(LIBRARY)
	@echo '  link $@'
	$(Q)$(CC) $(CFLAGS) $(LDFLAGS) -o $@ $^ $(LDLIBS) -lcmocka

$(REPLAY_PROGRAMS): $(BUILD)/tests/fuzz/replay_%: $(BUILD)/tests/fuzz/fuzz_%.o \
                    $(BUILD)/tests/fuzz/replay.o $(FUZZ_SUPPORT) $(LIBRARY)
	@echo '  link $@'
	$(Q)$(CC) $(CFLAGS) $(LDFLAGS) -o $@ $^ $(LDLIBS)

$(FUZZ_PROGRAMS): %: %.o $(FUZZ_SUPPORT) $(LIBRARY)
	@echo '  link $@'
	$(Q)$(CC) $(CFLAGS) $(LDFLAGS) -fsanitize=fuzzer -o $@ $^ $(LDLIBS)

test-programs: $(PROGRAM) $(TEST_PROGRAMS)

fuzzers: $(FUZZ_PROGRAMS)

-include $(patsubst %.o,%.d,$(MAIN_OBJECT) $(LIBRARY_OBJECTS) $(TEST_OBJECTS))

## check: build and run every test; all groups run, and it fails if any of them did
check: packages-check
	@$(MAKE) $(PARALLEL) MODE=$(MODE) test-programs
	@tests/support/run_groups.sh "$(MAKE) MODE=$(MODE)" $(CHECKS:%=check-%)

## check-unit: one file's contract at a time
check-unit: $(UNIT_PROGRAMS)
	@tests/support/run_programs.sh $^

## check-published: the equations against numbers printed in their publications
check-published: $(PUBLISHED_PROGRAM)
	@$(if $<,$< $(sort $(wildcard tests/published/*.csv)))

## check-property: laws that hold for any herd and any yard
check-property: $(PROPERTY_PROGRAMS)
	@tests/support/run_programs.sh $^

## check-long: a million drawn rations against GLPK, and yard rules of a large farm; about five minutes
check-long: $(BUILD)/tests/property/test_solver_laws $(BUILD)/tests/property/test_yard_groups
	@SMALL_PROGRAMS=1000000 LARGE_YARD=1 tests/support/run_programs.sh $^

## check-golden: whole runs of the program as the farmer sees them, and the examples in README.md
check-golden: $(PROGRAM)
	@tests/golden/run_golden.sh $(PROGRAM) $(CASE)

## accept-golden: take what the program prints now as what it should (CASE=name for one); read the diff
accept-golden: $(PROGRAM)
	@tests/golden/run_golden.sh --accept $(PROGRAM) $(CASE)

## check-replay: the readers over the kept inputs of the fuzzers
check-replay: $(REPLAY_PROGRAMS)
	@tests/support/run_replay.sh $^

## check-record: a winter written down day by day, writers killed at any moment, ten at once
check-record: $(PROGRAM) | packages-check
	@tests/record/run_writers.sh $(PROGRAM)
	@tests/record/run_winter.sh $(PROGRAM)

## check-oracle: the plan against glpsol on models/ and against a second solver
check-oracle: $(PROGRAM) $(OTHER_PROGRAMS) | packages-check
	@[ ! -x tests/oracle/run_oracle.sh ] || BUILD=$(BUILD) tests/oracle/run_oracle.sh $(PROGRAM)
	@BUILD=$(BUILD) tests/oracle/run_yard.sh

## check-by-hand: printed plans worked again from their own figures, with jq
check-by-hand: $(PROGRAM) | packages-check
	@tests/by_hand/run_by_hand.sh $(PROGRAM)
	@tests/by_hand/run_cut_by_hand.sh $(PROGRAM)

## check-layers: who includes whom, and what the layers below entry may call
check-layers:
	@tests/layers/check_layers.sh "$(LAYERS)" .
	@tests/layers/test_check_layers.sh "$(LAYERS)"

## check-sources: every key cited is in source.def, and every key there is cited
check-sources:
	@tests/sources/check_sources.sh .
	@tests/sources/test_check_sources.sh
	@tests/sources/check_examples.sh .
	@tests/sources/test_check_examples.sh

## check-nutrient: one more nutrient is one line of its list and its figures, in a copy that is built
check-nutrient: $(PROGRAM) | packages-check
	@tests/nutrient/test_one_more.sh $(PROGRAM)

## references: write docs/references.md from source.def
references:
	@awk -f tests/sources/references.awk src/base/source.def >docs/references.md

## check-references: docs/references.md is what source.def says
check-references:
	@awk -f tests/sources/references.awk src/base/source.def | diff -u docs/references.md - || \
	    { echo 'docs/references.md is stale: make references' >&2; exit 1; }

## check-browser: the pages of the sample herds in a browser, at the sizes they are read at
check-browser: $(PROGRAM) $(BUILD)/tests/browser/write_charts
	@tests/support/packages.sh "open pages in a browser" $(PACKAGES_BROWSER)
	@tests/browser/run_browser.sh $(PROGRAM) $(BUILD)/tests/browser/write_charts build/browser

## picture: the first screen of the sample farm's report, as README.md shows it: docs/report.png
picture: $(PROGRAM)
	@tests/support/packages.sh "make a picture of a page" $(PACKAGES_BROWSER)
	@tests/browser/make_picture.sh $(PROGRAM) build/browser docs/report.png

## check-sanitize: every test under the address and undefined-behaviour sanitizers
check-sanitize:
	@$(MAKE) MODE=sanitize check

## check-valgrind: unit tests under valgrind
check-valgrind:
	@tests/support/packages.sh "run valgrind" $(PACKAGES_CHECK) $(PACKAGES_VALGRIND)
	@$(MAKE) $(PARALLEL) MODE=debug test-programs
	@UNDER="valgrind --quiet --leak-check=full --error-exitcode=9" \
	    $(MAKE) MODE=debug check-unit

## coverage: which lines the tests reach: a table, and build/coverage/html/index.html
coverage:
	@tests/support/packages.sh "measure coverage" $(PACKAGES_CHECK) $(PACKAGES_COVERAGE)
	@find build/coverage -name '*.gcda' -delete 2>/dev/null || true
	@$(MAKE) MODE=coverage check
	@mkdir -p build/coverage/html
	@gcovr --root . --filter src/ --object-directory build/coverage --print-summary \
	    --html-details build/coverage/html/index.html --txt build/coverage/table.txt \
	    build/coverage
	@cat build/coverage/table.txt

## fuzz: SECONDS=60 of libFuzzer on each reader; new inputs go to build/fuzz/found/
fuzz:
	@tests/support/packages.sh "fuzz" $(PACKAGES_BUILD) $(PACKAGES_FUZZ)
	@$(MAKE) $(PARALLEL) MODE=fuzz fuzzers
	@tests/support/run_fuzzers.sh $(SECONDS) $(FUZZ_TARGETS)

## bench: how long a plan takes, and in how much memory
bench: $(PROGRAM) $(OTHER_PROGRAMS)
	@tests/support/packages.sh "measure" $(PACKAGES_BENCH)
	@[ ! -x tests/bench/run_bench.sh ] || BUILD=$(BUILD) tests/bench/run_bench.sh $(PROGRAM)

## lint: clang-tidy, cppcheck, codespell and shellcheck
lint:
	@tests/support/packages.sh "lint" $(PACKAGES_CHECK) $(PACKAGES_LINT)
	shellcheck $(SCRIPTS)
	codespell --skip '*.csv,tests/fuzz/corpus' --ignore-words-list bale,nd,bu,grop,nin README.md DEVELOPERS.md Makefile .ci docs src tests
	cppcheck --quiet --std=c17 --language=c --error-exitcode=1 --inline-suppr \
	    --enable=warning,performance,portability -Isrc $(SOURCES)
	@echo clang-tidy-14
	$(Q)printf '%s\n' $(SOURCES) | xargs -I '{}' -P "$$(nproc)" \
	    clang-tidy-14 --quiet '{}' -- -std=c17 $(CPPFLAGS) 2>/dev/null

## format: clang-format 14 on every C file
format:
	@tests/support/packages.sh "format" $(PACKAGES_FORMAT)
	@clang-format-14 -i $(FORMATTED)

## check-format: every C file is as clang-format 14 leaves it
check-format:
	@tests/support/packages.sh "check the format" $(PACKAGES_FORMAT)
	@clang-format-14 --dry-run --Werror $(FORMATTED)

## install: put the program in PREFIX/bin (PREFIX=/usr/local; DESTDIR is put before it)
install: $(PROGRAM)
	install -D -m 755 $(PROGRAM) $(DESTDIR)$(PREFIX)/bin/winterstack

## clean: remove everything that was built
clean:
	rm -rf build

## help: this list
help:
	@sed -n 's/^## //p' Makefile | sort | awk -F ': ' '{printf "  %-17s %s\n", $$1, substr($$0, length($$1) + 3)}'
