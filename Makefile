# Everything but `make run` and `make build` is for people who work on the program.
# Needed: Go. The tests also want node and Chromium; see .ci/tools.

.PHONY: help run build test tools vet unit wasm page bench weigh lint fuzz

help:
	@echo "make run    build the page and serve it on this computer (PORT=8017 chooses the port)"
	@echo "make build  build the page for release into .build/site"
	@echo "make test   all tests: native, under js/wasm, and the page in Chromium"
	@echo "make bench  speed and sizes"
	@echo "make weigh  bytes of each program by package"
	@echo "make fuzz   each fuzz target for a minute (FUZZTIME=3m for longer)"
	@echo "make lint   format, vet, and what has grown too long"

run:
	go run ./wasm/serve

build:
	go run ./wasm/serve -build

test: tools vet unit wasm page

tools:
	@.ci/tools

# -trimpath, here and below, lets the steps for js share what is compiled with the
# build of the page.
vet:
	go vet ./...
	GOOS=js GOARCH=wasm go vet -trimpath $$(GOOS=js GOARCH=wasm go list ./... | grep -v -e /wasm/serve -e /wasm/e2e)

# The packages with property tests draw the same values in each run, so that a change is
# judged by what it changes; make fuzz draws anew.
DRAWN = go list -f '{{range .TestImports}}{{if eq . "pgregory.net/rapid"}}{{$$.ImportPath}}{{"\n"}}{{end}}{{end}}{{range .XTestImports}}{{if eq . "pgregory.net/rapid"}}{{$$.ImportPath}}{{"\n"}}{{end}}{{end}}' ./... | sort -u
SEED ?= 1

# All packages but the page tests, which want the machine for themselves.
unit:
	@mkdir -p .build; $(DRAWN) >.build/drawn.txt
	go test -timeout 30m $$(cat .build/drawn.txt) -rapid.seed=$(SEED)
	go test -timeout 30m $$(go list ./... | grep -v /wasm/e2e | grep -vxFf .build/drawn.txt)

# The packages that draw no pictures, as they run in the browser. Natively, go list
# leaves out what is for js alone. The little environment is needed since the
# runtime refuses more than some 12 kB of it. A short run: fewer draws of the
# property tests, fewer shapes of block, and no simulations of a thousand learners,
# all of which ran natively.
WASM_TEST = GOOS=js GOARCH=wasm go test -trimpath -exec "env -i PATH='$$PATH' $$(go env GOROOT)/lib/wasm/go_js_wasm_exec"
PURE = $$(go list ./path/... ./scoring/... ./game/... | grep -v -e /game/scene -e /game/card -e /game/film -e /game/softdraw)

wasm:
	@if command -v node >/dev/null; then \
		mkdir -p .build; $(DRAWN) >.build/drawn.txt; set -x; \
		$(WASM_TEST) -timeout 30m -short $$(echo $(PURE) | tr ' ' '\n' | grep -xFf .build/drawn.txt) -rapid.seed=$(SEED) && \
		$(WASM_TEST) -timeout 30m -short $$(echo $(PURE) | tr ' ' '\n' | grep -vxFf .build/drawn.txt); \
	elif [ -n "$$CI" ]; then \
		echo "node is missing: nothing was tested under js/wasm" >&2; exit 1; \
	else \
		echo "SKIPPED: node is missing, nothing was tested under js/wasm"; \
	fi

page:
	go test -count=1 -timeout 30m -p 1 ./wasm/e2e/...

bench:
	go test -run NONE -bench . -benchmem $$(go list ./... | grep -v /wasm/e2e)
	$(WASM_TEST) -run NONE -bench . $(PURE)
	go run ./wasm/serve -build
	go test -run NONE -bench . ./wasm/e2e

weigh:
	go run ./wasm/serve -weigh

# Each target for a minute (FUZZTIME), one after the other. What is found is written into
# testdata/fuzz beside the test; commit it with the mending.
FUZZTIME ?= 60s
fuzz:
	@mkdir -p .build; $(DRAWN) >.build/drawn.txt
	go test -timeout 60m -count=1 $$(cat .build/drawn.txt) -rapid.seed=0
	@grep -rl --include='*_test.go' '^func Fuzz' game path scoring wasm | while read file; do \
		for target in $$(sed -n 's/^func \(Fuzz[A-Za-z0-9]*\).*/\1/p' $$file); do \
			echo "$$(dirname $$file) $$target"; \
			go test ./$$(dirname $$file) -run NONE -fuzz "^$$target\$$" -fuzztime $(FUZZTIME) -parallel 2 >.build/fuzz.txt 2>&1 </dev/null \
				|| { cat .build/fuzz.txt; exit 1; }; \
			tail -3 .build/fuzz.txt | head -1; \
		done; \
	done

lint: vet
	@bad=$$(gofmt -l game path scoring wasm); if [ -n "$$bad" ]; then echo "not formatted by gofmt:"; echo "$$bad"; exit 1; fi
	go tool staticcheck ./...
	go run ./wasm/serve/lint
