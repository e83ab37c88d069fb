"""What an answer says in words beside the study that it comes from, where that leaves a range."""

from datetime import date, timedelta

from support.written import written

from journal.questions.answer import ask

TODAY = date(2026, 11, 25)
SHEET = """\
- plot Home, latitude 54
- bed Alder, 10 m2
- bay One, 2 x 1 x 1.5 m
- feed pellets, 4-2-1
"""


def test_a_bay_whose_content_is_a_range_is_no_per_cent_full():
    page = "1 July 2026\n- level One 50 cm\n\n2 July 2026\n- spread compost from One on Alder\n"
    answer = ask(written(page, TODAY, SHEET), "How much is in One?")
    assert "between 0 litres and 1,000 litres" in answer.answer
    assert "%" not in answer.answer


def test_a_bay_of_an_unknown_start_is_at_least_so_full():
    # 300 of 3,000 l
    page = "1 July 2026\n- fill One with 300 l leaves\n"
    answer = ask(written(page, TODAY, SHEET), "How much is in One?")
    assert "at least 10 % of what it can" in answer.answer


def test_nitrogen_rests_on_the_dressings_whose_strength_is_known():
    # 500 g of 4 per cent is 20 g
    page = "1 May 2026\n- feed Alder with pellets 500 g\n- feed Alder with seaweed 10 l\n"
    answer = ask(written(page, TODAY, SHEET), "How much nitrogen did Alder get in 2026?")
    assert "at least 20 g of nitrogen" in answer.answer
    assert "of 1 feed or dressing" in answer.answer
    assert any("1 dressing is not in it" in said for said in answer.caveats)


def test_a_picking_of_an_open_year_is_told_and_not_counted():
    page = "30 Dec 2025\n- lift 2 kg parsnip\n\nabout 31 Dec 2025\n- lift 1 kg parsnip\n"
    answer = ask(written(page, TODAY, SHEET), "How much parsnip in 2025?")
    assert answer.value == 2.0
    assert "1 more entry may be of another time, and is not counted" in answer.caveats


def test_an_end_that_no_line_tells_is_said_to_be_the_least():
    page = "1 April 2024\n- sow carrot in Alder\n\n1 August 2024\n- pull 4 kg carrot from Alder\n"
    assumed = ask(written(page, TODAY, SHEET), "What was in Alder in 2024?")
    assert "(April 2024 to August 2024 at least)" in assumed.answer
    told = ask(
        written(page + "\n9 August 2024\n- clear Alder\n", TODAY, SHEET),
        "What was in Alder in 2024?",
    )
    assert "(April 2024 to August 2024)" in told.answer


def test_time_that_went_into_a_bed_is_all_of_its_work():
    # 30 minutes of planting and 60 of weeding
    page = "1 May 2026\n- plant 10 potato in Alder 30 min\n- weed Alder 60 min\n"
    diary = written(page, TODAY, SHEET)
    assert ask(diary, "How much time went into Alder in 2026?").value == 90.0
    assert ask(diary, "How much time went into Alder?").value == 90.0
    assert ask(diary, "How many hours went into Alder this year?").value == 1.5
    assert ask(diary, "How much time went into weeding in 2026?").value == 60.0
    assert ask(diary, "How long did planting take?").value == 30.0


def dry(first: str, count: int, mm: float = 0.0) -> str:
    days = [date.fromisoformat(first) + timedelta(days=at) for at in range(count)]
    return "".join(f"{day}\n- rain {mm} mm\n\n" for day in days)


def test_rain_of_several_days_is_said_to_be_in_the_sum_or_not():
    page = "3 to 5 May 2025\n- rain 12 mm\n\n8 May 2025\n- rain 2 mm\n\n"
    page += "10 to 12 May 2025\n- rain 9 mm\n\n11 May 2025\n- rain 4 mm\n\n"
    page += "30 May to 2 June 2025\n- rain 6 mm\n"
    answer = ask(written(page, TODAY, SHEET), "How much rain in May 2025?")
    assert answer.value == 18.0
    assert "12 mm of 3 to 5 May 2025 together are in the sum" in answer.caveats
    assert "9 mm of 10 to 12 May 2025 together are not in the sum" in answer.caveats
    assert any(said.startswith("6 mm of 30 May to 2 June") for said in answer.caveats)
    assert "- rain 12 mm" in [line.text for line in answer.evidence]
    year = ask(written(page, TODAY, SHEET), "How much rain in 2025?")
    assert year.value == 24.0


def test_many_readings_of_several_days_are_told_together():
    weeks = ["2 to 4 May", "5 to 8 May", "9 to 11 May"]
    page = "".join(f"{days} 2025\n- rain 5 mm\n\n" for days in weeks)
    answer = ask(written(page, TODAY, SHEET), "How much rain in May 2025?")
    assert "3 readings of several days, 15 mm together, are in the sum" in answer.caveats


def test_a_drought_is_told_by_its_definition_and_whole():
    # British Rainfall: an absolute drought is 15 days on end without 0.2 mm
    page = "2024-12-10\n- rain 5 mm\n\n" + dry("2024-12-11", 30) + "2025-01-10\n- rain 5 mm\n"
    answer = ask(written(page, TODAY, SHEET), "Was there a drought in 2025?")
    assert answer.value == 9
    assert any("11 December 2024 to 9 January 2025, 30 days" in said for said in answer.caveats)
    assert any(said.startswith("absolute droughts (") for said in answer.caveats)


def test_fourteen_dry_days_are_no_drought():
    page = "2025-01-01\n- rain 5 mm\n\n" + dry("2025-01-02", 14) + "2025-01-16\n- rain 0.2 mm\n"
    answer = ask(written(page, TODAY, SHEET), "Was there a drought in 2025?")
    assert any(said.startswith("no absolute drought") for said in answer.caveats)


SOIL = "- plot Home, latitude {}\n- bed Alder, 10 m2, soil sandy loam\n- bed Birch, 6 m2\n"
SOAKED, DRY = "- weather 8 to 20 C, rain 60 mm\n\n", "- weather 8 to 20 C, rain 0 mm\n\n"
WEATHER = "".join(
    f"{date(2026, 5, 1) + timedelta(days=at)}\n{SOAKED if at < 2 else DRY}" for at in range(12)
)
BEDS = "2026-05-03\n- plant 10 potato in Alder\n- plant 10 potato in Birch\n"


def thirst(latitude: float, weather: str, today: date):
    return ask(written(weather + BEDS, today, SOIL.format(latitude)), "What needs water?")


def test_beds_that_were_soaked_had_water_enough_and_those_not_reckoned_are_told():
    answer = thirst(54, WEATHER, date(2026, 5, 8))
    assert answer.answer == "By the diary's weather Alder had water enough."
    assert answer.caveats == ("water of potato in Birch: the sheet gives no soil",)


def test_without_late_weather_nothing_tells_what_is_short_of_water():
    answer = thirst(54, WEATHER, date(2026, 6, 8))
    assert answer.answer == "Nothing tells which beds are short of water today."


def test_a_bed_that_may_need_water_is_not_said_to_have_enough():
    unread = WEATHER.replace("rain 60 mm", "fog")
    answer = thirst(54, unread, date(2026, 5, 12))
    assert answer.answer == "By the diary's weather Alder may need water."


def test_far_north_the_formulas_caveat_stands_beside_the_thirsty():
    answer = thirst(57.2, WEATHER, date(2026, 5, 8))
    assert any("beyond 55 degrees" in said for said in answer.caveats)
