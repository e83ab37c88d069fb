"""What gardeners call their crops in talk, beside the names of the reference tables.

Common practice, no published source. A word that means two crops in different parts of the
country (`neeps`) is left out.
"""

NICKNAMES = {
    "spud": "potato", "spuds": "potato", "tater": "potato", "taters": "potato",
    "tattie": "potato", "tatties": "potato", "tatie": "potato", "taties": "potato",
    "tom": "tomato", "toms": "tomato", "tommies": "tomato", "tommy": "tomato",
    "cuke": "cucumber", "cukes": "cucumber",
    "cauli": "cauliflower", "caulis": "cauliflower",
    "strawb": "strawberry", "strawbs": "strawberry", "strawbries": "strawberry",
    "rasp": "raspberry", "rasps": "raspberry",
    "goosegog": "gooseberry", "goosegogs": "gooseberry", "goosegob": "gooseberry",
    "runner": "runner bean", "runners": "runner bean", "scarlet runners": "runner bean",
    "broads": "broad bean", "fava": "broad bean", "favas": "broad bean",
    "frenchies": "french bean",
    "beet": "beetroot", "beets": "beetroot", "courgs": "courgette", "zukes": "courgette",
    "snips": "parsnip", "parsnips": "parsnip", "brocc": "calabrese",
    "sprouts": "brussels sprout", "rhub": "rhubarb",
}  # fmt: skip
# names that single out a kind of crop which the diary does not keep apart
NARROWER = {
    "first earlies": "potato", "first early": "potato", "second earlies": "potato",
    "second early": "potato", "earlies": "potato", "maincrop": "potato", "maincrops": "potato",
    "main crop": "potato", "main crops": "potato", "new spuds": "potato",
    "early carrots": "carrot", "jersey royals": "potato",
}  # fmt: skip
