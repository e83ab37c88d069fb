"""Studies: pure functions from a diary to a tidy frame; every figure is computed here."""
