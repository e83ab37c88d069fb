"""The plan of the plot and the books drawn: to scale, each with its source, and no verdict."""

from datetime import date

import pandas as pd
from support.written import written

from journal.charts.books import books_chart
from journal.charts.files import MOST_PIXELS, WRITERS, chart_spec
from journal.charts.plan import plan_chart
from journal.studies.books import books
from journal.studies.plan import plan

TODAY = date(2026, 3, 1)
PAGE = """\
- bed North, 1.2 x 5 m, at 0 x 0 m
- bed South, 1 x 1 m, at 4 x 4 m
- bed Corner, 3 m2
2025-04-01
- sow carrot 'Nantes' in North, 2 rows
- plant 5 broad bean in North
- plant 1 rhubarb in Corner
2025-07-01
- pick 3 kg carrot from North
"""


def frames(spec: dict) -> list[pd.DataFrame]:
    return [pd.DataFrame(rows) for rows in spec["datasets"].values()]


def test_a_bed_is_drawn_where_and_as_large_as_the_sheet_says() -> None:
    places = plan(written(PAGE, TODAY))
    spec = chart_spec(plan_chart(places))
    shapes = pd.concat(frame for frame in frames(spec)).drop_duplicates("place")
    found = shapes.set_index("place")[["x_m", "x2", "y_m", "y2"]].to_dict("index")
    assert found == {
        "North": {"x_m": 0, "x2": 1.2, "y_m": 0, "y2": 5},
        "South": {"x_m": 4, "x2": 5, "y_m": 4, "y2": 5},
    }
    # 5 m by 5 m: one metre is as long down the page as along it
    assert spec["width"] == spec["height"]
    missing = f"{len(places) - 2} places without two sides and a corner on the sheet are not drawn."
    assert spec["description"].endswith(missing)


def test_the_plan_says_what_stands_and_leaves_an_empty_bed_empty() -> None:
    shapes = pd.concat(frames(chart_spec(plan_chart(plan(written(PAGE, TODAY))))))
    full = shapes.drop_duplicates("place").set_index("place")
    assert full["stands"].to_dict() == {"North": "broad bean", "South": ""}
    assert full["full"].to_dict() == {"North": True, "South": False}
    assert full.loc["North", "lines"][0] == "North"


def test_a_long_name_in_a_narrow_bed_runs_up_the_page() -> None:
    # 0.5 m of the 20 m across the drawing are 16 of its 640 pixels
    page = "- bed Behind the shed, 0.5 x 6 m, at 0 x 0 m\n- bed A, 1 x 1 m, at 19 x 0 m\n"
    shapes = pd.concat(frames(chart_spec(plan_chart(plan(written(page, TODAY))))))
    turned = shapes.drop_duplicates("place").set_index("place")["turned"].to_dict()
    assert turned == {"Behind the shed": True, "A": False}


def test_a_plot_without_corners_is_said_to_have_no_plan() -> None:
    assert "no plan" in plan_chart(plan(written("- bed A, 3 m2\n", TODAY))).description


def test_a_yield_stands_beside_each_published_one_with_its_source() -> None:
    # 3 kg over 2 rows of 5 m are 0.3 kg a metre; the sources are those of the study
    study = books(written(PAGE, TODAY))
    spec = chart_spec(books_chart(study))
    panel = next(each for each in spec["vconcat"] if "metre of row" in each["title"]["text"])
    drawn = next(frame for frame in frames(spec) if "0.3 (" in frame["says"].iloc[0])
    rows = study[(study["measure"] == "yield") & (study["unit"] == "kg per m")]
    assert len(drawn) == len(rows) > 1
    assert all(
        name.endswith(source) for name, source in zip(drawn["name"], drawn["source"], strict=True)
    )
    assert all(source in panel["description"] for source in rows["source"])
    assert sorted(drawn["published_low"]) == sorted(rows["published_low"])


def test_the_books_say_no_verdict() -> None:
    spec = chart_spec(books_chart(books(written(PAGE, TODAY))))
    words = " ".join([spec["description"], *(str(p["title"]) for p in spec["vconcat"])]).lower()
    assert not any(word in words for word in ("good", "poor", "below", "above", "better", "worse"))


def test_a_picture_is_never_too_long_to_be_opened() -> None:
    mark = {"type": "point"}
    spec = {"data": {"values": [{"a": 1}]}, "mark": mark, "width": 50, "height": 2 * MOST_PIXELS}
    picture = WRITERS[".png"](spec)
    assert int.from_bytes(picture[20:24], "big") <= MOST_PIXELS
