"""Everyday materials are known by their written names, and raw manure is called raw."""

import pytest

from journal.reference.crops import nearest
from journal.reference.load import Reference
from journal.reference.materials import ROLES, Material, material_spellings


@pytest.mark.parametrize(
    ("written", "name", "role"),
    [
        ("manure", "manure", "dressing"),
        ("farmyard manure", "farmyard manure", "dressing"),
        ("well rotted manure", "well-rotted manure", "dressing"),
        ("leafmould", "leaf mould", "dressing"),
        ("wood chip", "woodchip", "dressing"),
        ("blood, fish and bone", "blood fish and bone", "dressing"),
        ("chicken pellets", "chicken pellets", "dressing"),
        ("comfrey tea", "comfrey feed", "feed"),
        ("tomato feed", "tomato feed", "feed"),
        ("seaweed feed", "seaweed feed", "feed"),
        ("grass clippings", "grass clippings", "heap"),
        ("leaves", "leaves", "heap"),
        ("kitchen peelings", "kitchen scraps", "heap"),
        ("nematodes", "nematodes", "product"),
        ("beer traps", "beer traps", "product"),
        ("fleece", "fleece", "cover"),
        ("cloches", "cloche", "cover"),
        ("butterfly net", "butterfly net", "cover"),
        ("scaffold boards", "scaffold boards", "fabric"),
        ("pond liner", "pond liner", "fabric"),
    ],
)
def test_an_everyday_material_is_known(reference: Reference, written: str, name: str, role: str):
    assert reference.material_spellings[written] == name
    assert reference.materials[name].role == role


def test_every_role_has_its_materials(reference: Reference):
    assert {material.role for material in reference.materials.values()} == set(ROLES)


def test_manure_is_raw_unless_it_was_composted(reference: Reference):
    # 7 CFR 205.203(c): only composting by its temperatures ends the wait; rotting shows none.
    raw = {name for name, material in reference.materials.items() if material.raw_manure}
    assert {"manure", "horse manure", "chicken manure", "well-rotted manure"} <= raw
    assert not {"composted manure", "compost", "chicken pellets", "leaf mould"} & raw


def test_no_written_form_stands_for_two_materials(reference: Reference):
    forms = [
        form
        for material in reference.materials.values()
        for form in (material.name, *material.also)
    ]
    assert len(forms) == len(set(forms))
    assert all(form == form.lower().strip() for form in forms)


def test_no_written_form_is_both_a_crop_and_a_material(reference: Reference):
    assert not reference.crop_spellings.keys() & reference.material_spellings.keys()


def test_a_name_wins_over_the_other_name_of_another():
    compost = Material("compost")
    potting = Material("potting compost", also=("compost", "gardener's compost"))
    spellings = material_spellings({"potting compost": potting, "compost": compost})
    assert spellings["compost"] == "compost"
    assert spellings["gardeners compost"] == "potting compost"


def test_a_slip_finds_the_material(reference: Reference):
    assert "leaf mould" in nearest("leaf moud", reference.material_spellings)
