# Random bytes at the readers, for SECONDS each: `make fuzz-rules fuzz-tidy fuzz-cells fuzz-sheets`.
# Needs clang with its fuzzer. What is found stays in build/fuzz, and what was tried there goes on.

SECONDS     ?= 60
FUZZ        := $(B)/fuzz
FUZZ_FLAGS  := -std=c11 -g -O1 -fsanitize=fuzzer,address,undefined \
               -fno-sanitize-recover=undefined
FUZZ_CC     ?= clang
FUZZ_BEGIN  := tests/fuzz/dictionary.txt

.PHONY: fuzz-rules fuzz-tidy fuzz-cells fuzz-sheets

$(FUZZ)/%: tests/fuzz/%_fuzz.c $(CORE_SOURCES) $(GENERATED) $(wildcard engine/sheet/*.c)
	@mkdir -p $(@D)
	$(FUZZ_CC) $(FUZZ_FLAGS) $(PATHS) -Itests -o $@ $< $(CORE_SOURCES) $(GENERATED) \
	    $(if $(filter sheet,$*),$(wildcard engine/sheet/*.c) $(UPPER_LIBRARIES))

# The rules of the tree, and every line of them alone, to begin with.
$(FUZZ)/rules-seeds: $(wildcard rules/*.rules rules/*/*.rules tests/*/*.rules tests/*/*/*.rules)
	@rm -rf $@ && mkdir -p $@
	@for file in $^; do cp $$file $@/$$(echo $$file | tr / _); done
$(FUZZ)/cells-seeds: $(wildcard rules/*/*.csv tests/oracle/scenarios/*/products.csv)
	@rm -rf $@ && mkdir -p $@
	@cat $^ | tr ',' '\n' | sort -u | awk '{ printf "%s", $$0 > "$@/" NR; close("$@/" NR) }'
$(FUZZ)/sheets-seeds: $(wildcard rules/*/*.csv tests/oracle/scenarios/*/products.csv)
	@rm -rf $@ && mkdir -p $@
	@for file in $^; do for form in 0 1 2 3; do \
	    { printf "\\$$form"; cat $$file; } > $@/$$form$$(echo $$file | tr / _); done; done

# $(1) the fuzzer, $(2) its seeds, $(3) the longest input
define fuzz
	@mkdir -p $(FUZZ)/$(2)-found
	$(FUZZ)/$(1) -max_total_time=$(SECONDS) -max_len=$(3) -timeout=20 -rss_limit_mb=3000 \
	    -print_final_stats=1 -verbosity=0 -dict=$(FUZZ_BEGIN) -artifact_prefix=$(FUZZ)/$(2)- \
	    $(FUZZ)/$(2)-found $(FUZZ)/$(2)-seeds
endef

fuzz-rules: packages-build $(FUZZ)/rules $(FUZZ)/rules-seeds
	$(call fuzz,rules,rules,6000)
fuzz-tidy: packages-build $(FUZZ)/tidy $(FUZZ)/rules-seeds
	@rm -rf $(FUZZ)/tidy-seeds && cp -r $(FUZZ)/rules-seeds $(FUZZ)/tidy-seeds
	$(call fuzz,tidy,tidy,4000)
fuzz-cells: packages-build $(FUZZ)/cell $(FUZZ)/cells-seeds
	$(call fuzz,cell,cells,400)
fuzz-sheets: packages-build $(FUZZ)/sheet $(FUZZ)/sheets-seeds
	$(call fuzz,sheet,sheets,4000)
