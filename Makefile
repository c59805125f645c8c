# Everything that continuous integration runs, and the release.
GO      ?= go
TOOL    := $(GO) tool -modfile=.ci/tools.mod
VERSION ?= $(shell git describe --tags --always --dirty 2>/dev/null || echo dev)

.PHONY: check test lint fuzz bench golden docs release clean

check: lint test            ## what continuous integration runs

test:                       ## the README's test command, with the race detector
	$(GO) test -race ./...

lint:                       ## formatting, vet, static analysis
	@test -z "$$($(TOOL) gofumpt -l cmd internal taxtables)" || { echo "not gofumpt-clean:"; $(TOOL) gofumpt -l cmd internal taxtables; exit 1; }
	$(GO) vet ./...
	$(TOOL) staticcheck ./...

golden:                     ## rewrite golden files; review their diff like code
	$(GO) test ./... -update

bench:                      ## speeds, as reported in docs/speed.md
	$(GO) test -run '^$$' -bench . ./...

clean:
	rm -rf dist plumbline
