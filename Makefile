# bellsheet: build, test and install. GNU make 4.3 or later; "make help" lists the targets.

VERSION  := 0.1.0
PREFIX   ?= /usr/local
BUILD    ?= build
CFLAGS   ?= -O2 -g
LIBDIR   ?= $(PREFIX)/lib
CORE_MODULES := glib-2.0 jansson
FILTER_MODULES := libseccomp
MODULES  := pangocairo cairo cairo-pdf cairo-svg fontconfig zlib $(CORE_MODULES)

# make's own default is "cc", which is not there on a machine that has only clang.
ifeq ($(origin CC),default)
CC := $(if $(shell command -v gcc),gcc,$(if $(shell command -v clang),clang,gcc))
endif

# The program looks beside itself first. A build folder at another depth than ./build would find
# nothing there, so such a build has to know where the checkout keeps its shelf.
SHARE_DIR ?= $(if $(filter build,$(BUILD)),$(PREFIX)/share/bellsheet,$(CURDIR)/share)

, := ,
# ---- flags --------------------------------------------------------------------------------------

# A switch without default has to name all of its enum, always: so the compiler leads to each place that a new kind concerns.
WARN := -Werror=switch -Wall -Wextra -Wconversion -Wshadow -Wstrict-prototypes -Wmissing-prototypes -Wvla
ifneq ($(CI),)
WARN += -Werror
endif

# What flex and bison write is theirs, not ours: the warnings that only style could answer are off.
GENERATED_WARN := -Wno-conversion -Wno-sign-conversion -Wno-sign-compare -Wno-shadow \
    -Wno-unused-function -Wno-unused-parameter -Wno-unused-but-set-variable \
    -Wno-missing-prototypes

# A fault that gets past the tests should end the program rather than hand it to somebody else: checked copies, guarded
# stacks, tables that nobody writes once it runs. Each flag is used where the compiler takes it. Sanitizers look for
# faults themselves.
takes = $(shell echo 'int main(void) { return 0; }' | $(CC) -Werror $(1) -x c -o /dev/null - 2>/dev/null && echo '$(1)')
ifeq ($(SANITIZE)$(COVERAGE),)
# gcc's analyser has to see the calls as they are written.
CHECKED_COPIES := $(if $(ANALYZE),,$(if $(filter -O1 -O2 -O3,$(CFLAGS)),-U_FORTIFY_SOURCE -D_FORTIFY_SOURCE=2))
HARDENED      = $(eval HARDENED := $(CHECKED_COPIES) $(foreach flag,$\
    -fstack-protector-strong -fstack-clash-protection -fcf-protection=full,$(call takes,$(flag))))$(HARDENED)
HARDENED_LINK = $(eval HARDENED_LINK := $(foreach flag,-Wl$(,)-z$(,)relro -Wl$(,)-z$(,)now -Wl$(,)-z$(,)noexecstack,$\
    $(call takes,$(flag))))$(HARDENED_LINK)
# Not every compiler makes programs so by itself that they can be loaded anywhere.
LOADED_ANYWHERE = $(eval LOADED_ANYWHERE := $(call takes,-pie))$(LOADED_ANYWHERE)
endif

ifneq ($(SANITIZE),)
VARIANT += -fsanitize=$(SANITIZE) -fno-sanitize-recover=all -fno-omit-frame-pointer -DBELL_LOOKED_INTO
endif
ifneq ($(COVERAGE),)
# All processes on one processor count in one file, which each has mapped into its memory: so none has anything to write at its
# end, and those that are killed count, too. What draws is loaded, and its file opened, when the program has confined itself.
VARIANT += -fprofile-instr-generate
COUNTED := -fcoverage-mapping -mllvm -runtime-counter-relocation -DBELL_UNCONFINED
endif
ifneq ($(ANALYZE),)
# A pointer that may be NULL by its type, but not for what the caller asks, is reported and does not fail (src/room has some).
WARN           += -fanalyzer -Wno-error=analyzer-null-dereference -Wno-error=analyzer-null-argument
GENERATED_WARN += -fno-analyzer
endif

# pkg-config is asked once, when the first recipe needs it: on a bare machine it is installed by
# a recipe, so nothing may depend on it while this file is being read.
no_libraries = $(error a library is missing: "make packages" installs what the build needs)
ask_modules  = $(or $(shell pkg-config $(1) 2>/dev/null),$(no_libraries))
PKG_CFLAGS  = $(eval PKG_CFLAGS := $(call ask_modules,--cflags $(MODULES) $(FILTER_MODULES)))$(PKG_CFLAGS)
PKG_LIBS    = $(eval PKG_LIBS := $(call ask_modules,--libs $(MODULES)))$(PKG_LIBS)
FILTER_LIBS = $(eval FILTER_LIBS := $(call ask_modules,--libs $(FILTER_MODULES)))$(FILTER_LIBS)
CORE_LIBS   = $(eval CORE_LIBS := $(call ask_modules,--libs $(CORE_MODULES)))$(CORE_LIBS)
CMOCKA_LIBS = $(eval CMOCKA_LIBS := $(call ask_modules,--libs cmocka))$(CMOCKA_LIBS)

DEFINES := -D_POSIX_C_SOURCE=200809L -DBELL_VERSION=\"$(VERSION)\" \
    -DBELL_SHARE_DIR=\"$(SHARE_DIR)\" -DBELL_LIB_DIR=\"$(LIBDIR)\"
INCLUDES := -Isrc -Iinclude -I$(BUILD)/gen

# Tests are compiled once and run for seconds: to optimise them takes longer than they then save. Only they are linked by gold
# where it is at hand, in a third of the time; sanitizers want the linker that they know.
TEST_CFLAGS ?= -O0 -U_FORTIFY_SOURCE
TEST_LDFLAGS = $(eval TEST_LDFLAGS := $(if $(SANITIZE),,$(if $(shell command -v ld.gold),-fuse-ld=gold)))$(TEST_LDFLAGS)

COMPILE = $(CC) -std=c17 $(DEFINES) $(INCLUDES) $(CPPFLAGS) $(PKG_CFLAGS) $(WARN) $(CFLAGS) \
    -fPIC -fvisibility=hidden $(HARDENED) $(VARIANT) $(COUNTED) -ffile-prefix-map=$(CURDIR)=.
LINK    = $(CC) $(CFLAGS) $(HARDENED) $(HARDENED_LINK) $(VARIANT) $(LDFLAGS)
LIBS    = $(PKG_LIBS) -lm $(LDLIBS)

# ---- files --------------------------------------------------------------------------------------

MAIN      := src/cli/main.c src/cli/no_memory.c
SOURCES   := $(filter-out $(MAIN),$(wildcard src/*/*.c))
GENERATED := $(patsubst grammar/%.l,$(BUILD)/gen/%.c,$(wildcard grammar/*.l)) \
    $(patsubst grammar/%.y,$(BUILD)/gen/%.c,$(wildcard grammar/*.y))
GENERATED_HEADERS := $(GENERATED:.c=.h)

object = $(patsubst src/%.c,$(BUILD)/obj/%.o,$(1))

# What "make mutants" tries: MUTATE is the program that puts mutants into a source.
MUTATED_ROOMS := figures measure limits rules room done amend
ifneq ($(MUTATE),)
MUTATED := $(sort $(wildcard $(MUTATED_ROOMS:%=src/%/*.c)))
MUTANT  := $(BUILD)/tests/mutants/mutant.o
endif

MAIN_OBJECT       := $(call object,$(MAIN))
GENERATED_OBJECTS := $(GENERATED:.c=.o)
INDEX_OBJECT      := $(BUILD)/gen/shelf_index.o
LANGUAGES_OBJECT  := $(BUILD)/gen/languages.o
FILTER_OBJECT     := $(BUILD)/gen/call_filter.o
OBJECTS           := $(call object,$(SOURCES)) $(GENERATED_OBJECTS) $(INDEX_OBJECT) $(LANGUAGES_OBJECT) $(FILTER_OBJECT) $(MUTANT)

PROGRAM := $(BUILD)/bellsheet
PARTS   := $(BUILD)/parts.a
FLAGS   := $(BUILD)/flags
MEMBERS := $(BUILD)/members

# The library: all that a compile needs and nothing that draws. Only what the public header declares can be seen of it.
CORE_ROOMS   := base language source syntax figures model wording measure done resolve plan room squad limits rules export library
CORE_OBJECTS := $(call object,$(wildcard $(CORE_ROOMS:%=src/%/*.c))) $(GENERATED_OBJECTS) $(INDEX_OBJECT) $(LANGUAGES_OBJECT)
SOVERSION    := 0
SHARED       := $(BUILD)/libbellsheet.so.$(SOVERSION)
STATIC       := $(BUILD)/libbellsheet.a
PC           := $(BUILD)/bellsheet.pc
SHEETS_PC    := $(BUILD)/bellsheet-sheets.pc
LIBRARY      := $(SHARED) $(STATIC) $(PC) $(SHEETS_PC)
# Where each entry of the shelf is (src/plan/shelf_index.h): made by a program of the rooms that read.
INDEX_MAKER  := $(BUILD)/tools/make_shelf_index
INDEX_PARTS  := $(INDEX_MAKER).o $(call object,$(wildcard src/base/*.c src/source/*.c src/syntax/*.c src/figures/*.c) \
    src/plan/plan_files.c) $(GENERATED_OBJECTS) $(MUTANT)
# The catalogues of the sheets' languages (src/language/language.h): checked by msgfmt, and made into tables.
LANGUAGES_MAKER := $(BUILD)/tools/make_languages
CATALOGUES      := $(patsubst po/%.po,$(BUILD)/gen/%.mo,$(sort $(wildcard po/*.po)))
# The calls that the kernel is to refuse (src/cli/call_filter.h): libseccomp puts them together when the program is built.
FILTER_MAKER  := $(BUILD)/tools/make_call_filter
# What draws, for the program to load when it prints.
SHEETS       := $(BUILD)/libbellsheet-sheets-$(VERSION).so

TEST_SOURCES  := $(wildcard tests/*/test_*.c)
TEST_PROGRAMS := $(TEST_SOURCES:%.c=$(BUILD)/%)
TEST_OBJECTS  := $(TEST_PROGRAMS:%=%.o)
TEST_SCRIPTS  := $(wildcard tests/*/*.sh)
# Those of which "make check" tries a sample.
SAMPLED       := $(patsubst %.c,$(BUILD)/%,$(shell grep -l 'cases\.h' $(TEST_SOURCES))) \
    $(shell grep -l 'PROOF' $(TEST_SCRIPTS))
# These do not go with counting, which writes past the sandbox, names the folder that it was built in, adds symbols, and is
# not hardened.
UNCOUNTED     := tests/faults/sandbox.sh tests/cli/same-bytes.sh tests/library/embed.sh tests/house/hardened.sh
# These need a second processor, the one of them in part, and where it counts each test has one.
SPREAD        := tests/faults/workers.sh tests/faults/calls.sh
BENCHES       := $(patsubst %,$(BUILD)/tests/bench/%,bench_bare bench_check bench_idle bench_lsp bench_print bench_room bench_run \
    bench_session bench_watch make_club)
BENCH_PARTS   := $(patsubst tests/%.c,$(BUILD)/tests/%.o,tests/bench/club.c tests/bench/tape.c \
    tests/bench/timing.c)
MUTANT_TOOLS  := $(BUILD)/tests/mutants/mutate $(BUILD)/tests/mutants/drive
FUZZERS       := $(patsubst tests/%.c,$(BUILD)/tests/%,$(wildcard tests/fuzz/fuzz_*.c)) \
    $(BUILD)/tests/fuzz/words

MAKEFLAGS += --no-print-directory --no-builtin-rules
# As many jobs as there are processors, unless the command line says how many.
ifeq ($(MAKELEVEL),0)
MAKEFLAGS += -j$(shell nproc 2>/dev/null || echo 1)
endif
OBJCOPY ?= objcopy
.DELETE_ON_ERROR:
.SUFFIXES:
.SECONDARY:
.PHONY: all demo check run-tests proof matrix editors clients packages asan tsan coverage fuzz fuzz-afl fuzzers bench bounds mutants mutated faults valgrind lint lint-tidy lint-cppcheck \
    lint-gcc lint-clang analyzed uncounted format install install-files deb deb-tried clean help FORCE

# ---- targets ------------------------------------------------------------------------------------

all: $(PROGRAM) $(SHEETS) $(LIBRARY)  ## build build/bellsheet and the library (the default)

# The second make is a new process so that it sees the compiler and libraries just installed.
demo:  ## install what is missing, build, and print a week of the example gym
	@tests/install-packages build
	@$(MAKE) all
	$(PROGRAM) print examples/slipway --week 2 --date 2027-03-08 --out $(BUILD)/demo

check:  ## install what is missing, build, and run every test
	@tests/install-packages build tests
	@$(MAKE) $(if $(COVERAGE),coverage,run-tests)

uncounted: all  ## run the tests that "make coverage" leaves out, in whole or in part
	@BELLSHEET=$(PROGRAM) BUILD_DIR=$(BUILD) CC='$(CC)' tests/run $(UNCOUNTED) $(SPREAD)

# Scripts come first, because they take longest: so no processor waits at the end for the last of them.
run-tests: all $(TEST_PROGRAMS) $(MUTANT_TOOLS)
	@BELLSHEET=$(PROGRAM) BUILD_DIR=$(BUILD) CC='$(CC)' SANITIZE='$(SANITIZE)' \
	    tests/run $(TEST_SCRIPTS) $(TEST_PROGRAMS)

proof: all $(filter $(BUILD)/%,$(SAMPLED))  ## try every case of what "make check" tries a sample of; and mutants; goes on where it was stopped
	@BELLSHEET=$(PROGRAM) BUILD_DIR=$(BUILD) CC='$(CC)' tests/proof $(SAMPLED)
	@$(MAKE) mutants

# The build with the mutants is one of its own.
mutants: all $(MUTANT_TOOLS)  ## change rules and figures in small ways, thousands of times, and see whether a test notices
	@tests/install-packages build tests lint
	@$(MAKE) BUILD=$(BUILD)/mutants CFLAGS=-O1 LDFLAGS=-Wl,--as-needed MUTATE=$(firstword $(MUTANT_TOOLS)) CI= mutated
	@BELLSHEET=$(PROGRAM) BUILD_DIR=$(BUILD) CC='$(CC)' SOME='$(or $(SOME),1/16)' ONLY='$(ONLY)' FRESH='$(FRESH)' tests/mutants/run

mutated: $(PROGRAM) $(SHEETS) $(TEST_PROGRAMS)

matrix:  ## build and test with the oldest and newest compilers, the sanitizers, and for 32 bits; goes on where it was stopped
	@tests/install-packages build tests lint matrix
	@BUILD_DIR=$(BUILD) tests/matrix

clients: all  ## install editors that are missing, and let them work with the language server
	@tests/install-packages build readers clients
	@BELLSHEET=$(PROGRAM) BUILD_DIR=$(BUILD) tests/clients/run

packages:  ## install what the build and the tests need, and nothing else
	@tests/install-packages build tests
	@tests/install-packages browser || echo "without a browser its test is skipped"
	@tests/install-packages readers || echo "without icalendar its reading of a calendar is skipped"

asan:  ## run every test under the address and undefined-behaviour sanitizers
	@tests/install-packages build tests
	@$(MAKE) BUILD=$(BUILD)/asan SANITIZE=address,undefined CFLAGS='-O1 -g' run-tests

# setarch: the sanitizer wants its addresses where a kernel that shuffles much does not leave them.
tsan:  ## compile twice at once, and compare two states of a plan, under the thread sanitizer
	@tests/install-packages build tests
	@$(MAKE) BUILD=$(BUILD)/tsan SANITIZE=thread CFLAGS='-O1 -g' $(BUILD)/tsan/bellsheet \
	    $(BUILD)/tsan/tests/library/test_library $(BUILD)/tsan/tests/property/test_compare
	export TSAN_OPTIONS=halt_on_error=1 && for run in tests/library/test_library tests/property/test_compare \
	    'bellsheet diff examples/slipway examples/juniors'; do \
	    $(if $(shell command -v setarch),setarch -R) $(BUILD)/tsan/$$run >/dev/null || exit 1; done

coverage:  ## run every test, and show what of each room they reach; each room that can hurt somebody has a floor
	@tests/install-packages build tests lint
	@rm -rf $(BUILD)/coverage/counts
	@LIMIT=1800 LLVM_PROFILE_FILE=/dev/null COUNTS='$(abspath $(BUILD))/coverage/counts' $(MAKE) BUILD=$(BUILD)/coverage CC=clang \
	    COVERAGE=1 CFLAGS=-O1 TEST_SCRIPTS='$(filter-out $(UNCOUNTED),$(TEST_SCRIPTS))' run-tests
	@tests/coverage $(BUILD)/coverage $(PROGRAM:$(BUILD)/%=$(BUILD)/coverage/%) $(SHEETS:$(BUILD)/%=$(BUILD)/coverage/%)

fuzz:  ## look for crashes with random plans for SECONDS=60 a harness (needs clang)
	@$(MAKE) BUILD=$(BUILD)/fuzz CC=clang SANITIZE=fuzzer-no-link,address,undefined \
	    CFLAGS='-O1 -g -fsanitize-coverage-ignorelist=tests/fuzz/unwatched' fuzzers
	@BUILD_DIR=$(BUILD)/fuzz tests/fuzz/run $(or $(SECONDS),60)

fuzz-afl:  ## the same with AFL++ (needs afl++)
	@$(MAKE) BUILD=$(BUILD)/afl CC=afl-clang-fast CFLAGS='-O1 -g' fuzzers
	@BUILD_DIR=$(BUILD)/afl tests/fuzz/run_afl $(or $(SECONDS),60)

fuzzers: $(FUZZERS)

bench: all $(BENCHES)  ## measure, and write tables to build/bench
	@BUILD_DIR=$(BUILD) tests/bench/run

bounds: all $(BUILD)/tests/bench/bench_run  ## count what each statement costs a plan that holds it 250 to 2,000 times, and each limit (needs valgrind)
	@tests/install-packages build lint
	@BELLSHEET=$(PROGRAM) TOOLS=$(BUILD)/tests/bench KEPT=$(BUILD)/bounds tests/bench/bounds
	@BELLSHEET=$(PROGRAM) TOOLS=$(BUILD)/tests/bench KEPT=$(BUILD)/bounds tests/bench/bounds --edges

faults: all  ## fail every allocation and every call on a file once; kill commands that write 2,100 times
	@KILLS=2100 FAULTS=all CC='$(CC)' BELLSHEET=$(PROGRAM) BUILD_DIR=$(BUILD) tests/run tests/faults/*.sh

valgrind: all $(BUILD)/tests/bench/bench_lsp $(BUILD)/tests/bench/make_club  ## run commands and an editing session under valgrind
	@tests/install-packages build tests lint
	@BELLSHEET=$(PROGRAM) BUILD_DIR=$(BUILD) tests/valgrind

lint: lint-tidy lint-cppcheck lint-gcc lint-clang  ## clang-tidy, cppcheck, gcc -fanalyzer and clang's analyser

# Several files at a time, so that it is not started anew for each.
TIDY = @printf '%s\n' $(1) | xargs -r -P$$(nproc) -n 12 sh -c 'exec clang-tidy --quiet $(2) "$$@" -- \
    -std=c17 $(DEFINES) $(INCLUDES) $(PKG_CFLAGS)' sh

lint-tidy: $(GENERATED_HEADERS)
	@tests/install-packages build lint
	$(call TIDY,$(SOURCES) $(MAIN),)

# Clang's analyser takes forty times as long as all the rest of clang-tidy, so it can be kept to the files that have
# changed since a commit: make lint SINCE=v0.1
# Off: padding, where a reader's order of fields wins, and the wish for Annex K, which no libc here has.
CLANG_ANALYSER := -*,clang-analyzer-*,-clang-analyzer-optin.performance.Padding,$\
    -clang-analyzer-security.insecureAPI.DeprecatedOrUnsafeBufferHandling
ANALYSED = $(if $(SINCE),$(filter $(SOURCES) $(MAIN),$(shell git diff --name-only $(SINCE))),$(SOURCES) $(MAIN))

lint-clang: $(GENERATED_HEADERS)
	@tests/install-packages build lint
	$(call TIDY,$(ANALYSED),--checks="$(CLANG_ANALYSER)")

lint-cppcheck: $(GENERATED_HEADERS)
	@cppcheck --quiet --std=c11 --enable=warning,performance,portability --inline-suppr \
	    --suppress=missingIncludeSystem --suppress=readdirCalled --error-exitcode=1 --library=posix --library=gtk \
	    $(DEFINES) $(INCLUDES) $(SOURCES) $(MAIN)

lint-gcc:
	@$(MAKE) BUILD=$(BUILD)/analyzer CC=gcc ANALYZE=1 CI=1 analyzed

analyzed: $(OBJECTS) $(MAIN_OBJECT)

format:  ## lay out our C files with clang-format
	clang-format -i $(wildcard src/*/*.[ch] tests/*/*.[ch])

# Data goes by folder, so a new shelf needs no line here.
install:  ## install under PREFIX (/usr/local), below DESTDIR if given
	@$(MAKE) SHARE_DIR=$(PREFIX)/share/bellsheet all
	@$(MAKE) install-files

install-files: $(PC) $(SHEETS_PC)
	install -D $(PROGRAM) $(DESTDIR)$(PREFIX)/bin/bellsheet
	install -D $(SHARED) $(DESTDIR)$(LIBDIR)/$(notdir $(SHARED))
	install -D $(SHEETS) $(DESTDIR)$(LIBDIR)/$(notdir $(SHEETS))
	ln -sf $(notdir $(SHARED)) $(DESTDIR)$(LIBDIR)/libbellsheet.so
	ln -sf $(notdir $(SHEETS)) $(DESTDIR)$(LIBDIR)/libbellsheet-sheets.so
	install -D -m 644 $(STATIC) $(DESTDIR)$(LIBDIR)/$(notdir $(STATIC))
	install -D -m 644 $(PC) $(DESTDIR)$(LIBDIR)/pkgconfig/$(notdir $(PC))
	install -D -m 644 $(SHEETS_PC) $(DESTDIR)$(LIBDIR)/pkgconfig/$(notdir $(SHEETS_PC))
	install -D -m 644 include/bellsheet/bellsheet.h $(DESTDIR)$(PREFIX)/include/bellsheet/bellsheet.h
	install -D -m 644 include/bellsheet/sheets.h $(DESTDIR)$(PREFIX)/include/bellsheet/sheets.h
	@cd share && find . -type f ! -path './man/*' ! -path './completions/*' ! -path './debian/*' -exec \
	    sh -ec 'to=$$1; shift; for f; do install -D -m 644 "$$f" "$$to/$${f#./}"; done' \
	    sh $(DESTDIR)$(PREFIX)/share/bellsheet {} +
	chmod 755 $(DESTDIR)$(PREFIX)/share/bellsheet/git/pre-commit
	@set -e; put() { [ ! -f "$$1" ] || install -D -m 644 "$$1" "$(DESTDIR)$(PREFIX)/share/$$2"; }; \
	put share/man/bellsheet.1 man/man1/bellsheet.1; \
	put share/completions/bellsheet.bash bash-completion/completions/bellsheet; \
	put share/completions/bellsheet.fish fish/vendor_completions.d/bellsheet.fish; \
	put share/completions/_bellsheet zsh/site-functions/_bellsheet; \
	put share/editors/emacs/bell-mode.el emacs/site-lisp/bell-mode.el; \
	(cd share/editors/vim && find . -type f) | while read -r file; do \
	    put "share/editors/vim/$$file" "vim/vimfiles/$$file"; \
	    put "share/editors/vim/$$file" "nvim/site/$$file"; \
	done

editors:  ## make the editors' files anew from the tables of the language
	@grammar/editors/make

# The tree as a Debian source package wants it. The lists of what each package contains are in share/debian.
DEB := $(BUILD)/deb
deb:  ## make Debian packages in build/deb, and let lintian look at them
	@tests/install-packages build packaging
	rm -rf $(DEB)
	mkdir -p $(DEB)/bellsheet-$(VERSION)
	cp -r LICENSE Makefile README.md examples grammar include po share src tools $(DEB)/bellsheet-$(VERSION)
	mv $(DEB)/bellsheet-$(VERSION)/share/debian $(DEB)/bellsheet-$(VERSION)/debian
	cd $(DEB)/bellsheet-$(VERSION) && dpkg-buildpackage --unsigned-source --unsigned-changes --build=full
	lintian --allow-root --fail-on error,warning $(DEB)/*.changes

deb-tried: deb  ## install these packages in a bare Debian, and work with them there (as root)
	DEB=$(DEB) tests/packaging/bare-root

clean:  ## remove everything that was built
	rm -rf $(BUILD)

help:  ## list the targets
	@sed -n 's/^\([a-z-]*\):[^#]*## \(.*\)/  \1\t\2/p' Makefile | expand -t 14
	@printf '\nSet CC, CFLAGS, BUILD, PREFIX or DESTDIR on the command line; CI=1 makes warnings errors.\n'

# ---- rules --------------------------------------------------------------------------------------

# A changed compiler or flag rebuilds everything; a removed source leaves the archive.
$(FLAGS): export WANTED = $(COMPILE)
$(MEMBERS): export WANTED = $(OBJECTS)
$(FLAGS) $(MEMBERS): FORCE
	@mkdir -p $(@D)
	@printf '%s\n' "$$WANTED" | cmp -s - $@ || printf '%s\n' "$$WANTED" >$@

$(PROGRAM): $(MAIN_OBJECT) $(PARTS)
	@echo "  LD    $@"
	@$(LINK) $(LOADED_ANYWHERE) -o $@ $^ $(CORE_LIBS) -ldl -lm $(LDLIBS)

$(SHEETS): $(PARTS) src/sheets/exports.map
	@echo "  LD    $@"
	@$(LINK) -shared -Wl,-soname,$(notdir $@) -Wl,-u,bell_sheets_print -Wl,-u,bell_sheet_make \
	    -Wl,--version-script,src/sheets/exports.map -o $@ $(PARTS) $(LIBS)

$(PARTS): $(OBJECTS) $(MEMBERS)
	@echo "  AR    $@"
	@rm -f $@
	@$(AR) rcsD $@ $(OBJECTS)

$(SHARED): $(CORE_OBJECTS) $(MEMBERS)
	@echo "  LD    $@"
	@$(LINK) -shared -Wl,-soname,$(notdir $@) -o $@ $(CORE_OBJECTS) $(CORE_LIBS) -lm $(LDLIBS)

# One object, so that what is hidden can be made local to it.
$(STATIC): $(CORE_OBJECTS) $(MEMBERS)
	@echo "  AR    $@"
	@rm -f $@
	@$(LD) -r --force-group-allocation -o $(BUILD)/bellsheet-whole.o $(CORE_OBJECTS)
	@$(OBJCOPY) --localize-hidden $(BUILD)/bellsheet-whole.o
	@$(AR) rcsD $@ $(BUILD)/bellsheet-whole.o

define PC_TEXT
prefix=$(PREFIX)
libdir=$(LIBDIR)
includedir=$${prefix}/include

Name: bellsheet
Description: Compiles plain-text programmes for striking athletes
Version: $(VERSION)
Requires.private: $(CORE_MODULES)
Libs: -L$${libdir} -lbellsheet
Libs.private: -lm
Cflags: -I$${includedir}
endef

define SHEETS_PC_TEXT
libdir=$(LIBDIR)

Name: bellsheet-sheets
Description: Makes the sheets of programmes that bellsheet compiles
Version: $(VERSION)
Requires: bellsheet = $(VERSION)
Libs: -L$${libdir} -lbellsheet-sheets
endef

$(PC): export TEXT = $(PC_TEXT)
$(SHEETS_PC): export TEXT = $(SHEETS_PC_TEXT)
$(PC) $(SHEETS_PC): FORCE
	@mkdir -p $(@D)
	@printf '%s\n' "$$TEXT" | cmp -s - $@ || printf '%s\n' "$$TEXT" >$@

# kinds.def defines the forms of statements, and they are put into the grammar first.
$(BUILD)/gen/%.y: grammar/%.y grammar/forms.awk src/syntax/kinds.def
	@mkdir -p $(@D)
	@awk -f grammar/forms.awk src/syntax/kinds.def $< >$@

$(BUILD)/gen/%.c $(BUILD)/gen/%.h: $(BUILD)/gen/%.y | $(FLAGS)
	@echo "  BISON $<"
	@bison -Wall -Werror -Wcounterexamples -o $(BUILD)/gen/$*.c --header=$(BUILD)/gen/$*.h $<

$(BUILD)/gen/%.c $(BUILD)/gen/%.h: grammar/%.l | $(FLAGS)
	@echo "  FLEX  $<"
	@mkdir -p $(@D)
	@flex -o $(BUILD)/gen/$*.c --header-file=$(BUILD)/gen/$*.h $<

$(INDEX_MAKER): $(INDEX_PARTS)
	@echo "  LD    $@"
	@$(LINK) -o $@ $^ $(CORE_LIBS) -lm $(LDLIBS)

$(FILTER_MAKER): $(FILTER_MAKER).o
	@echo "  LD    $@"
	@$(LINK) -o $@ $< $(FILTER_LIBS) $(LDLIBS)

# setarch: as for make tsan.
TOOL = $(if $(filter thread,$(SANITIZE)),$(if $(shell command -v setarch),setarch -R))

$(INDEX_OBJECT:.o=.c): $(INDEX_MAKER) $(wildcard share/*/*.bell)
	@echo "  INDEX $@"
	@$(TOOL) $(INDEX_MAKER) share >$@

$(FILTER_OBJECT:.o=.c): $(FILTER_MAKER)
	@echo "  CALLS $@"
	@$(TOOL) $(FILTER_MAKER) >$@

$(LANGUAGES_MAKER): $(LANGUAGES_MAKER).o
	@echo "  LD    $@"
	@$(LINK) -o $@ $^ $(CORE_LIBS) $(LDLIBS)

$(BUILD)/gen/%.mo: po/%.po
	@echo "  PO    $<"
	@mkdir -p $(@D)
	@msgfmt --check --no-hash -o $@ $<

# It frees nothing: it ends when the table is written.
$(LANGUAGES_OBJECT:.o=.c): $(LANGUAGES_MAKER) $(CATALOGUES)
	@echo "  WORDS $@"
	@ASAN_OPTIONS=detect_leaks=0 $(TOOL) $(LANGUAGES_MAKER) $(CATALOGUES) >$@

$(BUILD)/tools/%.o: tools/%.c $(FLAGS) | $(GENERATED_HEADERS)
	@echo "  CC    $<"
	@mkdir -p $(@D)
	@$(COMPILE) -MMD -MP -c -o $@ $<

$(BUILD)/gen/%.o: $(BUILD)/gen/%.c $(FLAGS) | $(GENERATED_HEADERS)
	@echo "  CC    $<"
	@$(COMPILE) $(GENERATED_WARN) -MMD -MP -c -o $@ $<

$(BUILD)/obj/%.o: src/%.c $(FLAGS) | $(GENERATED_HEADERS)
	@echo "  CC    $<"
	@mkdir -p $(@D)
	@$(COMPILE) -MMD -MP -c -o $@ $<

ifneq ($(MUTATE),)
# A compiler cache would take what clang says about one file for what it says about another.
$(BUILD)/mutated/%.c: src/%.c tests/mutants/mutate.c | $(GENERATED_HEADERS)
	@echo "  MUTATE $<"
	@mkdir -p $(@D)
	@CCACHE_DISABLE=1 clang -Xclang -ast-dump=json -fsyntax-only -std=c17 $(DEFINES) $(INCLUDES) $(PKG_CFLAGS) $< | \
	    $(MUTATE) $< $(@:.c=.list) $(MUTATED) >$@

$(call object,$(MUTATED)): $(BUILD)/obj/%.o: $(BUILD)/mutated/%.c $(FLAGS)
	@echo "  CC    $<"
	@mkdir -p $(@D)
	@$(COMPILE) -w -include tests/mutants/mutant.h -MMD -MP -c -o $@ $<
endif

# An object for each test, so that after a change of the library they are only linked again.
$(BUILD)/tests/%.o: tests/%.c $(FLAGS) | $(GENERATED_HEADERS)
	@echo "  CC    $<"
	@mkdir -p $(@D)
	@$(COMPILE) $(TEST_CFLAGS) -Itests -MMD -MP -c -o $@ $<

$(BUILD)/tests/%: $(BUILD)/tests/%.o $(PARTS)
	@echo "  LD    $@"
	@$(LINK) $(TEST_LDFLAGS) -o $@ $< $(PARTS) $(CMOCKA_LIBS) $(LIBS)

$(BENCHES): $(BENCH_PARTS)
$(BENCHES:=.o) $(BENCH_PARTS): TEST_CFLAGS :=
# Private: what makes the parts is not to be linked with them.
$(BENCHES): private LDLIBS += $(BENCH_PARTS) $(PARTS) $(PKG_LIBS) -lm
# It puts itself between lines and grammar, to measure one without the other.
$(BUILD)/tests/bench/bench_check: private LDLIBS += -Wl,--wrap=plan_parse

# It links what the program links, and nothing of the program.
$(BUILD)/tests/bench/bench_idle: $(BUILD)/tests/bench/bench_idle.o
	@echo "  LD    $@"
	@$(LINK) -o $@ $@.o $(CORE_LIBS)

$(BUILD)/tests/fuzz/fuzz_%: private LDLIBS += $(or $(LIB_FUZZING_ENGINE),-fsanitize=fuzzer)

-include $(OBJECTS:.o=.d) $(MAIN_OBJECT:.o=.d) $(TEST_OBJECTS:.o=.d) $(INDEX_MAKER:=.d) \
    $(INDEX_OBJECT:.o=.d) $(LANGUAGES_MAKER:=.d) $(LANGUAGES_OBJECT:.o=.d) $(FILTER_MAKER:=.d)
