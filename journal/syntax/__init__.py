"""Syntax: text to lines, lines to entries, entries to parts, with the faults beside them."""
