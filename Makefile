# linewright: make is the only runner. `make demo` and `make test` each work alone, from nothing.
PYTHON ?= python3
BIN    := .venv/bin
OUT    ?= out
PIP    := $(BIN)/python -m pip --disable-pip-version-check --no-input -q
INSTALL = $(PIP) install --require-hashes --only-binary :all:
PACKAGE = $(PIP) install --no-deps --no-build-isolation -e .

.PHONY: demo test lint types prove bench accept docs pins resolve clean

demo: .venv/.run  ## plan the demo car, print the summary, write book, lists, pictures and an order
	$(BIN)/linewright plan examples/juniper/car.toml --out $(OUT)/juniper; \
	code=$$?; if [ $$code -gt 1 ]; then exit $$code; fi
	$(BIN)/linewright order examples/juniper/car.toml --offers examples/juniper/offers --shelf examples/juniper/shelf.csv \
	  --out $(OUT)/juniper/order; code=$$?; if [ $$code -gt 1 ]; then exit $$code; fi
	@echo "Open $(OUT)/juniper/book.pdf first, then $(OUT)/juniper/order/order.pdf."

test: .venv/.dev lint types  ## all that a change must pass
	$(BIN)/python -m pytest -q -n 2 --dist loadfile -m "not prove"

prove: .venv/.dev  ## every claim at full size
	$(BIN)/python -m pytest -q -n 2 --dist loadfile

lint: .venv/.dev
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .
	$(BIN)/codespell src tests docs examples README.md CONTRIBUTING.md changelog.d
	$(BIN)/lint-imports

types: .venv/.dev
	$(BIN)/mypy

bench: .venv/.dev  ## print the performance figures
	$(BIN)/python -m tests.bench

accept: .venv/.dev  ## renew the expected files of examples/: read the diff
	$(BIN)/python -m tests.accept

docs: .venv/.dev  ## renew the generated parts of docs/
	COLUMNS=100 $(BIN)/cog -r docs/reference/command-line.md
	$(BIN)/cog -r docs/reference/kinds.md docs/reference/settings.md docs/reference/hoses.md docs/reference/fluids-and-conditions.md
	$(BIN)/python -m tests.docs_files

pins: .venv/.dev  ## renew requirements/*.txt (needs uv)
	uv pip compile -q --universal --python-version 3.11 --generate-hashes --no-emit-index-url --no-header pyproject.toml -o requirements/run.txt
	uv pip compile -q --universal --python-version 3.11 --generate-hashes --no-emit-index-url --no-header requirements/build.in -o requirements/build.txt
	uv pip compile -q --universal --python-version 3.11 --generate-hashes --no-emit-index-url --no-header pyproject.toml --group dev -o requirements/dev.txt

clean:
	rm -rf .venv $(OUT) .mypy_cache .ruff_cache .pytest_cache .hypothesis .import_linter_cache

.venv/bin/python:
	$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11) and "linewright needs Python 3.11 or newer; this is " + sys.version.split()[0] + ". Say which: make PYTHON=python3.12 ...")'
	$(PYTHON) -m venv .venv || { rm -rf .venv; echo "python3 -m venv failed: on Debian, apt-get install python3-venv"; exit 3; }

.venv/.run: requirements/run.txt requirements/build.txt pyproject.toml | .venv/bin/python
	$(INSTALL) -r requirements/run.txt -r requirements/build.txt
	$(PACKAGE)
	@touch $@

.venv/.dev: requirements/dev.txt pyproject.toml | .venv/bin/python
	$(INSTALL) -r requirements/dev.txt
	$(PACKAGE)
	@touch $@ .venv/.run

resolve:  ## resolve the pins' ranges to wheels alone, for each system and Python (needs uv)
	@for python in 3.11 3.12 3.13 3.14; do for system in x86_64-manylinux_2_28 aarch64-unknown-linux-gnu x86_64-pc-windows-msvc macos; do \
	  uv pip compile -q --python-version $$python --python-platform $$system --only-binary :all: pyproject.toml -o /dev/null >/dev/null \
	    && echo "wheels for Python $$python on $$system" || exit 1; done; done
