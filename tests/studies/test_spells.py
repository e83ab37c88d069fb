"""Spells by the British Rainfall definitions, with their edges; a day not read is never dry.

Definitions: Meteorological Glossary 1963 as quoted at xmetman.com/dry-last-fortnight-in-uk
(absolute drought 15 days without 0.2 mm, partial drought 29 days of 0.2 mm a day in the mean, dry
spell 15 days without 1.0 mm).
"""

from datetime import date, timedelta

import pandas as pd
import pytest
from support.seattle import as_diary, seattle
from support.weather import weather_diary

from journal.studies.spells import longest_run, runs, spells

START = date(2025, 1, 1)


def diary_of(rain: list[float | None], start: date = START):
    """Rain day by day, a None being a day not read."""
    lines = [
        f"{start + timedelta(days=at)}\n- rain {mm} mm\n"
        for at, mm in enumerate(rain)
        if mm is not None
    ]
    return weather_diary("\n".join(lines))


def found(rain: list[float | None], start: date = START) -> list[tuple[str, int]]:
    frame = spells(diary_of(rain, start))
    return list(zip(frame["spell"], frame["days"], strict=True))


def test_fifteen_days_under_a_fifth_of_a_millimetre_are_an_absolute_drought():
    assert ("absolute drought", 15) in found([5.0, *[0.1] * 15, 5.0])


def test_fourteen_are_not():
    assert found([5.0, *[0.1] * 14, 5.0]) == []


def test_a_day_of_two_tenths_breaks_it_and_leaves_a_dry_spell():
    assert found([5.0, *[0.0] * 7, 0.2, *[0.0] * 8, 5.0]) == [("dry spell", 16)]


def test_fifteen_days_under_a_millimetre_are_a_dry_spell_only():
    assert found([5.0, *[0.9] * 15, 5.0]) == [("dry spell", 15)]
    assert found([5.0, *[1.0] * 15, 5.0]) == []


def test_twenty_nine_days_of_5_8_mm_are_a_partial_drought_and_of_5_9_are_not():
    # 29 x 0.2 mm = 5.8 mm
    around = [50.0]
    assert ("partial drought", 29) in found([*around, *[0.0] * 14, 5.8, *[0.0] * 14, *around])
    longer = found([*around, *[0.0] * 14, 5.9, *[0.0] * 14, *around])
    assert "partial drought" not in dict(longer)


def test_a_day_that_was_not_read_ends_every_spell():
    assert found([5.0, *[0.0] * 14, None, *[0.0] * 14, 5.0]) == []


def test_a_spell_beside_a_day_not_read_is_at_least_that_long():
    frame = spells(diary_of([None, *[0.0] * 15, 5.0]))
    assert frame["at_least"].tolist() == [True, True]
    frame = spells(diary_of([5.0, *[0.0] * 15, 5.0]))
    assert frame["at_least"].tolist() == [False, False]


def test_a_spell_runs_on_over_the_end_of_the_year():
    frame = spells(diary_of([5.0, *[0.0] * 20, 5.0], date(2024, 12, 20)))
    dry = frame[frame["spell"] == "dry spell"].iloc[0]
    assert (str(dry["begins"].date()), str(dry["ends"].date())) == ("2024-12-21", "2025-01-09")


def test_partial_droughts_do_not_overlap_and_each_keeps_to_the_mean():
    # many short showers: every stretch that is found is checked by adding it up again
    rain = [3.0 if at % 17 == 0 else 0.0 for at in range(200)]
    diary = diary_of(rain)
    frame = spells(diary)
    partial = frame[frame["spell"] == "partial drought"]
    assert not partial.empty
    taken: set[int] = set()
    for row in partial.to_dict("records"):
        first = (row["begins"].date() - START).days
        days = range(first, first + row["days"])
        assert sum(rain[at] for at in days) <= 0.2 * row["days"] + 1e-9
        assert row["days"] >= 29 and not taken & set(days)
        assert row["rain_mm"] == pytest.approx(sum(rain[at] for at in days))
        taken |= set(days)


def test_the_longest_partial_drought_is_the_one_that_a_search_of_all_stretches_finds():
    days = seattle()
    rain = days.loc[days["date"].dt.year == 2012, "precipitation"].to_numpy()
    sums = pd.Series(rain).cumsum().to_numpy()
    best = max(
        end - start + 1
        for start in range(len(rain))
        for end in range(start + 28, len(rain))
        if sums[end] - (sums[start - 1] if start else 0) <= 0.2 * (end - start + 1) + 1e-9
    )
    frame = spells(as_diary(days[days["date"].dt.year == 2012]))
    assert frame.loc[frame["spell"] == "partial drought", "days"].max() == best


def test_seattles_dry_spells_of_2012_hold_the_published_48_days():
    frame = spells(as_diary(seattle()))
    drought = frame[(frame["spell"] == "absolute drought") & (frame["days"] >= 48)].iloc[0]
    assert (str(drought["begins"].date()), drought["days"]) == ("2012-07-23", 48)


def test_runs_are_found_with_their_ends_and_the_earliest_of_equals_is_the_longest():
    days = pd.date_range("2025-01-01", periods=7)
    dry = pd.Series([True, True, False, True, True, False, True], index=days)
    assert runs(dry)["days"].tolist() == [2, 2, 1]
    assert longest_run(dry)[:2] == (2, pd.Timestamp("2025-01-01"))
    assert longest_run(dry & False)[0] == 0


def test_wet_days_of_a_year_made_by_rule():
    # 2.0 mm a day but for some: the longest runs under and from 1.0 mm (ETCCDI CDD and CWD) are
    # 31 and 163 days; xclim 0.62.0 gave the same
    rain = [2.0] * 365
    rain[100:115] = [0.1] * 15
    rain[115] = 0.2
    rain[116:131] = [0.9] * 15
    rain[140:150] = [12.0] * 10
    rain[200:204] = [1.0, 0.9, 10.0, 9.9]
    series = pd.Series(rain, index=pd.date_range("2025-01-01", periods=365))
    assert longest_run(series < 1.0)[0] == 31
    assert longest_run(series >= 1.0)[0] == 163
