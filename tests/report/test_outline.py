"""The season elsewhere: the page's words and figures as Markdown and as values."""

import json

from support.garden import garden
from support.hand_made import diary, picked

from journal.report.outline import season_markdown, season_values
from journal.report.told import Season, tell
from journal.studies.part_of_year import Part


def test_the_values_are_those_of_the_page() -> None:
    told = tell(garden(), Season(2025))
    values = json.loads(json.dumps(season_values(told)))
    assert values["year"] == 2025
    assert values["against"] == 2024
    assert values["sentences"] == list(told.sentences)
    assert [each["name"] for each in values["sections"]] == [each.name for each in told.sections]
    harvest = next(each for each in values["sections"] if each["name"] == "harvest")
    assert len(harvest["tables"][0]["rows"]) == 4


def test_only_the_year_asked_for_is_set_beside() -> None:
    told = tell(garden(), Season(2025, against=2023))
    (years,) = (each for each in season_values(told)["sections"] if each["name"] == "years")
    assert {table["caption"].split(" ")[-1] for table in years["tables"]} == {"2023"}


def test_markdown_keeps_the_words_of_the_diary_words() -> None:
    one = diary([picked("<b>*kale*</b> | [x](y)", "2025-07-01", 1.0, place="A")])
    text = season_markdown(tell(one, Season(2025)))
    assert text.startswith("# 2025\n\n1 kg came in, in 1 picking of 1 crop.\n")
    assert "\\<b\\>\\*kale\\*\\</b\\> \\| \\[x\\](y)" in text
    assert "<b>" not in text


def test_a_part_of_the_year_says_so_and_leaves_out_what_it_cannot_tell() -> None:
    whole, part = (tell(garden(), Season(2025, part=each)) for each in (None, Part((7, 1), (7, 3))))
    assert part.span == "1 July to 3 July"
    assert season_markdown(part).startswith("# 1 July to 3 July 2025\n")
    names = [section.name for section in part.sections]
    assert "harvest" in names
    assert not {"calendar", "plan", "verdicts"} & set(names)
    assert len(names) < len(whole.sections)
