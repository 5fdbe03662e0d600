# The two commands of the README are `make demo` and `make test`. Both set up whatever is missing: what the system itself
# must bring is installed for root, and asked for from anybody else before any work (tools/system-packages.sh).
PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
READY := $(VENV)/.ready

export PIP_DISABLE_PIP_VERSION_CHECK := 1
export PYTHONUTF8 := 1
# Compiled modules are kept: without them every command and every worker compiles all it imports anew.
export PYTHONDONTWRITEBYTECODE :=

.PHONY: demo demo-course test test-long fuzz lint same bench docs wheel fresh clean help

help:  ## Say what each command does
	@grep -hE '^[a-z-]+:.*## ' $(MAKEFILE_LIST) | sed 's/:.*## /\t/'

# Prerequisites come one after another, also with -j: what the system lacks before what Python lacks.
.NOTPARALLEL:

SYSTEM := system-python system-demo system-test
.PHONY: $(SYSTEM)
$(SYSTEM): system-%:
	@tools/system-packages.sh $* $(PYTHON) $(VENV)

$(READY): pyproject.toml constraints.txt
	test -x $(BIN)/pip || $(PYTHON) -m venv $(VENV)
	$(BIN)/python -m pip install --quiet --constraint constraints.txt --editable '.[catalogues,frames,scores,test,bench,lint]'
	touch $(READY)

LESSON := examples/harbour/lessons/acoustic/script.md

demo: system-demo $(READY)  ## From a scale of the demo course to a published lesson
	@mkdir -p out/demo
	$(BIN)/gamutwright describe G acoustic --level foundation
	$(BIN)/gamutwright rare G acoustic
	$(BIN)/gamutwright draft G acoustic --force -o out/demo/draft.md
	$(BIN)/gamutwright check $(LESSON) --ledger out/demo/claims.json --pace
	$(BIN)/gamutwright picture G acoustic --mark semitone_steps -o out/demo/steps.svg
	$(BIN)/gamutwright package $(LESSON) -o out/demo/acoustic
	$(BIN)/gamutwright verify out/demo/acoustic/film.mp4
	$(BIN)/gamutwright errata out/demo/acoustic

COURSE := examples/harbour

demo-course: system-demo $(READY)  ## The six lessons of the demo course, planned, built, checked and reported
	$(BIN)/gamutwright series plan $(COURSE)
	$(BIN)/gamutwright series build $(COURSE)
	$(BIN)/gamutwright series check $(COURSE)
	$(BIN)/gamutwright series report $(COURSE)

test: system-test $(READY)  ## All tests, on all cores
	$(BIN)/python -m pytest -n auto --dist worksteal

test-long: system-test $(READY)  ## Further cases that the usual tests leave out, for want of time
	$(BIN)/python -m pytest -n auto --dist worksteal -m long

fuzz: system-python $(READY)  ## Ten thousand odd inputs for every reader of texts and files
	cd tests && ../$(BIN)/python -m fuzz.run --at-once $$(nproc)

lint: system-python $(READY)  ## Style, types and floors
	$(BIN)/ruff format --check .
	$(BIN)/ruff check .
	$(BIN)/mypy
	$(BIN)/lint-imports

same: system-test $(READY)  ## Whether drafts, films, ledgers and pages are the same, byte by byte, as in BASE=main
	$(BIN)/python tools/same_bytes.py $(or $(BASE),main)

bench: system-demo $(READY)  ## Benchmarks, with ratios against named alternatives
	$(BIN)/python benchmarks/run.py

docs: system-test $(READY)  ## Write the pages that are generated from the code
	$(BIN)/python docs/catalogue.py
	$(BIN)/python docs/generate.py
	$(BIN)/python docs/measure.py --write
	$(BIN)/python docs/houseplan.py
	$(BIN)/python docs/gallery.py
	$(BIN)/python docs/music.py
	$(BIN)/python docs/lesson.py
	$(BIN)/python docs/packages.py
	$(BIN)/python docs/sheets.py
	$(BIN)/python docs/studio.py

wheel: system-python $(READY)  ## Build the wheel, and use it alone in a clean environment
	tools/wheel.sh $(BIN)/python

fresh:  ## The README's two commands on bare machines of Debian, as root (slow; FRESH="bookworm trixie", GOALS="demo test")
	tools/fresh.sh

clean:  ## Remove what was built
	rm -rf $(VENV) .pytest_cache .mypy_cache .ruff_cache .hypothesis build dist
