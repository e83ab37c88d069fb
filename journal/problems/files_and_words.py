"""Codes of files and words: what cannot be opened, and what cannot be read."""

from journal.problems.code import Code, Severity

CODES: tuple[Code, ...] = (
    Code(
        "J001",
        "not-utf-8",
        Severity.ERROR,
        "A byte that is no text",
        "the byte {byte} is not UTF-8 text{more}",
        "save the file as UTF-8 in your editor",
        (
            "The file holds bytes that are not UTF-8. Each run of them is read as `�`, the "
            "rest of the file is read as it stands, and the file itself is never changed."
        ),
        "",
        "",
    ),
    Code(
        "J002",
        "utf-16",
        Severity.WARNING,
        "A file of another encoding",
        "`{word}` is {encoding}, not UTF-8",
        "save the file as UTF-8 in your editor",
        (
            "The file opens with the mark of another encoding, or every second byte of it is zero. "
            "It was read as that."
        ),
        "",
        "",
    ),
    Code(
        "J003",
        "unreadable-file",
        Severity.ERROR,
        "A file that cannot be opened",
        "`{word}` cannot be opened: {reason}",
        "allow reading it, or move it out of the diary",
        (
            "The file or folder is in the diary's folder and cannot be opened, so nothing in it "
            "counts. A link that leads out of the diary's folder is not followed."
        ),
        "",
        "",
    ),
    Code(
        "J004",
        "no-met-file",
        Severity.ERROR,
        "A met file that is not there",
        "there is no met file `{word}`",
        "put it in the diary's folder, or correct its name",
        (
            "The sheet names a met file, and the diary's folder has none of that name. Its "
            "readings are not in the weather table."
        ),
        "",
        "",
    ),
    Code(
        "J005",
        "met-file-outside",
        Severity.ERROR,
        "A met file outside the diary",
        "`{word}` is outside the diary's folder",
        "put the file itself in the diary's folder",
        (
            "Only files inside the diary's folder are read, with links followed to where "
            "they lead, so that a diary can be moved and shared whole."
        ),
        "",
        "",
    ),
    Code(
        "J006",
        "unread-met-file",
        Severity.ERROR,
        "A met file that cannot be read",
        "`{word}` is no met file: {reason}",
        "give it a heading such as `date,t_min,t_max,rain`",
        (
            "A met file is a CSV file with a heading and one row a day, or a GHCN-Daily "
            "file. Nothing of this one was read."
        ),
        "",
        "",
    ),
    Code(
        "J007",
        "unread-met-cell",
        Severity.ERROR,
        "A cell of a met file that is not read",
        "`{word}` is no {what}{more}",
        "correct it, or leave it empty",
        (
            "The cell holds neither a figure, nor a mark for a missing one, or a figure "
            "that no weather reaches. The rest of its row counts."
        ),
        "",
        "",
    ),
    Code(
        "J008",
        "flagged-met-value",
        Severity.HINT,
        "Values of a met file that are left out",
        "{count} with {why} left out, the first `{word}`",
        "leave it: the file's own flags say so",
        (
            "A GHCN-Daily value with a quality flag failed a check of its keepers; one "
            "flagged as a total of several days, or as presumed dry, is no reading of its "
            "day. They are left out and counted here."
        ),
        "",
        "",
    ),
    Code(
        "J009",
        "no-met-unit",
        Severity.ERROR,
        "A column of a met file without a unit",
        "`{word}` has no unit",
        "write it on the sheet: `- met file NAME, {name} {unit}`",
        (
            "Neither the heading nor the sheet says in which unit this column is, and there"
            " is no usual one. The column was not read."
        ),
        "",
        "",
    ),
    Code(
        "J010",
        "met-day-twice",
        Severity.WARNING,
        "A day that a met file has twice",
        "`{word}` stands twice{more}",
        "take one of the two rows away",
        "The first row of the day counts.",
        "",
        "",
    ),
    Code(
        "J101",
        "unread-words",
        Severity.ERROR,
        "Words that fit nowhere",
        "`{word}` is not read here",
        "put it in (brackets) if it is a remark",
        (
            "The rest of the entry counts; these words do not. In brackets, or on an "
            "indented line below, they are kept as its remark."
        ),
        "- pick 2 kg kale from Weir bed glossy",
        "- pick 2 kg kale from Weir bed (glossy)",
    ),
    Code(
        "J102",
        "no-place",
        Severity.ERROR,
        "A small word with nothing behind it",
        "`{word}` names nothing",
        "write what follows it, for example `from Frame`",
        "A preposition stands at the end, or before a comma, with no place or thing behind it.",
        "- pick 1.2 kg kale from",
        "- pick 1.2 kg kale from Weir bed",
    ),
    Code(
        "J103",
        "no-verb",
        Severity.ERROR,
        "A dash line without a verb",
        "`{word}` is no verb of the diary",
        "start the line with a verb, or take its dash away",
        (
            "A line that opens with a dash is an entry and begins with a verb. This one is "
            "kept as prose."
        ),
        "- pikc 2 kg kale from Weir bed",
        "- pick 2 kg kale from Weir bed",
    ),
    Code(
        "J104",
        "open-bracket",
        Severity.WARNING,
        "A bracket that never closes",
        "`(` is never closed",
        "put `)` at the end of the remark",
        "Everything behind the bracket was taken as the remark.",
        "- pick 2 kg kale from Weir bed (glossy",
        "- pick 2 kg kale from Weir bed (glossy)",
    ),
    Code(
        "J105",
        "stray-sign",
        Severity.ERROR,
        "A sign without a meaning",
        "`{word}` has no meaning in an entry",
        "put it in (brackets) if it is part of a remark",
        "A sign stands alone where none belongs. The rest of the entry counts.",
        "- pick 2 kg kale % from Weir bed",
        "- pick 2 kg kale from Weir bed",
    ),
    Code(
        "J106",
        "no-unit",
        Severity.ERROR,
        "A size without a unit",
        "`{word}` has no unit",
        "write it after the second number: `{word} cm`",
        "Two figures with x between them are a spacing or a size, and need a unit of length.",
        "- sow beetroot in Weir bed, 15 x 30",
        "- sow beetroot in Weir bed, 15 x 30 cm",
    ),
    Code(
        "J107",
        "unfinished",
        Severity.ERROR,
        "An amount that stops short",
        "`{word}` stops short",
        "write the figure that follows it, or take it away",
        "An amount opens here and is not finished, such as `36 of` or `2 x`.",
        "- up 36 of 10am kale in Weir bed",
        "- up 36 of 40 kale in Weir bed",
    ),
    Code(
        "J109",
        "likely-cultivar",
        Severity.ERROR,
        "A cultivar without its quotes",
        "`{word}` looks like a cultivar of {crop}",
        "put it in quotes: `'{word}'`",
        (
            "Words beside a crop are a cultivar's name only in single quotes, until that "
            "name has stood in quotes once."
        ),
        "- pick 2 kg kale nero from Weir bed",
        "- pick 2 kg kale 'Nero' from Weir bed",
    ),
    Code(
        "J110",
        "no-crop",
        Severity.WARNING,
        "A verb without its crop",
        "`{word}` names no crop",
        "write the crop after it, for example `{word} kale`",
        "The entry is in the tables, but no crop gains by it.",
        "- pick 2 kg from Weir bed",
        "- pick 2 kg kale from Weir bed",
    ),
    Code(
        "J111",
        "open-quote",
        Severity.ERROR,
        "A quote that never closes",
        "`{word}` opens a quote that never closes",
        "write `{word}'`",
        "A cultivar stands between two single quotes. The words after this one were not used.",
        "- pick 12 leek 'Ivory from Weir bed",
        "- pick 12 leek 'Ivory' from Weir bed",
    ),
    Code(
        "J112",
        "two-verbs",
        Severity.ERROR,
        "A second verb in one entry",
        "`{word}` begins another entry",
        "write it on a line of its own",
        "An entry has one verb. What follows the second one was not used.",
        "- weed Weir bed and hoe Glasshouse",
        "- weed Weir bed\n- hoe Glasshouse",
    ),
    Code(
        "J113",
        "no-dash",
        Severity.HINT,
        "A line of prose that reads like an entry",
        "`{word}` opens a line of prose, not an entry",
        "put `- ` before it if it is an entry",
        "An entry opens with a dash and a space. Without them a line is prose, and not counted.",
        "pick 2 kg kale from Weir bed",
        "- pick 2 kg kale from Weir bed",
    ),
)
