"""The same question asked of every crop, cultivar, place and job of the sample diary."""

import pandas as pd
import pytest
from support.question_oracles import Tables

from journal.diary import Diary
from journal.questions.answer import ask
from journal.reference.crops import plural

YEARS = range(2022, 2027)


def harvests(diary: Diary) -> pd.DataFrame:
    return Tables(diary).ever(kind="harvest")


def told(value: float) -> float | None:
    """A sum of weights; pandas adds nothing up to nothing."""
    return pytest.approx(value) if value else None


def test_every_crop_was_last_picked_when_the_events_say(sample_diary: Diary):
    for crop, rows in harvests(sample_diary).query("crop != ''").groupby("crop"):
        answer = ask(sample_diary, f"When were the {plural(str(crop))} last picked?")
        latest = rows["date"].where(~rows["spread"], rows["date_end"]).max()
        assert (answer.date, answer.date_end) == (
            latest.date(),
            rows["date_end"].max().date(),
        ), crop


def test_every_crop_and_year_weighs_what_the_events_weigh(sample_diary: Diary):
    picked = harvests(sample_diary).query("crop != ''")
    for year in YEARS:
        rows = picked[(picked["date"].dt.year == year) & (picked["date_end"].dt.year == year)]
        for crop, own in rows.groupby("crop"):
            answer = ask(sample_diary, f"How many kilos of {crop} did we pick in {year}?")
            total = own["mass_kg"].sum()
            assert answer.value == told(total), (crop, year)
            assert answer.found == bool(own["mass_kg"].notna().any()), (crop, year)


def test_every_cultivar_was_first_sown_when_the_events_say(sample_diary: Diary):
    sown = Tables(sample_diary).ever(verb="sow").query("cultivar != ''")
    for (crop, cultivar), rows in sown.groupby(["crop", "cultivar"]):
        answer = ask(sample_diary, f"When did I first sow {crop} '{cultivar}'?")
        assert answer.date == rows["date"].min().date(), (crop, cultivar)


def test_every_place_gave_what_the_events_say(sample_diary: Diary):
    picked = harvests(sample_diary)
    renamed = {"Cattle dock": "Fruit dock"}
    # its parts go on with its history, so the whole is asked for apart
    for place, rows in (
        picked.replace(renamed).query("place not in ['', 'Siding']").groupby("place")
    ):
        answer = ask(sample_diary, f"How much did we pick from {place}?")
        assert answer.value == told(rows["mass_kg"].sum()), place


def test_a_place_that_was_split_goes_on_in_its_parts(sample_diary: Diary):
    picked = harvests(sample_diary)
    whole = picked[picked["place"].isin(["Siding", "Siding east", "Siding west"])]
    answer = ask(sample_diary, "How much did we pick from Siding?")
    assert answer.value == pytest.approx(whole["mass_kg"].sum())


def test_every_job_took_what_the_events_say(sample_diary: Diary):
    said = {
        "weed": "weeding", "hoe": "hoeing", "mow": "mowing", "prune": "pruning", "edge": "edging",
        "water": "watering", "tidy": "tidying", "mend": "mending", "turn": "turning",
        "replace": "replacing", "paint": "painting", "fetch": "fetching", "spread": "spreading",
        "shred": "shredding", "sieve": "sieving", "plant out": "planting out", "net": "netting",
    }  # fmt: skip
    for verb, noun in said.items():
        for year in YEARS:
            rows = Tables(sample_diary).year(year, verb=verb)
            answer = ask(sample_diary, f"How long did {noun} take in {year}?")
            assert answer.value == told(rows["minutes"].sum()), (verb, year)


def test_every_person_was_given_what_the_events_say(sample_diary: Diary):
    given = Tables(sample_diary).ever(verb="give")
    for person, rows in given.groupby("party"):
        answer = ask(sample_diary, f"What did I give {person}?")
        assert {row["crop"] for row in answer.rows} == set(rows["crop"]), person


def test_every_sighting_was_last_seen_when_the_events_say(sample_diary: Diary):
    # frost is asked of the thermometer too, and answered by it
    seen = Tables(sample_diary).ever(verb="see").query("subject not in ('', 'frost')")
    for subject, rows in seen.groupby("subject"):
        answer = ask(sample_diary, f"When did I last see {subject}?")
        if answer.understood:
            assert answer.date_end == rows["date_end"].max().date(), subject


def test_every_month_had_the_rain_that_was_read(sample_diary: Diary):
    tables = Tables(sample_diary)
    for month in pd.period_range("2022-01", "2026-02", freq="M"):
        rain = tables.days("rain", str(month.start_time.date()), str(month.end_time.date()))
        answer = ask(sample_diary, f"How much rain in {month.strftime('%B %Y')}?")
        if answer.found and not answer.caveats:
            assert answer.value == pytest.approx(rain.sum()), month
