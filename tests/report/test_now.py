"""What `haulm now` tells, and the calendar that it writes."""

import json
from datetime import date
from pathlib import Path

import icalendar
import pytest
import vobject
from click.testing import CliRunner
from support.written import SHEET, written

from journal.cli.main import cli
from journal.report.due_calendar import due_calendar
from journal.report.now import Words, glance, many, plan_words

TODAY = date(2026, 6, 10)
PAGE = """\
2024-03-01
- sow 10 leek 'Porbella' in modules in Tunnel
2024-06-14
- plant out 10 leek 'Porbella' in Long 3
2024-11-01
- clear leek
2025-03-01
- sow 10 leek 'Porbella' in modules in Tunnel
2025-06-12
- plant out 10 leek 'Porbella' in Long 3
2025-11-01
- clear leek
2026-03-01
- sow 24 leek 'Porbella' in modules in Tunnel
2026-03-15
- up 21 of 24 leek 'Porbella' in Tunnel
2026-04-01
- sow radish in Long 1, 2 rows of 1 m
- plan sow beetroot in Long 2 by 12 June
- plan sow carrot in Long 2 by 20 May
- plan sow kale in Long 2 by 1 July
- plan order manure
2026-06-01
- dig up 3 parsnip from Long 3
"""


@pytest.fixture
def seen():
    return {group.key: group for group in glance(written(PAGE, TODAY)).groups}


def says(group) -> list[tuple[str, str]]:
    return [(line.subject, line.says) for line in group.lines]


def test_what_stands_is_told_by_place_with_its_number_and_days(seen):
    (radish,) = seen["in_the_ground"].lines
    assert (radish.place, radish.subject) == ("Long 1", "radish")
    assert radish.says == "uncounted, sown 1 April, 70 days"
    (leek,) = seen["under_cover"].lines
    assert (leek.place, leek.says) == ("Tunnel", "21, up since 15 March, 87 days")


def test_a_forgotten_crop_is_told_with_whose_days_it_is_past(seen):
    assert says(seen["forgotten"]) == [
        (
            "radish · Long 1",
            "first picking was due 23 April to 11 May (North Dakota State University H-912 (2010))",
        )
    ]


def test_what_is_due_this_week_is_planned_or_usual_by_now(seen):
    assert says(seen["due"]) == [
        ("sow beetroot · Long 2", "due 12 June"),
        (
            "leek ‘Porbella’ · Tunnel",
            "planting out 12 to 14 June (this diary, 2 batches)",
        ),
        (
            "leek",
            "planting, usually 13 June, 12 to 14 June (this diary, 2 years; right to 2 days)",
        ),
    ]


def test_overdue_plans_are_told_with_their_days(seen):
    assert says(seen["overdue"]) == [("sow carrot · Long 2", "due 20 May, 21 days ago")]
    assert says(seen["planned"]) == [
        ("sow kale · Long 2", "due 1 July"),
        ("order manure", "no day said"),
    ]


def test_empty_beds_and_waiting_plants_are_told(seen):
    # something was dug in Long 3 that the ledger cannot place, so that it is not known to be empty
    assert [line.subject for line in seen["empty_beds"].lines] == ["Long 2"]
    assert says(seen["waiting"]) == [("leek ‘Porbella’ · Tunnel", "21, 101 days since 1 March")]


def test_what_the_ledger_could_not_place_is_counted():
    assert glance(written(PAGE, TODAY)).unplaced == 1


def test_a_count_above_what_was_planted_is_told_with_both_lines():
    page = "1 May 2026\n- plant 10 leek in Long 2\n2 May\n- count 14 leek in Long 2\n"
    (told,) = glance(written(page, TODAY)).contradictions
    assert told.startswith("count leek in Long 2: more than the diary accounts for (")
    assert told.endswith(":2)")


def test_what_no_line_gainsays_is_no_contradiction():
    page = "1 May 2026\n- plant 10 leek in Long 2\n2 May\n- count 10 leek in Long 2\n"
    assert glance(written(page, TODAY)).contradictions == ()


@pytest.mark.parametrize(
    ("alive", "low", "high", "words"),
    [
        (16, 16, 16, "16"),
        (None, 0, 46, "at most 46"),
        (None, 1, 46, "at most 46"),
        (None, 5, 6, "5 to 6"),
        (None, 0, None, "uncounted"),
        (None, 1, None, "uncounted"),
        (None, 4, None, "at least 4"),
    ],
)
def test_a_number_is_said_as_far_as_it_is_known(alive, low, high, words: str):
    assert many({"alive": alive, "alive_low": low, "alive_high": high}) == words


def test_days_are_said_without_the_year_that_it_is():
    words = Words(TODAY)
    assert words.days(date(2026, 7, 11), date(2026, 8, 10)) == "11 July to 10 August"
    assert words.days(date(2025, 7, 11), date(2025, 8, 10)) == "11 July to 10 August 2025"
    assert words.days(date(2025, 12, 11), date(2026, 1, 3)) == "11 December 2025 to 3 January"
    assert words.days(date(2026, 7, 11), date(2026, 7, 14)) == "11 to 14 July"
    assert words.days(date(2026, 7, 11), date(2026, 7, 11)) == "11 July"


def test_a_plan_is_said_as_it_was_written():
    row = {"count": 24.0, "verb": "sow", "crop": "leek", "cultivar": "Porbella", "label": "late"}
    row |= {"material": "", "what": "", "place": "Frame"}
    assert plan_words(row) == "sow 24 leek ‘Porbella’ [late] · Frame"
    row = {"count": None, "verb": "plan", "crop": "", "cultivar": "", "label": "", "material": ""}
    assert plan_words(row | {"what": "order manure", "place": ""}) == "order manure"


# ---------------------------------------------------------------- the command


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "plot.txt").write_text(SHEET, encoding="utf-8")
    (tmp_path / "page.txt").write_text(PAGE, encoding="utf-8")
    return tmp_path


def run(*words: str):
    return CliRunner().invoke(cli, ["now", "--today", "2026-06-10", *words])


def test_the_command_tells_it_all_and_succeeds(folder: Path):
    done = run("-d", str(folder))
    assert done.exit_code == 0
    for heading in ("In the ground", "Under cover", "Forgotten", "Planned and overdue"):
        assert heading in done.output
    assert "1 entry fits no batch" in done.output
    assert "Ready" not in done.output


def test_a_diary_of_prose_alone_is_answered_too(tmp_path: Path):
    (tmp_path / "page.txt").write_text("Nothing yet.\n", encoding="utf-8")
    done = run("-d", str(tmp_path))
    assert done.exit_code == 0
    assert "Nothing stands, is due or was planned" in done.output


def test_for_programs_every_group_is_there_and_blanks_are_null(folder: Path):
    done = run("-d", str(folder), "--format", "json")
    told = json.loads(done.stdout)
    assert (told["today"], told["plot"], told["unplaced"]) == ("2026-06-10", "Home", 1)
    (radish,) = told["in_the_ground"]
    assert radish["alive"] is None and radish["alive_low"] == 0 and radish["state"] == "forgotten"
    assert radish["since"] == "2026-04-01"
    assert told["may_be_left"] == [] and told["ready"] == []
    assert told["overdue"][0]["overdue_days"] == 21


def test_a_calendar_is_written_beside_what_is_told(folder: Path):
    done = run("-d", str(folder), "--ics", str(folder / "plot.ics"))
    assert done.exit_code == 0
    assert (folder / "plot.ics").read_bytes().startswith(b"BEGIN:VCALENDAR\r\n")


def test_a_calendar_that_cannot_be_written_is_one_sentence(folder: Path):
    done = run("-d", str(folder), "--ics", str(folder / "none" / "plot.ics"))
    assert done.exit_code == 1
    assert "there is no folder" in done.output


# ---------------------------------------------------------------- the calendar


def test_a_second_reader_parses_the_calendar_and_finds_the_days():
    read = vobject.readOne(due_calendar(written(PAGE, TODAY)).decode())
    found = {event.summary.value: event for event in read.vevent_list}
    plan = found["Sow beetroot · Long 2"]
    assert (plan.dtstart.value, plan.dtend.value) == (date(2026, 6, 12), date(2026, 6, 13))
    assert "- plan sow beetroot in Long 2 by 12 June" in plan.description.value
    assert "Sow carrot · Long 2 (overdue)" in found
    assert "Plant out: leek ‘Porbella’ · Tunnel" in found


def test_a_calendar_has_what_the_standard_asks_of_each_event():
    # RFC 5545, 3.6 and 3.6.1: VERSION and PRODID once; of each event UID and DTSTAMP, UIDs unique
    calendar = icalendar.Calendar.from_ical(due_calendar(written(PAGE, TODAY)))
    assert calendar["VERSION"] == "2.0" and calendar["PRODID"]
    events = calendar.walk("VEVENT")
    assert events and all(event["UID"] and event["DTSTAMP"] for event in events)
    assert len({event["UID"] for event in events}) == len(events)
    assert all(event["DTEND"].dt > event["DTSTART"].dt for event in events)
    assert calendar.errors == []


def test_no_line_of_a_calendar_is_longer_than_75_octets():
    # RFC 5545, 3.1
    content = due_calendar(written(PAGE, TODAY))
    assert all(len(line) <= 75 for line in content.split(b"\r\n"))


def test_a_plan_keeps_its_identity_when_the_page_grows():
    def uids(page: str) -> dict[str, str]:
        calendar = icalendar.Calendar.from_ical(due_calendar(written(page, TODAY)))
        return {str(event["SUMMARY"]): str(event["UID"]) for event in calendar.walk("VEVENT")}

    before, after = uids(PAGE), uids("2026-01-01\n- pick 1 kg kale from Long 3\n" + PAGE)
    assert before.items() <= after.items()


def test_the_calendar_is_the_same_twice():
    one = written(PAGE, TODAY)
    assert due_calendar(one) == due_calendar(written(PAGE, TODAY))


LIFTED = """\
2026-03-20
- plant 12 potato 'Maxine' in Long 1
- sow beetroot 'Boltardy' in Long 2
2026-07-01
- lift 9 kg potato 'Maxine' from Long 1
2026-07-10
- pick 1 kg beetroot 'Boltardy' from Long 2
"""


def groups_on(page: str, today: date) -> dict[str, list[tuple[str, str]]]:
    return {group.key: says(group) for group in glance(written(page, today)).groups}


def test_a_crop_that_was_lifted_long_ago_is_not_ready_but_may_still_be_about():
    told = groups_on(LIFTED, date(2026, 10, 6))
    assert told["ready"] == []
    assert told["in_the_ground"] == []
    assert told["may_be_left"] == [
        ("potato ‘Maxine’ · Long 1", "at most 12, last picked 1 July, 97 days ago"),
        ("beetroot ‘Boltardy’ · Long 2", "uncounted, last picked 10 July, 88 days ago"),
    ]


def test_a_crop_that_was_picked_within_four_weeks_is_ready_and_says_when_it_was_picked():
    told = groups_on(LIFTED, date(2026, 7, 29))
    assert told["ready"] == [
        ("potato ‘Maxine’ · Long 1", "being picked, last on 1 July"),
        ("beetroot ‘Boltardy’ · Long 2", "being picked, last on 10 July"),
    ]
    # the day after it is four weeks and a day since the potatoes
    told = groups_on(LIFTED, date(2026, 7, 30))
    assert [subject for subject, _ in told["ready"]] == ["beetroot ‘Boltardy’ · Long 2"]


def test_plants_that_are_known_to_stand_stay_ready_however_long_ago_they_were_picked():
    page = (
        "2026-03-20\n- plant 12 kale 'Pentland Brig' in Long 1\n\n"
        "2026-07-01\n- pick 1 kg kale 'Pentland Brig' from Long 1\n\n"
        "2026-09-20\n- count 12 kale 'Pentland Brig' in Long 1\n"
    )
    told = groups_on(page, date(2026, 10, 6))
    assert told["ready"] == [("kale ‘Pentland Brig’ · Long 1", "being picked, last on 1 July")]
    assert told["may_be_left"] == []
