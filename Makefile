# Throwbook: `make run` to try it, `make test` and `make check` to work on it. Needs Python 3.11 or newer.

SHELL := /bin/sh
VENV  := .venv
BIN   := $(VENV)/bin
PORT  ?= 8000
UV    ?= uv

# The first Python found that is new enough; PYTHON=... overrules.
PYTHON ?= $(shell for candidate in python3.11 python3 python3.12 python3.13 python3.14; do \
	"$$candidate" -c 'import sys; sys.exit(sys.version_info < (3, 11))' 2>/dev/null \
	&& { echo "$$candidate"; break; }; done)
INSTALL = $(if $(PYTHON),$(PYTHON) config/install.py,echo \
	"Python 3.11 or newer was not found. Install it, or name it: make PYTHON=/path/to/python3.11" >&2; exit 1;)

# One lock for every system and Python; the address of a package index never enters it.
COMPILE = $(UV) pip compile --universal --python-version 3.11 --generate-hashes --no-emit-index-url \
	--custom-compile-command "make lock" --quiet

# Stand-ins for the deploy check, which reads the production settings and connects to nothing.
DEPLOY_ENVIRONMENT = DJANGO_SETTINGS_MODULE=config.settings.prod ALLOWED_HOSTS=throwbook.example \
	DATABASE_URL=postgres://nobody@localhost/nothing \
	SECRET_KEY=a-stand-in-of-fifty-letters-for-the-deploy-check-only

# Tests start the commands as programs, which should not compile everything each time.
BYTECODE = -u PYTHONDONTWRITEBYTECODE

.DEFAULT_GOAL := help
.PHONY: help install run test check format bench lock clean

help:  ## list the targets
	@grep -hE '^[a-z]+:.*##' $(MAKEFILE_LIST) | sed -E 's/:.*## /\t/' | expand -t 12

install:  ## make .venv from the hashed locks, with the tools for tests
	@$(INSTALL) tests/requirements.txt

run:  ## install, migrate, load the demo and serve on 127.0.0.1 (PORT=8000)
	@$(INSTALL) requirements.txt
	@PORT=$(PORT) $(BIN)/python -m config.serve

test: install  ## the whole suite on SQLite, then on PostgreSQL what touches a database (PAGES_TOO=yes: pages twice too)
	@$(BIN)/python tests/with_chromium.py
	@failed=0; \
	echo "== SQLite"; env -u DATABASE_URL $(BYTECODE) $(BIN)/pytest -q -n 2 --dist worksteal || failed=1; \
	echo "== PostgreSQL"; env $(BYTECODE) PAGES_TOO=$(PAGES_TOO) $(BIN)/python tests/with_pg.py $(BIN)/pytest -q -n 2 --dist worksteal || failed=1; \
	exit $$failed

check: install  ## format, lint, types, arrows, migrations, deploy check, then the tests
	$(BIN)/ruff format --check
	$(BIN)/ruff check
	$(BIN)/mypy
	$(BIN)/lint-imports --no-logo
	env -u DATABASE_URL $(BIN)/python manage.py makemigrations --check --dry-run
	env $(DEPLOY_ENVIRONMENT) $(BIN)/python manage.py check --deploy --fail-level WARNING
	@$(MAKE) --no-print-directory test PAGES_TOO=yes

format: install  ## format and sort imports
	$(BIN)/ruff check --select I --fix
	$(BIN)/ruff format

bench: install  ## measured figures, printed
	env -u DATABASE_URL $(BIN)/pytest tests/bench -m bench -s

lock:  ## write the three locks anew from pyproject.toml (needs uv)
	$(COMPILE) pyproject.toml --output-file requirements.txt
	$(COMPILE) pyproject.toml --extra dev --output-file tests/requirements.txt
	$(COMPILE) --group postgres --output-file tests/requirements-postgres.txt

clean:  ## remove .venv, caches and collected files; the database stays
	rm -rf $(VENV) staticfiles .pytest_cache .mypy_cache .ruff_cache .import_linter_cache .hypothesis
	find . -name __pycache__ -type d -prune -exec rm -rf {} +
