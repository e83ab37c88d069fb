"""What is a unit, what is none, and whose pint it is."""

import pytest

from journal.reference.units import SI_NAMES, convert, to_celsius, to_si, unit_table

UK = unit_table()
US = unit_table(us=True)


@pytest.mark.parametrize("word", ["kgs", "in", "dozen", "'", '"', "", "barrow", "day", "mile"])
def test_a_word_that_is_no_unit_is_not_in_the_table(word: str):
    assert word not in UK
    assert word not in US


def test_every_spelling_is_lower_case_and_of_a_known_dimension():
    for spelling, unit in (*UK.items(), *US.items()):
        assert spelling == spelling.lower() == spelling.strip()
        assert unit.dimension in SI_NAMES
        assert unit.factor > 0


def test_every_unit_is_spelled_by_its_own_name():
    for table in (UK, US):
        assert all(table[unit.name.lower()] == unit for unit in table.values())


def test_both_tables_know_the_same_words():
    assert UK.keys() == US.keys()


def test_only_the_customary_measures_differ_between_the_tables():
    differing = {UK[word].name for word in UK if UK[word] != US[word]}
    assert differing == {"cwt", "ton", "fl oz", "pint", "quart", "gallon", "peck", "bushel"}


@pytest.mark.parametrize(
    ("spellings", "name", "dimension"),
    [
        ("kg kilo kilos", "kg", "mass"),
        ("lb lbs pound pounds", "lb", "mass"),
        ("t tonne tonnes", "t", "mass"),
        ("l litre litres liter liters", "l", "volume"),
        ("pint pints pt", "pint", "volume"),
        ("ft foot feet", "ft", "length"),
        ("inch inches", "inch", "length"),
        ("m2 m² sqm", "m2", "area"),
        ("rod rods pole poles perch", "rod", "area"),
        ("min mins minute minutes", "min", "time"),
        ("h hr hrs hour hours", "h", "time"),
        ("c °c celsius", "C", "temperature"),
    ],
)
def test_everyday_spellings_are_one_unit(spellings: str, name: str, dimension: str):
    units = {UK[spelling] for spelling in spellings.split()}
    assert [(unit.name, unit.dimension) for unit in units] == [(name, dimension)]


@pytest.mark.parametrize("words", ["fl oz", "sq m", "square feet", "cubic metre", "deg c"])
def test_a_unit_may_have_two_words(words: str):
    assert words in UK


def test_the_table_is_a_copy_that_may_be_changed():
    unit_table()["sack"] = UK["kg"]
    assert "sack" not in unit_table()


def test_a_value_in_the_unit_of_the_tables():
    assert to_si(2, UK["lb"]) + to_si(4, UK["oz"]) == pytest.approx(1.0205828325, abs=1e-12)
    assert to_si(1.5, UK["hours"]) == 90
    assert to_si(50, UK["f"]) == 10


def test_water_freezes_and_boils():
    assert to_celsius(32, UK["f"]) == 0
    assert to_celsius(212, UK["f"]) == 100
    assert convert(100, UK["c"], UK["f"]) == 212


def test_a_length_is_not_turned_into_a_mass():
    with pytest.raises(ValueError, match="ft is length, kg is mass"):
        convert(1, UK["ft"], UK["kg"])
    with pytest.raises(ValueError, match="kg is no unit of temperature"):
        to_celsius(1, UK["kg"])
