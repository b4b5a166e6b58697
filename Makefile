# The commands of the house. Everything but `test` needs Go alone.
GO ?= go

.PHONY: build demo test lint bench tools

build:
	$(GO) build -trimpath -o pegwright .

demo:
	$(GO) run . demo

# From a bare machine to an answer: the tools that tests use, the style of the
# sources, every test, and every test again with the race detector, under which
# the sweeps over whole boards are thinned.
test: tools lint
	$(GO) test ./...
	$(GO) test -race ./...

lint:
	@bad=$$(gofmt -l .; $(GO) tool gofumpt -l .); if [ -n "$$bad" ]; then \
		echo "not formatted (go tool gofumpt -w FILE mends it):"; echo "$$bad" | sort -u; exit 1; fi
	$(GO) vet ./...
	$(GO) tool staticcheck ./...

bench:
	$(GO) test -run '^$$' -bench . -benchmem ./...

# The race detector needs a C compiler; the tests of PDF files need pdftotext.
# Installed with apt-get where they are missing.
tools:
	@missing=""; \
	command -v gcc >/dev/null || missing="$$missing gcc libc6-dev"; \
	command -v pdftotext >/dev/null || missing="$$missing poppler-utils"; \
	if [ -n "$$missing" ]; then \
		apt-get update && DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends $$missing; fi
