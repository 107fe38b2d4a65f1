# Groat: build, demo and checks. `make help` lists what there is.
#
# Two commands do everything on a fresh Debian machine: `make demo` and `make check`.

CC      ?= cc
CFLAGS  ?= -O2 -g
WARN    := -std=c11 -Wall -Wextra -Wconversion -Wshadow -Wpedantic
B       := build
PATHS   := -Iinclude -Iengine -Igrammar -I$(B)/generated
COMPILE  = $(CC) $(WARN) $(CFLAGS) -fPIC -fvisibility=hidden $(PATHS) -MMD -MP

# The stages of the core, in the order in which data flows; libgroat is these and the C library.
CORE_ROOMS := memory number unit source tree names types program compile evaluate solve record library
# What is built on the core through include/groat.h, and needs more than the C library.
UPPER_ROOMS := sheet report command
UPPER_LIBRARIES := -lcsv -lyajl -lunistring

CORE_SOURCES  := $(foreach room,$(CORE_ROOMS),$(wildcard engine/$(room)/*.c)) \
                 $(wildcard grammar/*.c)
UPPER_SOURCES := $(foreach room,$(UPPER_ROOMS),$(wildcard engine/$(room)/*.c))
GENERATED     := $(B)/generated/lexer.c $(B)/generated/grammar.c
CORE_OBJECTS  := $(CORE_SOURCES:%.c=$(B)/%.o) $(GENERATED:.c=.o)
UPPER_OBJECTS := $(UPPER_SOURCES:%.c=$(B)/%.o)
ROOM_OBJECTS  := $(filter-out $(B)/engine/command/main.o,$(UPPER_OBJECTS))

TEST_SOURCES := $(wildcard tests/*/*_test.c)
TESTS        := $(TEST_SOURCES:%.c=$(B)/%)

.PHONY: all setup demo check bench clean help
all: setup
	@$(MAKE) --no-print-directory $(B)/groat $(B)/libgroat.a $(B)/libgroat.so

$(B)/libgroat.a: $(CORE_OBJECTS)
	@rm -f $@
	ar rcs $@ $^
$(B)/libgroat.so: $(CORE_OBJECTS)
	$(CC) $(CFLAGS) -shared -o $@ $^
$(B)/groat: $(UPPER_OBJECTS) $(B)/libgroat.a
	$(CC) $(CFLAGS) -o $@ $(UPPER_OBJECTS) $(B)/libgroat.a $(UPPER_LIBRARIES)

# The lexer and the parser are written by re2c and Lemon. A conflict in the grammar ends the build:
# Lemon then exits with a status of its own.
$(B)/generated/lexer.c: grammar/lexer.re
	@mkdir -p $(@D)
	re2c --no-debug-info -W -Werror -o $@ $<
$(B)/generated/grammar.c $(B)/generated/grammar.h &: grammar/grammar.y
	@mkdir -p $(@D)
	lemon -c -l -d$(B)/generated $< || { rm -f $(B)/generated/grammar.[ch]; exit 1; }
$(CORE_OBJECTS): | $(B)/generated/grammar.h
# What the generators write is theirs to keep tidy.
$(B)/generated/%.o: $(B)/generated/%.c
	$(COMPILE) -Wno-conversion -Wno-sign-conversion -Wno-unused-parameter -Wno-unused-variable \
	    -Wno-overlength-strings -Wno-shadow -c -o $@ $<

$(B)/%.o: %.c
	@mkdir -p $(@D)
	$(COMPILE) -c -o $@ $<

# Tests are programs of their own; each sees the private headers and the rooms above the core.
$(B)/tests/%_test: tests/%_test.c $(B)/libgroat.a $(ROOM_OBJECTS)
	@mkdir -p $(@D)
	$(COMPILE) -Itests -o $@ $< $(ROOM_OBJECTS) $(B)/libgroat.a $(UPPER_LIBRARIES) -lcmocka -lgmp

-include $(CORE_OBJECTS:.o=.d) $(UPPER_OBJECTS:.o=.d) $(TESTS:%=%.d)

clean:
	rm -rf $(B)
