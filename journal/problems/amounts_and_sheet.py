"""Codes of amounts, entries together, and the plot sheet."""

from journal.problems.code import Code, Severity

CODES: tuple[Code, ...] = (
    Code(
        "J401",
        "no-such-unit",
        Severity.ERROR,
        "A unit that is none",
        "`{word}` is not a unit",
        "write a unit such as kg, g, lb, l, m or min",
        (
            "The figure before it was not used. Inches are written `inch` or with a mark, "
            "since `in` is where a thing was done."
        ),
        "- pick 1.2 kgs kale from Weir bed",
        "- pick 1.2 kg kale from Weir bed",
    ),
    Code(
        "J402",
        "decimal-comma",
        Severity.ERROR,
        "A figure with a comma",
        "`{word}` has a comma in its figure",
        "write a point: `1.5`",
        (
            "A comma parts the items of an entry, so that a figure is written with a point."
            " The figure was not used."
        ),
        "- pick 1,5 kg kale from Weir bed",
        "- pick 1.5 kg kale from Weir bed",
    ),
    Code(
        "J403",
        "no-such-figure",
        Severity.ERROR,
        "A figure beyond all measure",
        "`{word}` is beyond all measure",
        "correct the figure",
        "The figure is too large, or below nothing where that cannot be, and was not used.",
        "- pick 99999999999999999999 kg kale from Weir bed",
        "- pick 9 kg kale from Weir bed",
    ),
    Code(
        "J404",
        "no-area",
        Severity.HINT,
        "A rate over ground without a size",
        "`{word}` has no area on the plot sheet",
        "give its size on the plot sheet: `- bed {word}, 1.2 x 4.8 m`",
        (
            "An amount per square metre comes to a total only where the area is known. The "
            "total stays blank."
        ),
        ("- bed North\n\n14 March 2026\n\n- feed kale in North with chicken pellets 60 g per m2"),
        (
            "- bed North, 4 m2\n"
            "\n"
            "14 March 2026\n"
            "\n"
            "- feed kale in North with chicken pellets 60 g per m2"
        ),
    ),
    Code(
        "J408",
        "no-length",
        Severity.ERROR,
        "A distance without a length",
        "`{word}` is no length",
        "write a unit of length, for example `15 cm apart`",
        "Depths, spacings and rows are lengths.",
        "- sow beetroot in Weir bed, 15 kg apart",
        "- sow beetroot in Weir bed, 15 cm apart",
    ),
    Code(
        "J409",
        "no-such-score",
        Severity.ERROR,
        "A score out of its scale",
        "`{word}` is no score",
        "write it as a part, for example `4/5`",
        "A verdict is a part of the best: `4/5`, `8/10`, `½`.",
        "- rate kale 7/5 (kept well)",
        "- rate kale 4/5 (kept well)",
    ),
    Code(
        "J410",
        "more-than-all",
        Severity.WARNING,
        "A part larger than its whole",
        "`{word}` is more than all of them",
        "correct one of the two figures",
        "The first figure counts what came up, was kept or lost; the second all that there were.",
        "- up 25 of 24 kale in Weir bed",
        "- up 24 of 25 kale in Weir bed",
    ),
    Code(
        "J411",
        "no-weather-unit",
        Severity.ERROR,
        "A weather figure with a strange unit",
        "`{word}` has no unit that fits {what}",
        "write it as `{example}`",
        "The figure was not used.",
        "- weather rain 4 C",
        "- weather rain 4 mm",
    ),
    Code(
        "J412",
        "shared-weight",
        Severity.HINT,
        "A weight shared out between crops",
        "`{word}` is shared out between the crops before it",
        "write it before its crop, or end with `altogether`",
        "A weight said once after the last crop serves all of them in equal parts.",
        "- pick kale, beetroot, 3 kg from Weir bed",
        "- pick kale, beetroot 3 kg altogether from Weir bed",
    ),
    Code(
        "J413",
        "price-without-amount",
        Severity.ERROR,
        "A price without its amount",
        "`{word}` needs an amount to be the price of",
        "write the amount after the verb, for example `2 {unit}`",
        "A price for a unit comes to a cost only with the amount written. The cost stays blank.",
        "- buy 3 bags potato £3 per kg",
        "- buy 4 kg potato £3 per kg",
    ),
    Code(
        "J414",
        "weight-of-another-thing",
        Severity.ERROR,
        "A second weight in an entry, of another thing",
        "`{word}` is not of the crop, and cannot be added to its weight",
        "put it in (brackets), or give it an entry of its own",
        (
            "An entry has one weight for each thing that was sown, planted or picked. What was put "
            "in the ground with it is weighed in an entry of its own; the figure was not used."
        ),
        "- plant 2 kg potato in Weir bed with 5 kg manure",
        "- plant 2 kg potato in Weir bed with manure\n- spread 5 kg manure on Weir bed",
    ),
    Code(
        "J501",
        "ground-given-up",
        Severity.WARNING,
        "A place by a name it no longer has",
        "`{word}` was split, renamed or given up before",
        "write the new name, or correct the day",
        "The plot sheet ended this place before the entry's day.",
        (
            "- bed North, 4 m2\n"
            "\n"
            "1 March 2026\n"
            "\n"
            "- rename North to South\n"
            "\n"
            "14 March 2026\n"
            "\n"
            "- weed North 1h"
        ),
        (
            "- bed North, 4 m2\n"
            "\n"
            "1 March 2026\n"
            "\n"
            "- rename North to South\n"
            "\n"
            "14 March 2026\n"
            "\n"
            "- weed South 1h"
        ),
    ),
    Code(
        "J601",
        "unread-declaration",
        Severity.ERROR,
        "A piece of the sheet that is not read",
        "`{word}` says nothing about this",
        "put it in (brackets) if it is a remark",
        "The rest of the declaration counts.",
        "- bed North, 4 m2, purple",
        "- bed North, 4 m2 (purple)",
    ),
    Code(
        "J602",
        "declared-twice",
        Severity.WARNING,
        "A place declared twice",
        "`{word}` is declared twice from the same day",
        "take one of the two lines away",
        "The later line counts; what it does not say again stays as the first had it.",
        ("- bed North, 4 m2\n- bed North, 5 m2"),
        "- bed North, 5 m2",
    ),
    Code(
        "J605",
        "nothing-to-change",
        Severity.ERROR,
        "A split or rename of no place",
        "`{word}` is not on the plot sheet",
        "add `- bed {word}` to the plot sheet",
        "Only declared ground can be split or renamed.",
        ("14 March 2026\n\n- rename Meadow to Long meadow"),
        ("- bed Meadow\n\n14 March 2026\n\n- rename Meadow to Long meadow"),
    ),
    Code(
        "J606",
        "empty-measure",
        Severity.ERROR,
        "A measure that holds nothing",
        "`{word}` has no size",
        "write what it holds, for example `- measure {word}, 5 l`",
        "A measure stands for a weight, a volume or a time.",
        "- measure trug",
        "- measure trug, 2.5 kg",
    ),
    Code(
        "J608",
        "size-in-name",
        Severity.WARNING,
        "A size that became part of a name",
        "`{word}` has its size in its name",
        "write a comma before the size: `{name}, {size}`",
        "The name of a place reaches to the first comma. Its size was not read.",
        "- tank Cistern 200 litres",
        "- tank Cistern, 200 litres",
    ),
    Code(
        "J607",
        "no-price",
        Severity.ERROR,
        "A worth without a price",
        "`{word}` has no price",
        "write it after a comma: `- worth {word}, £1.10 per kg`",
        "A worth gives the price at which a crop is counted.",
        "- worth kale",
        "- worth kale, £3 per kg",
    ),
)
