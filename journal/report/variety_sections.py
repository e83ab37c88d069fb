"""The varieties as a section of the season page: what speaks for and against each."""

from journal.diary import Diary
from journal.report.page_tables import VERDICTS, page_table
from journal.report.section import Section, of_year
from journal.studies.verdicts import verdicts


def verdicts_section(diary: Diary, year: int) -> Section | None:
    """What speaks for keeping and for dropping each variety; nothing where nothing does."""
    rows = of_year(verdicts(diary), year)
    told = rows[(rows["keep"] != "") | (rows["drop"] != "")]
    if told.empty:
        return None
    words = (
        "The evidence, not the choice: yield a m² among the crop's own cultivars, weight against "
        "the variety's own earlier years, seedlings, losses and ratings. A variety of which the "
        "diary says none of these is left out."
    )
    ranked = told.sort_values(
        ["crop", "rank", "kg", "cultivar"], ascending=[True, True, False, True]
    )
    table = page_table(ranked, f"For and against, {year}", VERDICTS, pinned=True)
    return Section("verdicts", "Keep or drop", words, None, (table,))
