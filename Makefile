# The commands of the house. Everything but `test` and `lint` needs Go alone.
GO ?= go

.PHONY: build demo test tests lint bench tools

build:
	$(GO) build -trimpath -o pegwright .

demo:
	$(GO) run . demo

# From a bare machine to an answer: the tools that tests use, the style of the
# sources, and every test, with a PostgreSQL of its own. Nothing may be skipped
# for want of a tool here, which is what CI=true says.
test: tools lint
	sh store/storetest/postgres.sh run $(MAKE) tests

# Rooms that sweep over whole boards thin their sweeps under the race detector
# (their race_test.go says so), so they are tested without it too. The lesson in
# a browser is tested without it only: it starts the whole server, whose rooms
# have been through it by then.
SWEPT = $(shell find . -name race_test.go -not -path './node_modules/*' -exec dirname {} +)

tests: export CI = true
tests: export PEGWRIGHT_TEST_BROWSER = 1
tests: export PEGWRIGHT_TEST_NODE = 1
tests:
	$(GO) test $(SWEPT)
	$(GO) test -race $$($(GO) list ./... | grep -v /e2e)
	$(GO) test ./e2e

lint:
	@bad=$$(gofmt -l .; $(GO) tool gofumpt -l .); if [ -n "$$bad" ]; then \
		echo "not formatted (go tool gofumpt -w FILE mends it):"; echo "$$bad" | sort -u; exit 1; fi
	$(GO) vet ./...
	$(GO) tool staticcheck ./...
	npx --no-install tsc --noEmit

bench:
	$(GO) test -run '^$$' -bench . -benchmem ./...

# What tests need besides Go: a C compiler for the race detector, pdftotext,
# Chromium, PostgreSQL, and the two npm packages that check scripts and pages.
# What is missing is installed with apt-get, as root.
tools:
	@missing=""; \
	command -v gcc >/dev/null || missing="$$missing gcc libc6-dev"; \
	command -v pdftotext >/dev/null || missing="$$missing poppler-utils"; \
	command -v chromium >/dev/null || missing="$$missing chromium"; \
	command -v npm >/dev/null || missing="$$missing nodejs npm"; \
	ls /usr/lib/postgresql/*/bin/initdb >/dev/null 2>&1 || command -v initdb >/dev/null || missing="$$missing postgresql"; \
	if [ -n "$$missing" ]; then \
		if [ "$$(id -u)" != 0 ]; then echo "missing:$$missing; install them, or run make tools as root"; exit 1; fi; \
		apt-get update && DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends $$missing; fi
	@test -e node_modules/axe-core/axe.min.js && test -x node_modules/.bin/tsc || npm ci --no-audit --no-fund
