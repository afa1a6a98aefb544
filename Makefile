PYTHON ?= python3

.PHONY: demo test check bench venv lock clean

demo test check bench venv lock clean:
	@$(PYTHON) dev.py $@
