"""The climate study against four years of Seattle, whole, in pieces and with days left out.

Expected figures: computed straight from the dataset with pandas (not by this program), see
`expected`; the 48 days without measurable rain from 23 July to 8 September 2012 and the total of
48.26 inches were published (Seattle Weather Blog, "Parched No More"; rain-stats/rainfall-2012),
2014 = 48.50 in and 2015 = 44.83 in by the National Weather Service (seattle.curbed.com, 3 Jan
2018).
"""

import pandas as pd
import pytest
from support.seattle import as_diary, as_gauge_and_glass, seattle
from support.weather import weather_diary

from journal.diary import Diary
from journal.studies.climate import climate, climate_gaps, climate_notes
from journal.studies.climate_days import climate_days, climate_months
from journal.studies.degree_days import degree_days
from journal.studies.growing_season import growing_season
from journal.studies.met_file import met_file
from journal.studies.season_shift import season_shift
from journal.studies.spells import longest_run, spells
from journal.studies.weather_days import weather_days
from journal.tables.schema import check_frame

YEARS = [2012, 2013, 2014, 2015]
# Printed beside the dataset's own description; each can be computed from it in a line of pandas.
FIGURES = {
    "rain": [1226.0, 828.0, 1232.8, 1139.2],
    "rain days": [148, 119, 123, 116],
    "frost days": [18, 26, 18, 10],
    "degree days": [1133.40, 1369.25, 1490.20, 1541.05],
    "longest run under 1 mm": [81, 35, 24, 54],
    "days read": [366, 365, 365, 365],
}
DAYS = {
    "last spring frost": ["2012-03-19", "2013-01-22", "2014-02-08", "2015-03-04"],
    "first autumn frost": ["2012-11-10", "2013-11-21", "2014-11-14", "2015-11-26"],
    "longest run under 1 mm": ["2012-07-23", "2013-06-28", "2014-06-29", "2015-06-02"],
}
ENDS = {"longest run under 1 mm": ["2012-10-11", "2013-08-01", "2014-07-22", "2015-07-25"]}


@pytest.fixture(scope="module")
def whole() -> Diary:
    return as_diary(seattle())


@pytest.fixture(scope="module")
def pieces() -> Diary:
    return as_diary(seattle(), as_gauge_and_glass)


def column(diary: Diary, measure: str, name: str = "value") -> list:
    rows = climate(diary)
    return rows.loc[rows["measure"] == measure, name].tolist()


@pytest.mark.parametrize("kind", ["whole", "pieces"])
@pytest.mark.parametrize("measure", FIGURES)
def test_each_years_figure_is_that_of_the_dataset(kind: str, measure: str, request):
    diary = request.getfixturevalue(kind)
    assert column(diary, measure, "year") == YEARS
    assert column(diary, measure) == pytest.approx(FIGURES[measure], abs=1e-6)


@pytest.mark.parametrize("measure", DAYS)
def test_each_years_day_is_that_of_the_dataset(whole: Diary, measure: str):
    assert [f"{day:%Y-%m-%d}" for day in column(whole, measure, "date")] == DAYS[measure]
    ends = ENDS.get(measure, DAYS[measure])
    assert [f"{day:%Y-%m-%d}" for day in column(whole, measure, "date_end")] == ends


def test_the_frame_is_the_table_climate(whole: Diary):
    check_frame(climate(whole), "climate")
    assert climate(whole)["measure"].drop_duplicates().tolist() == [
        "rain",
        "rain days",
        "wettest day",
        "frost days",
        "last spring frost",
        "first autumn frost",
        "frost-free days",
        "longest run under 1 mm",
        "longest run under 0.2 mm",
        "degree days",
        "days read",
    ]


def test_the_wettest_day_of_the_four_years(whole: Diary):
    rows = climate(whole)
    wettest = rows[rows["measure"] == "wettest day"].sort_values("value").iloc[-1]
    assert (f"{wettest['date']:%Y-%m-%d}", wettest["value"], wettest["unit"]) == (
        "2015-03-15",
        55.9,
        "mm",
    )


def test_frost_free_days_lie_between_the_frosts(whole: Diary):
    # 19 March to 10 November 2012 is 236 days apart, so 235 lie between
    rows = climate(whole)
    free = rows[(rows["measure"] == "frost-free days") & (rows["year"] == 2012)].iloc[0]
    assert free["value"] == 235
    assert f"{free['date']:%Y-%m-%d} {free['date_end']:%Y-%m-%d}" == "2012-03-20 2012-11-09"
    minima = weather_days(whole)["t_min"].loc[free["date"] : free["date_end"]]
    assert len(minima) == 235 and (minima >= 0).all()


def test_no_rain_for_48_days_of_2012_as_published(whole: Diary):
    run = longest_run(weather_days(whole)["rain"] == 0)
    assert (run[0], f"{run[1]:%Y-%m-%d}", f"{run[2]:%Y-%m-%d}") == (48, "2012-07-23", "2012-09-08")
    # under 0.2 mm it is the same run: the set has no day between 0 and 0.2 beside it
    rows = climate(whole)
    under = rows[(rows["measure"] == "longest run under 0.2 mm") & (rows["year"] == 2012)].iloc[0]
    assert (under["value"], f"{under['date']:%d %b}") == (48, "23 Jul")


def test_totals_agree_with_the_published_inches_within_a_millimetre_a_year(whole: Diary):
    # each day is rounded to 0.1 mm in the set, so that a year may be 1 mm off
    published = {2012: 48.26, 2014: 48.50, 2015: 44.83}
    rain = dict(zip(YEARS, column(whole, "rain"), strict=True))
    assert {year: rain[year] for year in published} == pytest.approx(
        {year: inches * 25.4 for year, inches in published.items()}, abs=1.0
    )


@pytest.mark.parametrize(
    ("variable", "within", "counts"),
    [
        # the edges that the study does not take: days with 0.2 mm or more, and minima at 0 C too
        ("rain", (0.2, 999.0), [177, 152, 150, 144]),
        ("t_min", (-99.0, 0.0), [21, 30, 22, 15]),
    ],
)
def test_days_by_other_edges_are_those_of_the_dataset(
    whole: Diary, variable: str, within: tuple[float, float], counts: list[int]
):
    days = weather_days(whole)[variable]
    assert days.between(*within).groupby(days.index.year).sum().tolist() == counts


def test_a_frost_at_nought_would_have_been_the_last_of_2013(whole: Diary):
    # below 0 C it is 22 January, at or below 0 C it would be 4 March
    spring = weather_days(whole)["t_min"]["2013-01-01":"2013-06-30"]
    assert f"{spring[spring <= 0].index.max():%Y-%m-%d}" == "2013-03-04"


def test_rain_from_year_to_year(whole: Diary):
    rain = pd.Series(column(whole, "rain"))
    assert (100 * rain.pct_change()).round(2).tolist()[1:] == [-32.46, 48.89, -7.59]


def test_months_add_up_to_the_years_and_november_2012_to_the_published(whole: Diary):
    months = climate_months(whole)
    assert months.groupby("year")["rain_mm"].sum().tolist() == pytest.approx(FIGURES["rain"])
    assert months.groupby("year")["frost_days"].sum().tolist() == FIGURES["frost days"]
    november = months[(months["year"] == 2012) & (months["month"] == 11)].iloc[0]
    assert november["rain_mm"] == pytest.approx(8.28 * 25.4, abs=0.5)
    # August 2012 had only traces, which the set rounds to nothing
    august = months[(months["year"] == 2012) & (months["month"] == 8)].iloc[0]
    assert august["rain_mm"] == 0
    # April to September, computed from the dataset
    summers = months[months["month"].between(4, 9)].groupby("year")["rain_mm"].sum()
    assert summers.tolist() == pytest.approx([222.6, 434.4, 327.2, 179.0])


def test_whole_years_leave_nothing_to_say(whole: Diary):
    assert climate_gaps(whole).query("year < 2016")["days_unread"].tolist() == [0] * 12
    assert [note for note in climate_notes(whole) if note.year != 2016] == []


@pytest.fixture(scope="module")
def gappy() -> Diary:
    """Every 2012 day but 1 to 20 August, in the middle of the dry run, and 10 days of November."""
    days = seattle()
    gone = days["date"].between("2012-08-01", "2012-08-20")
    gone |= days["date"].between("2012-11-11", "2012-11-20")
    return as_diary(days[(days["date"].dt.year == 2012) & ~gone])


def test_a_day_left_out_is_no_dry_day(gappy: Diary):
    # left of the run of 81 days are 9 to 31 July and, the longer, 21 August to 11 October
    assert column(gappy, "longest run under 1 mm") == [52]
    assert f"{column(gappy, 'longest run under 1 mm', 'date')[0]:%Y-%m-%d}" == "2012-08-21"


def test_a_year_with_days_left_out_says_so(gappy: Diary):
    assert column(gappy, "days read") == [366 - 30]
    gaps = climate_gaps(gappy).query("variable == 'rain'").iloc[0]
    assert (gaps["days_unread"], gaps["longest_gap"]) == (30, 20)
    assert [str(note) for note in climate_notes(gappy) if note.subject == "rain"] == [
        "rain: not read on 30 days of 366"
    ]


def test_a_sum_over_days_left_out_is_that_of_the_days_read(gappy: Diary):
    days = seattle()
    days = days[days["date"].dt.year == 2012].set_index("date")["precipitation"]
    left_out = days["2012-11-11":"2012-11-20"].sum() + days["2012-08-01":"2012-08-20"].sum()
    assert column(gappy, "rain") == pytest.approx([1226.0 - left_out])


def test_frost_free_days_are_blank_where_a_night_between_was_not_read(gappy: Diary):
    assert column(gappy, "frost-free days") == [pd.NA]
    assert f"{column(gappy, 'last spring frost', 'date')[0]:%Y-%m-%d}" == "2012-03-19"


def test_sums_to_date_are_those_of_the_year_at_its_end(whole: Diary):
    days = climate_days(whole)
    ends = days.groupby("year").last()
    assert ends["rain_to_date"].loc[YEARS].tolist() == pytest.approx(FIGURES["rain"])
    assert ends["degree_days_to_date"].loc[YEARS].tolist() == pytest.approx(FIGURES["degree days"])
    last = ends.loc[2015]
    assert (last["rain_low"], last["rain_high"], last["rain_years"]) == (828.0, 1232.8, 3)
    assert last["rain_mean"] == pytest.approx((1226.0 + 828.0 + 1232.8) / 3)


@pytest.mark.parametrize(("last", "years", "lacking"), [("03-12", 2, 12), ("03-13", 1, 0)])
def test_a_year_that_lacks_more_than_a_day_in_thirty_is_no_yardstick(
    last: str, years: int, lacking: int
):
    days = seattle()
    gone = days["date"].between("2013-03-01", f"2013-{last}")
    frame = climate_days(as_diary(days[(days["date"].dt.year < 2015) & ~gone]))
    row = frame[frame["date"] == "2014-12-31"].iloc[0]
    assert (row["rain_years"], row["rain_lacking"]) == (years, lacking)
    assert frame.loc[frame["date"] == "2013-12-31", "rain_unread"].iloc[0] == int(last[-2:])


def test_readings_in_a_house_are_not_the_climates():
    sheet = "- house Tunnel, 3 x 6 m"
    rows = seattle().head(3)
    diary = as_diary(rows, lambda row: "- weather 6 to 31 C in Tunnel", sheet)
    assert climate(diary).empty


def test_a_total_of_several_days_counts_in_its_year_and_on_no_day():
    diary = weather_diary("3 to 5 May 2025\n- rain 12 mm\n\n8 May 2025\n- rain 2 mm\n")
    assert column(diary, "rain") == [14.0]
    assert column(diary, "rain days") == [1]
    assert column(diary, "wettest day") == [2.0]
    assert column(diary, "days read") == [1]


def test_a_total_of_several_days_counts_in_its_month():
    page = "3 to 5 May 2025\n- rain 12 mm\n\n8 May 2025\n- rain 2 mm\n\n"
    page += "1 to 4 July 2025\n- rain 7 mm\n\n30 July to 2 August 2025\n- rain 9 mm\n"
    months = climate_months(weather_diary(page))
    check_frame(months, "climate_months")
    assert months[["month", "rain_mm", "rain_read"]].to_numpy().tolist() == [
        [5, 14.0, 1],
        [7, 7.0, 0],
    ]


def test_a_total_over_days_that_were_read_one_by_one_is_not_counted_twice():
    diary = weather_diary("3 to 5 May 2025\n- rain 12 mm\n\n4 May 2025\n- rain 10 mm\n")
    assert column(diary, "rain") == [10.0]


def test_rain_whose_day_may_lie_in_two_years_is_in_neither():
    diary = weather_diary("30 December 2024 to 2 January 2025\n- rain 12 mm\n")
    assert climate(diary).empty


def test_rain_that_no_sum_has_is_told():
    page = "3 to 5 May 2025\n- rain 12 mm\n\n4 May 2025\n- rain 10 mm\n\n"
    page += "30 December 2024 to 2 January 2025\n- rain 8 mm\n"
    told = [str(note) for note in climate_notes(weather_diary(page)) if " mm of " in note.reason]
    assert told == [
        "rain: 12 mm of 3 May 2025 to 5 May 2025: 1 day of them read alone too, "
        "so they are not added",
        "rain: 8 mm of 30 December 2024 to 2 January 2025 may belong to either year",
    ]


def test_rain_of_days_that_were_all_read_alone_leaves_nothing_to_say():
    days = "".join(f"{day} May 2025\n- rain 1 mm\n\n" for day in (3, 4, 5))
    diary = weather_diary(days + "3 to 5 May 2025\n- rain 3 mm\n")
    assert not [note for note in climate_notes(diary) if " mm of " in note.reason]


@pytest.mark.parametrize(
    ("written", "mm"),
    # an inch is 25.4 mm exactly (NIST SP 811, B.8)
    [
        ("1/2 inch", 12.7),
        ("½ inch", 12.7),
        ("half an inch", 12.7),
        ("0.5 inch", 12.7),
        ('3/4"', 19.05),
        ("1 1/2 inches", 38.1),
        ("1½ inch", 38.1),
        ("2/4 mm", 3.0),
    ],
)
def test_a_stroke_is_a_fraction_before_inches_and_a_range_elsewhere(written: str, mm: float):
    assert column(weather_diary(f"3 May 2025\n- rain {written}\n"), "rain") == [mm]


def test_the_columns_are_as_said(whole: Diary, gappy: Diary):
    nothing = weather_diary("3 May 2025\n- weed Top bed 1h\n")
    for diary in (whole, gappy, nothing):
        check_frame(climate_days(diary), "climate_days")
        check_frame(climate_months(diary), "climate_months")
        check_frame(climate_gaps(diary), "climate_gaps")
        check_frame(spells(diary), "spells")
        check_frame(degree_days(diary), "degree_days")
        check_frame(growing_season(diary), "growing_season")
        check_frame(met_file(diary), "met_file")
        check_frame(season_shift(diary), "season_shift")


def test_an_empty_diary_has_no_climate():
    diary = weather_diary("3 May 2025\n- weed Top bed 1h\n")
    assert climate(diary).empty and climate_days(diary).empty and climate_months(diary).empty
    assert climate_gaps(diary).empty
