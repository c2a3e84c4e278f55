# Each command gets the tools it needs by itself: see .ci/tools.sh.

# Views of one type instead of one for every tag and its children: a seventh less WebAssembly. What reads a job
# is split off (src/page/workshop.rs), for which the linker leaves its notes in the program.
export CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_RUSTFLAGS := --cfg erase_components --cfg split -C link-args=--emit-relocs

PORT ?= 8080
PAGE_SOURCES := index.html Trunk.toml Cargo.toml Cargo.lock $(shell find src style .ci -type f)

.PHONY: help run test dist check evidence pictures bench

help:
	@echo "make run           build the page and serve it (PORT=$(PORT))"
	@echo "make test          everything that is checked: formatting, lints, calculations, the page in a browser"
	@echo "make test T=name   only the tests whose name contains it"
	@echo "make evidence      write tests/README.md and style/evidence.html anew, from what the checks state"
	@echo "make pictures      every screen into target/pictures, and the README's pictures anew"
	@echo "make bench         how fast it is, as one table; what a dying battery costs; half an hour of random taps"
	@echo "make dist          leave the page in dist/, for any static host and under any path"

dist: dist/index.html

dist/index.html: $(PAGE_SOURCES)
	.ci/tools.sh page trunk build --dist dist

# Built first, so that a page which does not build is an error and not an empty server. Trunk would rebuild
# what it serves whenever a file changes; here it shall watch nothing.
run: dist
	@echo "This machine opens the address marked with a house, a phone in the same network the one with a screen."
	@echo "A phone keeps the page for use offline only if it came over https: publish dist/ for that (make dist)."
	.ci/tools.sh page trunk serve --dist dist --no-autoreload --no-spa --disable-address-lookup \
		--ignore . --address 0.0.0.0 --port $(PORT)

test: $(if $(T),,check) dist
	.ci/tools.sh browser cargo test --locked $(T)

check:
	.ci/tools.sh browser cargo fmt --check
	cargo clippy --locked --all-targets -- -D warnings
	cargo clippy --locked --target wasm32-unknown-unknown --lib --bin pourwright --bin plate-worker -- -D warnings

evidence:
	EVIDENCE=write cargo test --locked --test handbook page_is_what_the_checks_say

pictures: dist
	.ci/tools.sh browser cargo test --locked --test browser every_screen
	cp target/pictures/phone-light-1-measure.png tests/browser/pictures/measure.png
	cp target/pictures/phone-light-2-build.png tests/browser/pictures/build.png
	cp target/pictures/phone-light-3-pour.png tests/browser/pictures/pour.png
	cp target/pictures/desk-dark-1-measure.png tests/browser/pictures/desk.png

bench: dist
	cargo bench --locked --bench estimate --bench geometry --bench readers --bench sheets
	.ci/tools.sh bench cargo bench --locked --profile dev --bench page
	POURWRIGHT_FAULTS=all .ci/tools.sh browser cargo test --quiet --locked --test browser -- --nocapture battery
	POURWRIGHT_MONKEY=30 .ci/tools.sh browser cargo test --quiet --locked --test browser -- --nocapture monkey
