"""The registry of codes: each kind of problem once.

The hundred of a code is its kind of fault: 0 files, 1 words, 2 dates, 3 names, 4 amounts, 5 across
entries, 6 the sheet. A code is never reused or renumbered.
"""

from journal.problems import amounts_and_sheet, dates_and_names, files_and_words
from journal.problems.code import Code, Severity

CODES: dict[str, Code] = {
    code.code: code
    for part in (files_and_words, dates_and_names, amounts_and_sheet)
    for code in part.CODES
}

__all__ = ["CODES", "Code", "Severity"]
