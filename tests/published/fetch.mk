# Published data that tests compare with: `make published` fetches it once, into build/published/.
#
# It comes from the npm registry at the versions named here, and is not kept in the repository.
# Without npm or a network the target says so in one line and succeeds; the tests that need the
# data then skip, and say that they do. Every build reads the same data, whatever its folder is.

PUBLISHED_PACKAGES := currency-codes@2.2.0 cldr-core@48.2.0 csv-spectrum@2.0.0
PUBLISHED_FOLDER   := build/published

# Without retries, so that a machine off the network is not kept waiting.
PUBLISHED_NPM := npm --silent --fetch-retries=0 --fetch-timeout=20000

# A package is unpacked beside its place and moved there whole; its stamp carries the version.
.PHONY: published
published:
	@mkdir -p $(PUBLISHED_FOLDER) && cd $(PUBLISHED_FOLDER) || exit 1; \
	for package in $(PUBLISHED_PACKAGES); do \
	    name=$${package%@*}; \
	    stamp=$$name/.fetched-$${package#*@}; \
	    test -e $$stamp && continue; \
	    if ! command -v npm >/dev/null; then \
	        echo "published: npm is not installed, so tests against published data will skip"; \
	        exit 0; \
	    fi; \
	    only=; \
	    test $$name = cldr-core && only=package/supplemental/currencyData.json; \
	    rm -rf $$name part-$$name && mkdir part-$$name; \
	    if (cd part-$$name && $(PUBLISHED_NPM) pack $$package && \
	        tar xzf $$name-*.tgz --strip-components=1 $$only) >/dev/null 2>&1; then \
	        rm -f part-$$name/*.tgz; \
	        mv part-$$name $$name && touch $$stamp; \
	    else \
	        rm -rf part-$$name; \
	        echo "published: cannot fetch $$package, so tests against published data will skip"; \
	        exit 0; \
	    fi; \
	done
