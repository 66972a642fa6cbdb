"""Everything that paints and writes the sample library; `make.py` beside this folder runs it."""
