"""Written names lead to crops and groups, families agree with the sources, plurals are made."""

import csv
from collections import defaultdict
from collections.abc import Iterator

import pytest

from journal.reference.crops import Crop, Group, crop_spellings, plural
from journal.reference.load import Reference
from journal.resources import shared_folder

EVERYDAY = """
calabrese, broccoli, kale, savoy, red cabbage, pak choi, chinese cabbage, mustard, rocket,
spinach, perpetual spinach, chard, beetroot, turnip, swede, kohlrabi, radish, celeriac, celery,
parsnip, carrot, parsley, coriander, dill, fennel, florence fennel, onion, spring onion, shallot,
leek, garlic, chive, potato, tomato, pepper, chilli, aubergine, cucumber, courgette, marrow,
squash, pumpkin, melon, sweetcorn, pea, mangetout, sugar snap, sweet pea, broad bean, runner bean,
french bean, climbing french bean, dwarf french bean, field bean, lettuce, endive, chicory,
lamb's lettuce, land cress, cress, salad leaf, asparagus, globe artichoke, jerusalem artichoke,
rhubarb, strawberry, raspberry, blackberry, gooseberry, blackcurrant, redcurrant, blueberry,
apple, pear, plum, cherry, fig, grape, damson, quince, loganberry, tayberry, horseradish, mint,
basil, sage, thyme, rosemary, oregano, borage, lemon balm, lavender, dahlia, marigold, calendula,
nasturtium, sunflower, cosmos, zinnia, tulip, daffodil, gladiolus, chrysanthemum, wallflower,
sweet william, cornflower, phacelia, clover, vetch, rye, comfrey, yacon, salsify, scorzonera,
seakale, winter squash, butternut squash, spring cabbage, brussels sprout, cauliflower,
purple sprouting broccoli, barley, wheat, maize, cowpea
"""


@pytest.mark.parametrize("name", " ".join(EVERYDAY.split()).split(", "))
def test_an_everyday_crop_is_known(reference: Reference, name: str):
    assert reference.crops[name].name == name
    assert reference.crop_spellings[name] == name
    assert reference.crop_spellings[plural(name)] == name


@pytest.mark.parametrize("word", ["oca", "spuds", "spud", "leaves", "weeds", "bulbs", "runners"])
def test_a_word_left_to_the_plot_sheet_or_to_other_uses_is_no_crop(reference: Reference, word: str):
    assert word not in reference.crop_spellings


@pytest.mark.parametrize(
    ("written", "name"),
    [
        ("potatoes", "potato"),
        ("tomatoes", "tomato"),
        ("chillies", "chilli"),
        ("chilli peppers", "chilli"),
        ("radishes", "radish"),
        ("berries", "berry"),
        ("squashes", "squash"),
        ("sprouts", "brussels sprout"),
        ("brussel sprouts", "brussels sprout"),
        ("purple sprouting", "purple sprouting broccoli"),
        ("salad leaves", "salad leaf"),
        ("lambs lettuce", "lamb's lettuce"),
        ("cress", "cress"),
        ("asparagus", "asparagus"),
        ("dwarf beans", "dwarf french bean"),
        ("dwarf french beans", "dwarf french bean"),
        ("zucchini", "courgette"),
        ("brassicas", "brassica"),
        ("root crops", "root"),
        ("green manure", "green manure"),
    ],
)
def test_what_is_written_leads_to_one_name(reference: Reference, written: str, name: str):
    assert reference.crop_spellings[written] == name


def test_no_written_form_stands_for_two_crops(reference: Reference):
    meanings: dict[str, set[str]] = defaultdict(set)
    for named in (*reference.crops.values(), *reference.groups.values()):
        for word in (named.name, *named.also):
            for form in (word, plural(word)):
                meanings[form].add(named.name)
    assert {form: names for form, names in meanings.items() if len(names) > 1} == {}


def test_no_written_form_holds_a_sign_that_parts_items(reference: Reference):
    for form in reference.crop_spellings:
        assert form == form.lower().strip()
        assert "," not in form and " and " not in form and '"' not in form


def test_a_name_wins_over_the_other_name_of_another():
    corn = Crop("corn", "Poaceae")
    sweetcorn = Crop("sweetcorn", "Poaceae", also=("corn",))
    spellings = crop_spellings({"sweetcorn": sweetcorn, "corn": corn}, {})
    assert spellings["corn"] == "corn"
    assert spellings["sweetcorn"] == "sweetcorn"


def test_a_group_has_a_family_only_if_its_crops_share_one(reference: Reference):
    assert reference.groups["brassica"].family == "Brassicaceae"
    assert reference.groups["allium"].family == "Amaryllidaceae"
    assert reference.groups["bean"].family == "Fabaceae"
    assert reference.groups["root"].family == ""
    assert reference.groups["herb"].family == ""


def test_a_crop_and_its_groups_name_one_another(reference: Reference):
    for group in reference.groups.values():
        assert group.members
        assert all(group.name in reference.crops[member].group for member in group.members)


def test_no_group_bears_the_name_of_a_crop(reference: Reference):
    assert not reference.crops.keys() & reference.groups.keys()


@pytest.mark.parametrize(
    ("crop", "family", "contact", "perennial", "put_in"),
    [
        ("potato", "Solanaceae", "in_soil", False, "planted"),
        ("parsnip", "Apiaceae", "in_soil", False, "sown"),
        ("strawberry", "Rosaceae", "may_touch", True, "planted"),
        ("runner bean", "Fabaceae", "off_ground", False, "either"),
        ("beetroot", "Amaranthaceae", "in_soil", False, "sown"),
        ("rhubarb", "Polygonaceae", "leaf_near_ground", True, "planted"),
    ],
)
def test_what_is_known_of_a_crop(
    reference: Reference, crop: str, family: str, contact: str, perennial: bool, put_in: str
):
    known = reference.crops[crop]
    assert known.family == family
    assert known.soil_contact == contact
    assert known.perennial is perennial
    assert known.put_in == put_in


def test_a_crop_of_mixed_kinds_has_no_family(reference: Reference):
    assert reference.crops["salad leaf"].family == ""


# International Code of Nomenclature for algae, fungi, and plants (Shenzhen, 2018), Art. 18.5:
# either name is correct. From memory, not re-read.
SAME_FAMILY = {
    "Compositae": "Asteraceae",
    "Cruciferae": "Brassicaceae",
    "Gramineae": "Poaceae",
    "Labiatae": "Lamiaceae",
    "Leguminosae": "Fabaceae",
    "Umbelliferae": "Apiaceae",
}
# Families since joined to others (APG IV, 2016). From memory, not re-read.
JOINED_FAMILY = {"Alliaceae": "Amaryllidaceae", "Chenopodiaceae": "Amaranthaceae"}


def _evidence() -> Iterator[dict[str, str]]:
    with (shared_folder() / "crop_families.csv").open(encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            for crop in row["crop"].split(";"):
                yield {**row, "crop": crop}


def test_every_family_agrees_with_the_source_that_was_read(reference: Reference):
    compared = 0
    for row in _evidence():
        written = row["family_in_source"]
        if not written:
            continue
        read = SAME_FAMILY.get(written) or JOINED_FAMILY.get(written) or written
        assert reference.crops[row["crop"]].family == row["family"] == read, row["crop"]
        compared += 1
    assert compared > 60


def test_every_rotation_group_agrees_with_the_evidence(reference: Reference):
    for row in _evidence():
        assert reference.crops[row["crop"]].rotation_group == row["rotation_group"], row["crop"]


def test_only_evidence_makes_a_basis_read(reference: Reference):
    read = defaultdict(set)
    for row in _evidence():
        for what in ("basis", "family_basis", "rotation_basis"):
            if row[what] == "read":
                read[row["crop"]].add(what)
    for crop in reference.crops.values():
        claimed = {
            what
            for what, basis in (
                ("basis", crop.species_basis),
                ("family_basis", crop.family_basis),
                ("rotation_basis", crop.rotation_basis),
            )
            if basis == "read"
        }
        assert claimed <= read[crop.name], crop.name
        assert crop.soil_contact_basis in ("", "memory")


@pytest.mark.parametrize(
    ("name", "several"),
    [
        ("leek", "leeks"),
        ("chicory", "chicories"),
        ("turkey", "turkeys"),
        ("peach", "peaches"),
        ("cress", "cresses"),
        ("cosmos", "cosmos"),
        ("spring onion", "spring onions"),
        ("mustard leaf", "mustard leaves"),
        ("sweet potato", "sweet potatoes"),
        ("brussels sprout", "brussels sprouts"),
    ],
)
def test_the_plural_falls_on_the_last_word(name: str, several: str):
    assert plural(name) == several


def test_a_group_is_a_plain_value():
    assert Group("bean", (), "Fabaceae", ("broad bean",)) == Group(
        "bean", (), "Fabaceae", ("broad bean",)
    )
