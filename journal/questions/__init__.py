"""Questions in plain words: read by a grammar, answered from the tables with the lines behind."""
