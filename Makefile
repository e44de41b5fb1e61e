# `make` alone explains every target.

PYTHON ?= python3
PORT   ?= 8000
VENV   := .venv
BIN    := $(VENV)/bin

# A stamp carries a checksum of the lock files: unchanged locks cost nothing, changed ones install.
sum     = $(shell cat $(1) | sha256sum | cut -c1-12)
RUN_OK  := $(VENV)/.run-$(call sum,requirements/uv.txt requirements/base.txt)
TEST_OK := $(VENV)/.test-$(call sum,requirements/uv.txt requirements/dev.txt)

export UV_PYTHON_DOWNLOADS := never
export UV_NO_CONFIG := 1

LOCK := $(BIN)/uv pip compile -q --universal --python-version 3.11 --generate-hashes --no-header $(if $(UPGRADE),--upgrade)
PURE := catalog/domain intake/domain $(wildcard intake/checks intake/evaluate.py quotes/domain)

.DEFAULT_GOAL := help
.PHONY: help run season test test-sqlite test-postgres lint bench audit words backup restore lock clean system

help:  ## what you are reading
	@echo "Fairgap. Two commands are enough: make run, make test."
	@echo
	@sed -n 's/^\([a-z-]*\):.*## \(.*\)/  make \1|\2/p' $(MAKEFILE_LIST) | column -t -s'|' 2>/dev/null \
	  || sed -n 's/^\([a-z-]*\):.*## \(.*\)/  make \1   \2/p' $(MAKEFILE_LIST)

$(BIN)/uv: requirements/uv.txt
	@test -x $(BIN)/pip || $(PYTHON) -m venv $(VENV) \
	  || { echo "Python could not make a virtual environment (Debian: apt-get install python3-venv)."; exit 1; }
	$(BIN)/python -m pip install -q --disable-pip-version-check --require-hashes -r requirements/uv.txt
	@touch $@

$(RUN_OK): $(BIN)/uv
	$(BIN)/uv pip install -q --python $(BIN)/python --require-hashes -r requirements/base.txt
	@touch $@

$(TEST_OK): $(BIN)/uv
	$(BIN)/uv pip sync -q --python $(BIN)/python --require-hashes requirements/dev.txt requirements/uv.txt
	@touch $@ $(RUN_OK)

run: export DEBUG := 1
run: $(RUN_OK)  ## the site with its demo shop on 127.0.0.1 (PORT=8000; DATABASE_URL is honoured)
	@$(BIN)/python manage.py migrate -v 0
	@$(BIN)/python manage.py load_demo --port $(PORT)
	@$(BIN)/python manage.py runserver 127.0.0.1:$(PORT)

season: export DEBUG := 1
season: $(RUN_OK)  ## the demo shop with eighteen months behind it, then the site (PORT=8000)
	@$(BIN)/python manage.py migrate -v 0
	@$(BIN)/python manage.py load_demo --season --port $(PORT)
	@$(BIN)/python manage.py runserver 127.0.0.1:$(PORT)

system:
	@scripts/system_deps.sh

test: $(TEST_OK) system  ## every test: on SQLite; what asks a database on PostgreSQL too, with Redis, a worker, a browser
	@$(MAKE) --no-print-directory test-sqlite
	@$(MAKE) --no-print-directory test-postgres

test-sqlite: $(TEST_OK)  ## the tests that need no server
	$(BIN)/python -m pytest -q -n 2 --dist worksteal --db=sqlite -m "not e2e and not worker"

test-postgres: $(TEST_OK) system  ## every test that asks a database, and the browser, on a private PostgreSQL
	$(BIN)/python -m pytest -q -n 2 --dist worksteal --db=postgres --only-with-a-database --reuse-db  # the server is new and thrown away

lint: $(TEST_OK)  ## style, types, room order, templates, migrations, settings of production
	@scripts/lint.sh $(PURE)

bench: $(TEST_OK)  ## how fast, as ratios against a floor measured in the same run
	@$(BIN)/python -m tests.bench

audit: $(TEST_OK)  ## known weaknesses of what we depend on (asks the network; by hand)
	$(BIN)/uvx pip-audit --strict --disable-pip --require-hashes -r requirements/base.txt

words: $(TEST_OK)  ## collect every text customers read; names what is not translated yet
	@$(BIN)/python -m scripts.words

backup restore: export DEBUG := 1
backup: $(RUN_OK)  ## everything in one file below var/backups, while the site runs (DATABASE_URL is honoured)
	@$(BIN)/python manage.py backup

restore: $(RUN_OK)  ## a backup comes back: FROM=file; stop the site first (OVER=1 replaces what is there)
	@test -n "$(FROM)" || { echo "Which one? make restore FROM=var/backups/fairgap-….zip"; exit 1; }
	@$(BIN)/python manage.py restore "$(FROM)" $(if $(OVER),--over)

lock: $(BIN)/uv  ## write the lock files anew (UPGRADE=1 takes newer versions)
	$(LOCK) requirements/uv.in -o requirements/uv.txt
	$(LOCK) requirements/base.in -o requirements/base.txt
	$(LOCK) requirements/dev.in -o requirements/dev.txt

clean:  ## remove what the commands made: environment, caches, the local database; not its backups
	test ! -d var || find var -mindepth 1 -maxdepth 1 ! -name backups -exec rm -rf {} +
	rm -rf $(VENV) staticfiles .pytest_cache .mypy_cache .ruff_cache .hypothesis .import_linter_cache
	find . -name __pycache__ -type d -prune -exec rm -rf {} +
