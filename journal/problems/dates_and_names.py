"""Codes of dates and names."""

from journal.problems.code import Code, Severity

CODES: tuple[Code, ...] = (
    Code(
        "J201",
        "no-such-day",
        Severity.ERROR,
        "A date that cannot be",
        "`{word}` cannot be: {reason}",
        "correct the day or the month",
        (
            "No calendar holds this date. The entries below it are kept without a day until"
            " the next good day line."
        ),
        ("31 June 2026\n\n- weed Weir bed 1h"),
        ("30 June 2026\n\n- weed Weir bed 1h"),
    ),
    Code(
        "J202",
        "wrong-weekday",
        Severity.ERROR,
        "A weekday that contradicts its date",
        "`{word}` is a {right}",
        "write `{right_day}`, or correct the day",
        (
            "The date and its weekday do not belong together, and which of them is right "
            "cannot be known. The entries below it are kept without a day."
        ),
        ("Sunday 14 March 2026\n\n- weed Weir bed 1h"),
        ("Saturday 14 March 2026\n\n- weed Weir bed 1h"),
    ),
    Code(
        "J203",
        "no-year",
        Severity.ERROR,
        "A date without a year",
        "no year is known for `{word}`",
        "write a year line such as `# 2026` above it",
        (
            "A date without a year takes the running year of its file: the last year line, "
            "else that of the last full date, else a year in the file's name."
        ),
        ("14 March\n\n- weed Weir bed 1h"),
        ("# 2026\n\n14 March\n\n- weed Weir bed 1h"),
    ),
    Code(
        "J204",
        "no-such-month",
        Severity.ERROR,
        "A date with a misspelt month",
        "`{word}` is no month",
        "write the month in full or as three letters",
        (
            "The line has the shape of a date, but its month cannot be read. The entries "
            "below it are kept without a day."
        ),
        ("14 Marhc 2026\n\n- weed Weir bed 1h"),
        ("14 March 2026\n\n- weed Weir bed 1h"),
    ),
    Code(
        "J205",
        "future-day",
        Severity.WARNING,
        "A day that has not come",
        "`{word}` has not come yet",
        "correct the year, or write it as a plan",
        "A diary tells what happened; what is meant for later is a plan.",
        ("14 March 2126\n\n- weed Weir bed 1h"),
        ("14 March 2026\n\n- weed Weir bed 1h"),
    ),
    Code(
        "J206",
        "late-page",
        Severity.HINT,
        "A day out of order",
        "`{word}` stands after a later day",
        "leave it if the page was written late",
        (
            "Late pages are normal, and each entry counts on its own day. It is told in "
            "case the year slipped."
        ),
        ("14 March 2026\n\n- weed Weir bed 1h\n\n7 March 2026\n\n- weed Weir bed 1h"),
        ("7 March 2026\n\n- weed Weir bed 1h\n\n14 March 2026\n\n- weed Weir bed 1h"),
    ),
    Code(
        "J207",
        "bare-winter",
        Severity.HINT,
        "A winter with one year",
        "`{word}` is read as {months}",
        "write both years, such as `winter 2025/26`",
        "A winter is named by its January. Two years say it plainly.",
        ("winter 2025\n\n- weed Weir bed 1h"),
        ("winter 2024/25\n\n- weed Weir bed 1h"),
    ),
    Code(
        "J208",
        "before-any-day",
        Severity.ERROR,
        "An entry before any day",
        "this entry stands before any day",
        "write a day line such as `14 March 2026` above it",
        (
            "Only declarations of the plot sheet may stand before the first day line. The "
            "entry is kept without a day."
        ),
        "- weed Weir bed 1h",
        ("14 March 2026\n\n- weed Weir bed 1h"),
    ),
    Code(
        "J209",
        "no-such-day-inside",
        Severity.ERROR,
        "A date in an entry that cannot be",
        "`{word}` cannot be: {reason}",
        "correct the day or the month",
        "The entry names another day, and no calendar holds it. The entry is kept without a day.",
        "- weed Weir bed 1h on 31 June 2025",
        "- weed Weir bed 1h on 30 June 2025",
    ),
    Code(
        "J210",
        "date-in-prose",
        Severity.WARNING,
        "A line of prose that opens with a date",
        "`{word}` opens a line of prose, not a day",
        "write a colon after the date: `{word}:`",
        (
            "A day line is a date alone, or a date and a colon. This line was kept as prose, and "
            "the entries below it belong to the day before it."
        ),
        "14 March 2026\n\n- weed Weir bed 1h\n\n15 March - cold\n\n- weed Weir bed 1h",
        "14 March 2026\n\n- weed Weir bed 1h\n\n15 March: cold\n\n- weed Weir bed 1h",
    ),
    Code(
        "J301",
        "likely-place",
        Severity.WARNING,
        "A place close to a known one",
        "`{word}` is not on the plot sheet",
        "add `- bed {word}` to the plot sheet",
        (
            "The name is one or two letters away from a place of the plot sheet. It is kept"
            " as written."
        ),
        "- weed Weir bd 1h",
        "- weed Weir bed 1h",
    ),
    Code(
        "J302",
        "new-place",
        Severity.HINT,
        "A place seen for the first time",
        "`{word}` is not on the plot sheet",
        "add `- bed {word}` to the plot sheet",
        (
            "Places need not be declared, but only a declared bed has a size, so that "
            "yields per square metre can be told."
        ),
        "- weed Nettle corner 1h",
        "- weed Weir bed 1h",
    ),
    Code(
        "J303",
        "new-crop",
        Severity.HINT,
        "A crop seen for the first time",
        "`{word}` is no crop that is known",
        "add `- crop {word}` to the plot sheet",
        (
            "Crops need not be declared, but only a known one has a family, so that "
            "rotations can be told."
        ),
        "- pick 2 kg oca from Weir bed",
        "- pick 2 kg kale from Weir bed",
    ),
    Code(
        "J304",
        "likely-crop",
        Severity.WARNING,
        "A crop close to a known one",
        "`{word}` is no crop that is known",
        "add `- crop {word}` to the plot sheet",
        "The name is one or two letters away from a crop. It is kept as written.",
        "- pick 2 kg parsnpi from Weir bed",
        "- pick 2 kg parsnip from Weir bed",
    ),
    Code(
        "J306",
        "cultivar-alone",
        Severity.WARNING,
        "A cultivar without its crop",
        "`{word}` is a cultivar of {crop}",
        "write the crop before it, the cultivar in quotes",
        "A name that is known as a cultivar stands where a crop should. It was read as a crop.",
        ("- pick 2 kg kale 'Nero' from Weir bed\n- pick 2 kg Nero from Weir bed"),
        ("- pick 2 kg kale 'Nero' from Weir bed\n- pick 2 kg kale 'Nero' from Weir bed"),
    ),
    Code(
        "J307",
        "likely-slip",
        Severity.WARNING,
        "A cultivar spelt like another",
        "`{word}` is spelt like a cultivar seen more often",
        "write one spelling throughout",
        (
            "The same crop has a cultivar one or two letters away that is written more "
            "often. It is kept as written."
        ),
        (
            "- sow kale 'Sutherland' in Weir bed\n"
            "- pick 2 kg kale 'Sutherland' from Weir bed\n"
            "- pick 1 kg kale 'Suterland' from Weir bed"
        ),
        (
            "- sow kale 'Sutherland' in Weir bed\n"
            "- pick 2 kg kale 'Sutherland' from Weir bed\n"
            "- pick 1 kg kale 'Sutherland' from Weir bed"
        ),
    ),
)
