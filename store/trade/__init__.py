"""The workbench: what a fitter knows, as plain nouns and sums without a clock or files."""
