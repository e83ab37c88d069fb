"""GHCN-Daily files in their three forms: tenths, missing values, and flags that are honoured.

Layout, element units and flags: GHCN-Daily readme.txt, section III (read in copies:
github.com/aaronpenne/get_noaa_ghcn_data for the columns of `.dly`, the by-station readme of
noaa-ghcn-pds for the lines of elements, ropensci/rnoaa `ncdc_attributes` for the flags). The days
are made up.
"""

from datetime import date
from pathlib import Path

import pytest

from journal.reading import Reading, read_folder

TODAY = date(2026, 3, 1)


def read_beside(folder: Path, name: str, content: str, pieces: str = "") -> Reading:
    (folder / "plot.txt").write_text(f"- met file {name}{pieces}\n", encoding="utf-8")
    (folder / name).write_text(content, encoding="utf-8")
    return read_folder(folder, TODAY)


def dly_line(element: str, month: str, *values: tuple[int, str]) -> str:
    """One month of one element; a value with its flags MFLAG, QFLAG, SFLAG, else missing."""
    days = [*values, *[(-9999, "   ")] * (31 - len(values))]
    return f"USW00094290{month}{element}" + "".join(f"{value:5}{flags}" for value, flags in days)


DLY = "\n".join(
    [
        dly_line("TMAX", "202601", (106, "  W"), (89, " S0"), (-5, "  W")),
        dly_line("TMIN", "202601", (50, "  W"), (28, "  W"), (-61, "  W")),
        dly_line("PRCP", "202601", (0, "T W"), (109, "  W"), (254, "A W")),
        dly_line("SNWD", "202601", (30, "  W")),
        dly_line("SNOW", "202601", (25, "  W")),
    ]
)
ELEMENTS = """\
USW00094290,20260101,TMAX,106,,,W,
USW00094290,20260102,TMAX,89,,S,0,
USW00094290,20260103,TMAX,-5,,,W,
USW00094290,20260101,TMIN,50,,,W,
USW00094290,20260102,TMIN,28,,,W,
USW00094290,20260103,TMIN,-61,,,W,
USW00094290,20260101,PRCP,0,T,,W,2400
USW00094290,20260102,PRCP,109,,,W,2400
USW00094290,20260103,PRCP,254,A,,W,2400
USW00094290,20260101,SNWD,30,,,W,
USW00094290,20260101,SNOW,25,,,W,
"""
DAYS = """\
"STATION","DATE","NAME","PRCP","PRCP_ATTRIBUTES","SNOW","TMAX","TMAX_ATTRIBUTES","TMIN"
"USW00094290","2026-01-01","SEATTLE SAND PT, WA","    0","T,,W,2400","25","106",",,W","50"
"USW00094290","2026-01-02","SEATTLE SAND PT, WA","  109",",,W,2400","","89",",S,0","28"
"USW00094290","2026-01-03","SEATTLE SAND PT, WA","  254","A,,W,2400","","-5",",,W","-61"
"""
# Element units: TMAX and TMIN tenths of C, PRCP tenths of mm, SNOW mm.
READ = {
    ("2026-01-01", "t_max", 10.6),
    ("2026-01-03", "t_max", -0.5),
    ("2026-01-01", "t_min", 5.0),
    ("2026-01-02", "t_min", 2.8),
    ("2026-01-03", "t_min", -6.1),
    ("2026-01-01", "rain", 0.0),
    ("2026-01-02", "rain", 10.9),
    ("2026-01-01", "snow", 2.5),
}


@pytest.mark.parametrize(
    ("name", "content"), [("sand.dly", DLY), ("sand.csv", ELEMENTS), ("day.csv", DAYS)]
)
def test_each_form_reads_the_same_and_leaves_out_what_is_flagged(
    tmp_path: Path, name: str, content: str
):
    reading = read_beside(tmp_path, name, content)
    assert {(str(row.date), row.variable, row.value) for row in reading.weather} == READ
    assert [problem.code for problem in reading.problems] == ["J008", "J008"]
    assert sorted(problem.message for problem in reading.problems) == [
        "1 with a quality flag left out, the first `89`",
        "1 with the flag of no single day left out, the first `254`",
    ]
    assert [row.mark for row in reading.weather if row.variable == "rain"] == ["trace", ""]


def test_a_value_stands_where_the_file_has_it(tmp_path: Path):
    reading = read_beside(tmp_path, "sand.dly", DLY)
    shown = {
        (row.source.line_column(row.span.start)[0], row.source.slice(row.span).strip())
        for row in reading.weather
        if row.variable == "t_min"
    }
    assert shown == {(2, "50"), (2, "28"), (2, "-61")}


def test_flagged_values_are_counted(tmp_path: Path):
    lines = [f"USW00094290,202601{day:02},PRCP,{day},,X,W," for day in range(1, 14)]
    reading = read_beside(tmp_path, "sand.csv", "\n".join(lines))
    assert [problem.message for problem in reading.problems] == [
        "13 with a quality flag left out, the first `1`"
    ]
    assert reading.weather == ()


def test_a_download_in_whole_units_is_refused_until_the_sheet_says_them(tmp_path: Path):
    text = "STATION,DATE,PRCP,TMAX,TMIN\nUSW00094290,2026-01-01,0.43,51,41\n"
    refused = read_beside(tmp_path, "day.csv", text)
    assert [problem.code for problem in refused.problems] == ["J006"]
    assert refused.weather == ()
    read = read_beside(tmp_path, "day.csv", text, ", units us")
    assert read.problems == ()
    # 51 F = 10.556 C, 41 F = 5 C, 0.43 inch = 10.922 mm
    assert {row.variable: row.value for row in read.weather} == {
        "rain": 10.922,
        "t_max": pytest.approx(10.5556, abs=1e-4),
        "t_min": 5.0,
    }


def test_a_quality_flag_holds_in_any_unit(tmp_path: Path):
    text = 'STATION,DATE,PRCP,PRCP_ATTRIBUTES\nU,2026-01-01,0.43,",X,W"\n'
    reading = read_beside(tmp_path, "day.csv", text, ", rain inch")
    assert reading.weather == ()
    assert [problem.code for problem in reading.problems] == ["J008"]


def test_a_day_that_no_month_has_is_passed_over(tmp_path: Path):
    line = dly_line("TMIN", "202602", *[(10, "   ")] * 31)
    reading = read_beside(tmp_path, "sand.dly", line)
    assert len(reading.weather) == 28


def test_a_month_that_breaks_off_keeps_the_days_that_it_has(tmp_path: Path):
    line = dly_line("TMIN", "202601", *[(10, "   ")] * 31)
    for length in (21, 22, 26, 29, 40, 213, len(line.rstrip()) + 3):
        reading = read_beside(tmp_path, "sand.dly", line.rstrip("\n")[:length] + "\n")
        assert len(reading.weather) <= 31
        assert all(row.span.end <= length for row in reading.weather)


def test_a_month_or_a_value_in_signs_that_are_no_figures_is_passed_over(tmp_path: Path):
    line = dly_line("TMIN", "202601", *[(10, "   ")] * 31)
    reading = read_beside(tmp_path, "sand.dly", line + line.replace("202601", "20²603"))
    assert len(reading.weather) == 31
    endless = "US1,20260101,TMAX," + "9" * 5000 + ",,,W,\n"
    reading = read_beside(tmp_path, "day.csv", "USW00024233" + endless[3:])
    assert reading.weather == () and [p.code for p in reading.problems] == ["J007"]
