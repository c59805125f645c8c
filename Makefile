# Everything that continuous integration runs, and the release.
GO       ?= go
VERSION  ?= $(shell git describe --tags --always --dirty 2>/dev/null | sed 's/^v//' || echo 0)
FUZZTIME ?= 10m

# The packages whose tests know -update, and every fuzz target as package:name.
GOLDEN = $(shell grep -rl '"update", false' --include='*_test.go' cmd internal | xargs -n1 dirname | sort -u | sed 's,^,./,')
FUZZ   = $(shell grep -rnoE '^func Fuzz[A-Za-z0-9_]+' --include='*_test.go' cmd internal | sed -E 's,/[^/]*_test\.go:[0-9]+:func ,:,' | sort -u)

.PHONY: check test lint golden docs bench fuzz release reproducible clean help

check: lint                 ## formatting, vet, static analysis, and the tests with the race detector
	$(GO) test -race ./...

test:                       ## the README's test command
	$(GO) test ./...

lint:                       ## formatting, vet and static analysis
	.ci/lint

golden:                     ## rewrite golden files, scripts and documents; review their diff like code
	$(GO) test $(GOLDEN) -update

docs:                       ## rewrite the generated documents and every example in the others
	$(GO) test ./cmd/plumbline -run '^TestDoc' -update

bench:                      ## speeds
	$(GO) test -run '^$$' -bench . ./...

fuzz:                       ## every fuzz target for FUZZTIME each
	@for target in $(FUZZ); do \
		echo "== $$target for $(FUZZTIME)"; \
		$(GO) test "./$${target%:*}" -run '^$$' -fuzz "^$${target#*:}$$" -fuzztime $(FUZZTIME) || exit 1; \
	done

release:                    ## static binaries, Debian packages and checksums into dist/
	.ci/release $(VERSION)

reproducible:               ## build the release twice and compare the two, byte by byte
	.ci/release $(VERSION) dist/once
	.ci/release $(VERSION) dist/again
	cmp dist/once/SHA256SUMS dist/again/SHA256SUMS

clean:
	rm -rf dist plumbline

help:                       ## this list
	@sed -nE 's/^([a-z]+):.*## (.*)/\1\t\2/p' Makefile | expand -t 14
