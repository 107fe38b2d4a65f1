# Groat: build, demo and checks. `make help` lists what there is.
#
# Two commands do everything on a fresh Debian machine: `make demo` and `make check`.

CC      ?= cc
CFLAGS  ?= -O2 -g
OBJCOPY ?= objcopy
PREFIX  ?= /usr/local
WARN    := -std=c11 -Wall -Wextra -Wconversion -Wshadow -Wpedantic
B       := build
PATHS    = -Iinclude -Iengine -Igrammar -I$(B)/generated
COMPILE  = $(CC) $(WARN) $(CFLAGS) -fPIC -fvisibility=hidden $(PATHS) -MMD -MP
# A host sees the public header and links the library.
HOST     = $(CC) $(WARN) $(CFLAGS) -Iinclude

# Debian's packages: what the build needs, and what the tests need beside it.
BUILD_PACKAGES := re2c lemon libyajl-dev libunistring-dev
CHECK_PACKAGES := libcmocka-dev libgmp-dev units python3 libpython3.11-testsuite

# The stages of the core, in the order in which data flows; libgroat is these and the C library.
CORE_ROOMS := memory number text unit source tree names types program evaluate compile solve cell library explain
# What is built on the core through include/groat.h, and needs more than the C library.
UPPER_ROOMS := mend sheet listing chart study report command
UPPER_LIBRARIES := -lyajl -lunistring -pthread -lm

CORE_SOURCES  := $(wildcard grammar/*.c) $(foreach room,$(CORE_ROOMS),$(wildcard engine/$(room)/*.c))
UPPER_SOURCES := $(foreach room,$(UPPER_ROOMS),$(wildcard engine/$(room)/*.c))
GENERATED     := $(B)/generated/lexer.c $(B)/generated/grammar.c
MANUALS       := $(B)/generated/manuals.c
METHODS       := $(B)/generated/methods.c
METHOD_FILES  := rules/ladders.rules $(sort $(wildcard rules/methods/*.rules rules/methods/*.csv))

# Every source is compiled twice: without asserts for what is released, and with them, below $(C),
# for the tests, which have a command of their own there.
C               := $(B)/checked
CORE_OBJECTS    := $(CORE_SOURCES:%.c=$(B)/%.o) $(GENERATED:.c=.o)
UPPER_OBJECTS   := $(UPPER_SOURCES:%.c=$(B)/%.o) $(MANUALS:.c=.o) $(METHODS:.c=.o)
OBJECTS         := $(CORE_OBJECTS) $(UPPER_OBJECTS)
CHECKED_OBJECTS := $(OBJECTS:$(B)/%=$(C)/%)

TEST_SOURCES := $(sort $(wildcard tests/*/*_test.c))
TESTS        := $(TEST_SOURCES:%.c=$(B)/%)
HOSTS        := $(patsubst tests/%.c,$(B)/%,$(wildcard tests/hosts/*.c))

.PHONY: all library demo tests checked check check-all check-long check-sanitized check-threads mutants bench \
        install uninstall clean help needed packages packages-build ALWAYS
.SECONDARY:

# As many jobs as there are processors, unless -j was given.
JOBS = --no-print-directory $(if $(filter -j%,$(MAKEFLAGS)),,-j$(shell nproc 2>/dev/null || echo 2))

all: needed
	@$(MAKE) $(JOBS) library $(B)/compile_commands.json
library: $(B)/groat $(B)/libgroat.a $(B)/libgroat.so

help:
	@echo 'make              build $(B)/groat, $(B)/libgroat.a and $(B)/libgroat.so,'
	@echo '                  and $(B)/compile_commands.json for editors and analysers'
	@echo 'make packages     install the Debian packages that the build and the tests need;'
	@echo '                  make packages-build installs those of the build alone'
	@echo 'make demo         install what the build needs, build, and price the demo shop, Fernhollow'
	@echo 'make check        install what is needed, build, and run all tests'
	@echo 'make check-sanitized   the same under the address and undefined-behaviour sanitizers'
	@echo 'make check-threads     the programs in which threads work, under the thread sanitizer'
	@echo 'make check-long   a hundred thousand random shops against an independent calculation,'
	@echo '                  random aims against every price, slips in rules and sheets, and mutants'
	@echo 'make mutants      COUNT=300 SEED=1: small changes of the engine, which the tests must notice'
	@echo 'make bench        nanoseconds a price, beside the same method written by hand in C'
	@echo 'make fuzz-rules fuzz-tidy fuzz-cells fuzz-sheets   SECONDS=60: random bytes at the readers'
	@echo 'make install      PREFIX=$(PREFIX): the command, the libraries and the header, below'
	@echo '                  DESTDIR if it is given; make uninstall removes them'

# ---- packages ----

# Ends the recipe when all packages of $(1) are installed; otherwise says what $(2) lacks, after
# which $$missing names them. Where there is no dpkg, the compiler is left to find what is missing.
define find_missing
	missing=; command -v dpkg-query >/dev/null || exit 0; \
	for package in $(1); do \
	    [ "$$(dpkg-query -W -f='$${db:Status-Status}' $$package 2>/dev/null)" = installed ] || \
	        missing="$$missing $$package"; done; \
	[ -n "$$missing" ] || exit 0; \
	echo "$(2) needs these Debian packages, which are not installed:$$missing"
endef

define install_missing
	@$(find_missing); \
	if [ "$$(id -u)" = 0 ]; then as=; \
	elif sudo -n true 2>/dev/null; then as="sudo -n"; \
	else echo "To install them: sudo apt-get install$$missing"; exit 1; fi; \
	echo "They are installed now: $${as:+$$as }apt-get install$$missing"; \
	$$as apt-get update -qq >/dev/null; \
	DEBIAN_FRONTEND=noninteractive $$as apt-get install -y -qq $$missing >/dev/null || \
	    { echo "apt-get has failed; please install these packages yourself:$$missing"; exit 1; }
endef

packages-build:
	$(call install_missing,$(BUILD_PACKAGES),The build)
packages:
	$(call install_missing,$(BUILD_PACKAGES) $(CHECK_PACKAGES),The build with its tests)

# A plain `make` installs nothing.
needed:
	@$(call find_missing,$(BUILD_PACKAGES),The build); \
	echo "To install them: make packages-build, or sudo apt-get install$$missing"; exit 1

# ---- build ----

# The compiler and its flags, in a file that changes only when they do: then all is compiled anew.
quoted = '$(subst ','\'',$(1))'
$(B)/flags: ALWAYS
	@mkdir -p $(@D)
	@{ $(CC) --version | head -n 1; \
	   printf '%s\n' $(call quoted,$(COMPILE)) $(call quoted,$(UPPER_LIBRARIES)); } >$@.new; \
	if cmp -s $@.new $@; then rm $@.new; else mv $@.new $@; fi

# How each file is compiled, for editors and analysers.
in_json = $(subst ",\",$(subst \,\\,$(1)))
define entries
	for file in $(1); do \
	    printf '%s\n{"directory": "%s", "file": "%s", "command": "%s -c %s"}' "$$before" \
	        $(call quoted,$(call in_json,$(CURDIR))) $$file \
	        $(call quoted,$(call in_json,$(2))) $$file; before=,; done
endef
$(B)/compile_commands.json: ALWAYS
	@mkdir -p $(@D)
	@{ before='['; \
	   $(call entries,$(CORE_SOURCES) $(UPPER_SOURCES),$(COMPILE)); \
	   $(call entries,$(GENERATED) $(MANUALS) $(METHODS),$(COMPILE) $(UNTIDY)); \
	   $(call entries,$(TEST_SOURCES) $(wildcard tests/fuzz/*.c),$(COMPILE) -Itests); \
	   $(call entries,$(wildcard tests/hosts/*.c tests/bench/*.c),$(HOST) -D_POSIX_C_SOURCE=200809L); \
	   printf '\n]\n'; } >$@.new; \
	if cmp -s $@.new $@; then rm $@.new; else mv $@.new $@; fi

# One object, in which every name but those of groat.h is made local, so that a host may have names
# of its own that the rooms have too.
$(B)/libgroat.o: $(CORE_OBJECTS)
	$(CC) $(filter-out -fsanitize%,$(CFLAGS)) -r -nostdlib -o $@ $^
	$(OBJCOPY) --localize-hidden $@
$(B)/libgroat.a: $(B)/libgroat.o
	@rm -f $@
	ar rcs $@ $^
$(B)/libgroat.so: $(CORE_OBJECTS)
	$(CC) $(CFLAGS) -shared -o $@ $^
# All objects under one short name, for the linker; only their paths are in it.
$(B)/objects.a: $(OBJECTS)
$(C)/objects.a: $(CHECKED_OBJECTS)
%/objects.a:
	@rm -f $@
	@ar rcsT $@ $^
%/groat: %/objects.a
	$(CC) $(CFLAGS) -o $@ $*/engine/command/main.o $< $(UPPER_LIBRARIES)

# The lexer and the parser are written by re2c and Lemon. A conflict in the grammar ends the build:
# Lemon then exits with a status of its own.
$(B)/generated/lexer.c: grammar/lexer.re
	@mkdir -p $(@D)
	re2c --no-debug-info -W -Werror -o $@ $<
$(B)/generated/grammar.c $(B)/generated/grammar.h &: grammar/grammar.y
	@mkdir -p $(@D)
	lemon -c -l -d$(B)/generated $< || { rm -f $(B)/generated/grammar.[ch]; exit 1; }
# The manuals of the command's verbs; a verb without one is not linked.
$(MANUALS): engine/command/manual.awk engine/command/quoted.awk engine/command/manual \
            $(wildcard engine/command/manual/*.txt)
	@mkdir -p $(@D)
	awk -f engine/command/quoted.awk -f $< $(filter %.txt,$^) >$@.new && mv $@.new $@
# The ready-made methods, which `groat start` writes.
$(METHODS): engine/command/methods.awk engine/command/quoted.awk rules/methods $(METHOD_FILES)
	@mkdir -p $(@D)
	awk -f engine/command/quoted.awk -f $< $(METHOD_FILES) >$@.new && mv $@.new $@
$(OBJECTS) $(CHECKED_OBJECTS): $(B)/flags | $(B)/generated/grammar.h
# What the generators write is theirs to keep tidy.
UNTIDY := -Wno-conversion -Wno-sign-conversion -Wno-unused-parameter -Wno-unused-variable \
          -Wno-overlength-strings -Wno-shadow
$(B)/generated/%.o: $(B)/generated/%.c
	$(COMPILE) $(UNTIDY) -DNDEBUG -c -o $@ $<
$(C)/generated/%.o: $(B)/generated/%.c
	@mkdir -p $(@D)
	$(COMPILE) $(UNTIDY) -c -o $@ $<

$(B)/%.o: %.c
	@mkdir -p $(@D)
	$(COMPILE) -DNDEBUG -c -o $@ $<
$(C)/%.o: %.c
	@mkdir -p $(@D)
	$(COMPILE) -c -o $@ $<

install: all
	install -d $(DESTDIR)$(PREFIX)/bin $(DESTDIR)$(PREFIX)/lib $(DESTDIR)$(PREFIX)/include
	install -m 755 $(B)/groat $(DESTDIR)$(PREFIX)/bin
	install -m 644 $(B)/libgroat.a $(B)/libgroat.so $(DESTDIR)$(PREFIX)/lib
	install -m 644 include/groat.h $(DESTDIR)$(PREFIX)/include
uninstall:
	rm -f $(DESTDIR)$(PREFIX)/bin/groat $(DESTDIR)$(PREFIX)/include/groat.h \
	    $(DESTDIR)$(PREFIX)/lib/libgroat.a $(DESTDIR)$(PREFIX)/lib/libgroat.so

# ---- demo ----

demo: packages-build
	@$(MAKE) $(JOBS) all
	@echo
	@$(B)/groat check rules/fernhollow/fernhollow.rules
	@echo
	@$(B)/groat price rules/fernhollow/fernhollow.rules rules/fernhollow/products.csv

# ---- tests ----

# Tests are programs of their own. Each sees the private headers and may call what is in any object.
$(B)/tests/%_test: tests/%_test.c $(C)/objects.a
	@mkdir -p $(@D)
	$(COMPILE) -Itests -o $@ $< $(C)/objects.a $(UPPER_LIBRARIES) -lgmp -lcmocka $(WRAPPED)
# The studies and the command take memory from the C library: here the test stands before it and
# refuses some.
$(B)/tests/fault/studies_test $(B)/tests/fault/start_test: WRAPPED := -Wl,--wrap=malloc,--wrap=calloc,--wrap=realloc
$(B)/hosts/%.o: tests/hosts/%.c include/groat.h
	@mkdir -p $(@D)
	$(HOST) -c -o $@ $<
$(B)/hosts/%: $(B)/hosts/%.o $(B)/libgroat.a
	$(HOST) -o $@ $^

include tests/published/fetch.mk
-include tests/fuzz/fuzz.mk

check: packages published
	@$(MAKE) $(JOBS) library $(B)/compile_commands.json checked
	@$(MAKE) --no-print-directory check-all
tests: $(TESTS) $(C)/groat
# All that check-all runs. RELEASED is the command that the documents are run with.
RELEASED ?= $(B)/groat
checked: tests $(HOSTS) $(B)/libgroat.so $(RELEASED)

# Every test program, then the independent calculations; all of them run, and one failure fails all.
# These try the command with asserts; what the documents show and the hosts try what is released.
# With CI=true in the environment, a test that is skipped for want of data counts as failed.
check-all:
	@failed=; for test in $(TESTS); do \
	    echo "== $${test#$(B)/}"; \
	    GROAT=$(C)/groat $$test >$$test.log 2>&1 || failed="$$failed $$test"; cat $$test.log; \
	    [ "$$CI" = true ] && grep -q '^\[  SKIPPED \]' $$test.log && \
	        failed="$$failed $$test(skipped)"; done; \
	echo "== tests/documents/run.py tests/command"; \
	python3 tests/documents/run.py $(C)/groat tests/command/*.md || failed="$$failed command"; \
	echo "== tests/oracle/run.py"; \
	python3 tests/oracle/run.py $(C)/groat || failed="$$failed oracle"; \
	echo "== tests/oracle/random_shops.py"; \
	python3 tests/oracle/random_shops.py $(C)/groat $(RANDOM_SHOPS) 1 || failed="$$failed random"; \
	echo "== tests/oracle/studies.py"; \
	python3 tests/oracle/studies.py $(C)/groat || failed="$$failed studies"; \
	echo "== tests/slips/run.py"; \
	python3 tests/slips/run.py $(C)/groat --count $(SLIPS) --floor 93 || failed="$$failed slips"; \
	echo "== tests/documents/run.py README.md grammar/LANGUAGE.md grammar/HOWTO.md"; \
	python3 tests/documents/run.py $(RELEASED) README.md grammar/LANGUAGE.md grammar/HOWTO.md || \
	    failed="$$failed documents"; \
	echo "== tests/documents/columns.py"; \
	python3 tests/documents/columns.py $(C)/groat || failed="$$failed columns"; \
	echo "== tests/documents/rooms.py"; \
	python3 tests/documents/rooms.py || failed="$$failed rooms"; \
	echo "== tests/documents/figures.py"; \
	python3 tests/documents/figures.py || failed="$$failed figures"; \
	for host in $(HOSTS); do \
	    text=tests/$${host#$(B)/}.txt; echo "== $${text%.txt}.c"; \
	    $$host | diff - $$text && echo '1 passed, 0 failed' || failed="$$failed $$host"; done; \
	echo "== tests/hosts/names.sh"; \
	CC='$(CC)' tests/hosts/names.sh $(B) || failed="$$failed names"; \
	[ -z "$$failed" ] || { echo "FAILED:$$failed"; exit 1; }; echo "All tests passed."
RANDOM_SHOPS ?= 4000
# Of each kind of slip in rules and sheets.
SLIPS ?= 2

check-long: packages
	@$(MAKE) $(JOBS) library
	python3 tests/oracle/random_shops.py $(B)/groat 100000 2
	@$(MAKE) $(JOBS) $(B)/tests/property/aims_test
	$(B)/tests/property/aims_test 2 20000
	python3 tests/slips/run.py $(B)/groat --count 40 --seed 2 --floor 93 --list unmended,misplaced,silent
	@$(MAKE) --no-print-directory mutants

# Small changes of the engine, one at a time, which the tests have to notice.
COUNT ?= 300
SEED  ?= 1
mutants: packages
	@$(MAKE) $(JOBS) library
	python3 tests/mutation/run.py $(COUNT) $(SEED)

SANITIZERS := -O1 -g -fsanitize=address,undefined -fno-sanitize-recover=undefined
check-sanitized: packages published
	@$(MAKE) $(JOBS) $(SANITIZED) CFLAGS='$(SANITIZERS)' checked
	@$(MAKE) --no-print-directory $(SANITIZED) RANDOM_SHOPS=400 check-all
SANITIZED := B=build/sanitized RELEASED=build/sanitized/checked/groat

# The programs in which several threads work, under the thread sanitizer.
THREADED := B=build/threads CFLAGS='-O1 -g -fsanitize=thread'
THREAD_TESTS := fault/threads unit/crew
check-threads: packages
	@$(MAKE) $(JOBS) $(THREADED) build/threads/checked/groat \
	    $(THREAD_TESTS:%=build/threads/tests/%_test)
	@failed=; for test in $(THREAD_TESTS:%=build/threads/tests/%_test); do \
	    echo "== $$test"; TSAN_OPTIONS=halt_on_error=1 GROAT=build/threads/checked/groat $$test || \
	        failed="$$failed $$test"; done; \
	TSAN_OPTIONS=halt_on_error=1 python3 tests/documents/run.py build/threads/checked/groat \
	    tests/command/sweep.md tests/command/drivers.md tests/command/stream.md || failed="$$failed command"; \
	[ -z "$$failed" ] || { echo "FAILED:$$failed"; exit 1; }; echo "All tests passed."

# ---- speed ----

$(B)/bench: tests/bench/bench.c tests/bench/by_hand.h tests/bench/workload.h $(B)/libgroat.a
	$(HOST) -D_POSIX_C_SOURCE=200809L -o $@ $< $(B)/libgroat.a
$(B)/rows: tests/bench/rows.c tests/bench/by_hand.h tests/bench/workload.h
	$(HOST) -D_POSIX_C_SOURCE=200809L -o $@ $<
bench: packages-build
	@$(MAKE) $(JOBS) $(B)/bench
	@$(B)/bench tests/bench/workshop.rules
bench-rows: packages-build
	@$(MAKE) $(JOBS) $(B)/rows $(B)/groat
	@python3 tests/bench/rows.py $(B)/groat $(B)/rows tests/bench/workshop.rules

-include $(OBJECTS:.o=.d) $(CHECKED_OBJECTS:.o=.d) $(TESTS:%=%.d)

clean:
	rm -rf $(B)
