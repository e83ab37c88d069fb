"""A station's CSV beside a diary is read by its headings; what is wrong with it is told."""

from datetime import date
from pathlib import Path

import pytest

from journal.reading import Reading, read_folder

TODAY = date(2026, 3, 1)


def read_beside(folder: Path, content: str, sheet: str = "- met file met.csv") -> Reading:
    (folder / "plot.txt").write_text(sheet + "\n", encoding="utf-8")
    (folder / "met.csv").write_text(content, encoding="utf-8")
    return read_folder(folder, TODAY)


def figures(reading: Reading) -> list[tuple[str, str, float | None, str]]:
    return [(str(row.date), row.variable, row.value, row.unit) for row in reading.weather]


def codes(reading: Reading) -> list[str]:
    return [problem.code for problem in reading.problems]


def test_columns_are_found_by_their_headings_in_any_order(tmp_path: Path):
    text = "Rain (mm),Date,Max temp °C,Station,Min temp °C\n2.4,2026-01-05,7.5,X,-1.5\n"
    reading = read_beside(tmp_path, text)
    assert sorted(figures(reading)) == [
        ("2026-01-05", "rain", 2.4, "mm"),
        ("2026-01-05", "t_max", 7.5, "C"),
        ("2026-01-05", "t_min", -1.5, "C"),
    ]
    assert codes(reading) == []


@pytest.mark.parametrize(
    ("heading", "cell", "variable", "value"),
    [
        # 32 F is 0 C, 1 inch is 25.4 mm, 1 mph is 0.44704 m/s exactly (NIST SP 811)
        ("tmin_f", "32", "t_min", 0.0),
        ("t_min", "-1.5", "t_min", -1.5),
        ("TX [degC]", "20", "t_max", 20.0),
        ("Precipitation in", "1", "rain", 25.4),
        ("rain_in", "0.5", "rain", 12.7),
        ("Wind speed (mph)", "10", "wind", 4.4704),
        ("wind (km/h)", "36", "wind", 10.0),
        ("Sunshine duration (min)", "90", "sun", 1.5),
        ("snowfall (mm)", "12", "snow", 1.2),
        ("RH max", "95", "rh_max", 95.0),
        # a watt for a day is 86 400 J, a joule a cm2 10 000 a m2
        ("Avg Solar Rad - W/m^2", "100", "solar", 8.64),
        ("Global radiation [J/cm²]", "2207", "solar", 22.07),
        ("solar_radiation (kWh/m²)", "1", "solar", 3.6),
        ("Shortwave radiation sum (MJ/m²)", "22.07", "solar", 22.07),
    ],
)
def test_a_heading_says_its_unit(
    tmp_path: Path, heading: str, cell: str, variable: str, value: float
):
    reading = read_beside(tmp_path, f"date,{heading}\n2026-01-05,{cell}\n")
    assert [(row.variable, row.value) for row in reading.weather] == [(variable, value)]


def test_the_sheet_says_units_and_columns_that_the_headings_do_not(tmp_path: Path):
    sheet = "- met file met.csv, temperatures F, rain inch, t_max from Col 7, wind mph"
    text = "date,Col 7,tmin,rain,wind\n2026-01-05,50,41,0.1,10\n"
    reading = read_beside(tmp_path, text, sheet)
    assert codes(reading) == []
    assert {row.variable: row.value for row in reading.weather} == {
        "t_max": 10.0,
        "t_min": 5.0,
        "rain": 2.54,
        "wind": 4.4704,
    }


def test_the_plots_own_units_hold_where_nothing_else_says(tmp_path: Path):
    sheet = "- plot Home, units us\n- met file met.csv"
    reading = read_beside(tmp_path, "date,tmin,rain\n2026-01-05,50,1\n", sheet)
    assert {row.variable: row.value for row in reading.weather} == {"t_min": 10.0, "rain": 25.4}


def test_a_wind_without_a_unit_is_left_out_and_told(tmp_path: Path):
    reading = read_beside(tmp_path, "date,rain,wind\n2026-01-05,1,10\n")
    assert codes(reading) == ["J009"]
    assert [row.variable for row in reading.weather] == ["rain"]
    assert reading.problems[0].mend == "write it on the sheet: `- met file NAME, wind m/s`"


def test_marks_for_a_missing_value_are_neither_figures_nor_faults(tmp_path: Path):
    text = "date,rain,tmin\n" + "".join(
        f"2026-01-{day:02},{mark},1\n"
        for day, mark in enumerate(["", "-", "NA", "-9999", "null", "---", "m"], 1)
    )
    reading = read_beside(tmp_path, text)
    assert codes(reading) == []
    assert {row.variable for row in reading.weather} == {"t_min"}


def test_a_trace_of_rain_is_nothing_with_a_mark(tmp_path: Path):
    reading = read_beside(tmp_path, "date,rain\n2026-01-05,T\n")
    assert [(row.value, row.mark) for row in reading.weather] == [(0.0, "trace")]


def test_what_is_no_figure_is_told_once_with_its_number_and_place(tmp_path: Path):
    text = "date,rain,tmin\n2026-01-05,wet,1\n2026-01-06,-3,2\n2026-01-07,0,999\n"
    reading = read_beside(tmp_path, text)
    assert codes(reading) == ["J007"]
    problem = reading.problems[0]
    assert problem.message == "`wet` is no figure of the weather, the first of 3"
    assert problem.source.line_column(problem.span.start) == (2, 12)
    assert figures(reading) == [
        ("2026-01-05", "t_min", 1.0, "C"),
        ("2026-01-06", "t_min", 2.0, "C"),
        ("2026-01-07", "rain", 0.0, "mm"),
    ]


def test_a_row_without_a_date_is_told_and_the_rest_is_read(tmp_path: Path):
    reading = read_beside(tmp_path, "date,rain\n2026-13-05,1\n2026-01-06,2\n")
    assert codes(reading) == ["J007"]
    assert "no date" in reading.problems[0].message
    assert figures(reading) == [("2026-01-06", "rain", 2.0, "mm")]


def test_a_day_that_stands_twice_counts_once(tmp_path: Path):
    reading = read_beside(tmp_path, "date,rain\n2026-01-06,2\n2026-01-06,5\n")
    assert codes(reading) == ["J010"]
    assert figures(reading) == [("2026-01-06", "rain", 2.0, "mm")]


def test_a_file_of_several_rows_a_day_is_refused_whole(tmp_path: Path):
    text = "datetime,rain,tmin\n2026-01-06 00:00,2,1\n2026-01-06 01:00,5,2\n"
    reading = read_beside(tmp_path, text)
    assert codes(reading) == ["J006"]
    assert reading.weather == ()


def test_a_semicolon_file_with_decimal_commas_is_read(tmp_path: Path):
    reading = read_beside(tmp_path, "Datum;Date;Rain mm\nx;14.02.2026;2,5\n")
    assert figures(reading) == [("2026-02-14", "rain", 2.5, "mm")]


@pytest.mark.parametrize(
    ("order", "day"), [("day first", "2026-02-01"), ("month first", "2026-01-02")]
)
def test_figures_of_a_date_stand_in_the_sheets_order(tmp_path: Path, order: str, day: str):
    sheet = f"- plot Home, dates {order}\n- met file met.csv"
    reading = read_beside(tmp_path, "date,rain\n01/02/2026,2\n", sheet)
    assert [str(row.date) for row in reading.weather] == [day]


def test_a_date_in_three_columns_is_read_below_lines_about_the_station(tmp_path: Path):
    text = "# Ferry pier\nheight,12 m\nYear,Month,Day of month,Tmax\n2026,2,28,9.5\n"
    assert figures(read_beside(tmp_path, text)) == [("2026-02-28", "t_max", 9.5, "C")]


def test_days_after_today_are_forecasts_and_not_read(tmp_path: Path):
    reading = read_beside(tmp_path, "date,rain\n2026-03-01,1\n2026-03-02,2\n")
    assert figures(reading) == [("2026-03-01", "rain", 1.0, "mm")]


def test_every_reading_knows_its_line_and_its_file(tmp_path: Path):
    reading = read_beside(tmp_path, "date,rain\r\n2026-01-05,1\r\n2026-01-06,2\r\n")
    places = [row.source.line_column(row.span.start) for row in reading.weather]
    assert places == [(2, 12), (3, 12)]
    assert [row.source.slice(row.span) for row in reading.weather] == ["1", "2"]
    assert [source.path for source in reading.met_sources] == ["met.csv"]


def test_a_quoted_cell_may_hold_the_separator(tmp_path: Path):
    reading = read_beside(tmp_path, 'station,date,rain\n"Pier, north","2026-01-05","1.5"\n')
    assert figures(reading) == [("2026-01-05", "rain", 1.5, "mm")]


def test_a_piece_of_the_sheets_line_that_says_nothing_is_told(tmp_path: Path):
    reading = read_beside(tmp_path, "date,rain\n2026-01-05,1\n", "- met file met.csv, rain kg")
    assert codes(reading) == ["J601"]


def test_a_file_without_a_heading_is_refused(tmp_path: Path):
    assert codes(read_beside(tmp_path, "2026-01-05,1,2\n")) == ["J006"]
    assert codes(read_beside(tmp_path, "")) == ["J006"]


def test_a_row_too_short_to_hold_its_date_is_told(tmp_path: Path):
    reading = read_beside(tmp_path, "Rain,Date,Max\n1\n2,2026-01-05,7\n")
    assert codes(reading) == ["J007"]
    assert ("2026-01-05", "rain", 2.0, "mm") in figures(reading)
