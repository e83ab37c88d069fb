"""Days, amounts and names as a person says them; words only, no figure is made here."""

from collections.abc import Sequence
from datetime import date

from journal.questions.periods import day_words, stretch_words
from journal.reference.crops import plural

# below so many days a sentence counts in days, in weeks; below so many months in months
_DAYS, _WEEKS, _MONTHS = 21, 63, 24


def listed(words: Sequence[str], last: str = "and", most: int = 0) -> str:
    """`a, b and c`; beyond `most`, `a, b and 4 more`."""
    if most and len(words) > most:
        words = [*words[: most - 1], f"{len(words) - most + 1} more"]
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {last} {words[-1]}"


def counted(count: float, one: str, many: str = "") -> str:
    """`1 time`, `3 times`, `1,204 days`."""
    return f"{figure(count)} {one if count == 1 else many or one + 's'}"


def times(count: int) -> str:
    """`once`, `twice`, `3 times`."""
    return {1: "once", 2: "twice"}.get(count, f"{count:,} times")


def figure(value: float, places: int | None = None) -> str:
    """A figure with as many decimals as tell something: 1,204, 84.3, 2.45, 0.12."""
    if places is None:
        size = abs(value)
        places = 0 if size >= 1000 or value == int(value) else 1 if size >= 100 else 2
    text = f"{value:,.{places}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def kilograms(value: float) -> str:
    """`850 g`, `2.4 kg`."""
    if 0 < value < 1:
        return f"{figure(value * 1000, 0)} g"
    return f"{figure(value, 1 if value >= 100 else 2)} kg"


def litres(value: float) -> str:
    """`20 ml`, `4.5 litres`, `1 litre`."""
    if 0 < value < 0.5:
        return f"{figure(value * 1000, 0)} ml"
    return counted(float(figure(value, 1).replace(",", "")), "litre")


def duration(minutes: float) -> str:
    """`50 minutes`, `2 hours`, `14 hours 40 minutes`, `1 minute`."""
    whole = round(minutes)
    hours, rest = divmod(whole, 60)
    if not hours:
        return counted(rest, "minute")
    words = counted(hours, "hour")
    return f"{words} {counted(rest, 'minute')}" if rest else words


def money(value: float, currency: str) -> str:
    """`£4.50`, `3.95 EUR`."""
    sign = {"GBP": "£", "USD": "$", "EUR": "€"}.get(currency)
    text = f"{value:,.2f}".removesuffix(".00")
    return f"{sign}{text}" if sign else f"{text} {currency}".strip()


def ago(day: date, today: date) -> str:
    """`today`, `yesterday`, `11 days ago`, `5 weeks ago`, `11 months ago`, `3 years ago`."""
    days = (today - day).days
    if days < 0:
        return "still to come"
    return ("today", "yesterday")[days] if days < 2 else f"{span(day, today)} ago"


def span(first: date, last: date) -> str:
    """`11 days`, `5 weeks`, `11 months`, `3 years`: whole ones, in the unit that fits."""
    days = (last - first).days
    if days < _DAYS:
        return counted(days, "day")
    months = (last.year - first.year) * 12 + last.month - first.month - (last.day < first.day)
    if days < _WEEKS:
        return counted(days // 7, "week")
    return counted(months, "month") if months < _MONTHS else counted(months // 12, "year")


def whole_span(first: date, last: date) -> str:
    """`6 years and 11 months`, `3 months`, `12 days`: years with their months."""
    months = (last.year - first.year) * 12 + last.month - first.month - (last.day < first.day)
    if months < 12:
        return span(first, last)
    years, rest = divmod(months, 12)
    words = counted(years, "year")
    return f"{words} and {counted(rest, 'month')}" if rest else words


def when(first: date, last: date, today: date) -> str:
    """`on Saturday 29 March 2025, 11 months ago`; a doubtful day as `some day from .. to ..`."""
    if first == last:
        return f"on {day_words(first, weekday=True)}, {ago(first, today)}"
    return f"some day from {stretch_words(first, last)}, {_range_ago(first, last, today)}"


def _range_ago(first: date, last: date, today: date) -> str:
    one, other = ago(last, today), ago(first, today)
    if one == other:
        return one
    return f"between {one.removesuffix(' ago')} and {other}"


# crops that are said in the singular of stuff, not as so many
_STUFF = (
    "garlic", "kale", "lettuce", "rhubarb", "spinach", "chard", "mizuna", "rocket", "celery",
    "celeriac", "sweetcorn", "broccoli", "calabrese", "asparagus", "parsley", "mint", "basil",
    "beetroot", "cress", "dill", "fennel", "coriander", "seakale", "samphire", "comfrey",
    "phacelia", "clover", "maize", "oca", "purslane", "endive", "chicory", "sage", "thyme",
    "rosemary", "horseradish", "florence fennel", "purple sprouting broccoli", "pak choi",
    "kohlrabi", "cavolo nero", "mustard", "komatsuna", "mibuna", "winter squash", "summer squash",
    "squash", "butternut squash", "lamb's lettuce", "perpetual spinach", "quinoa", "okra",
)  # fmt: skip


def crop_said(crop: str) -> str:
    """A crop as it is spoken of: `leeks`, `garlic`, `French beans`."""
    words = crop if crop in _STUFF else plural(crop)
    return words.replace("french", "French").replace("brussels", "Brussels")


def crop_one(said: str, crop: str) -> str:
    """Crops that were said, as they stand before another noun: `carrot` seed, `French bean`."""
    many = crop_said(crop)
    if not said.endswith(many):
        return said
    one = crop.replace("french", "French").replace("brussels", "Brussels")
    return said.removesuffix(many) + one


def is_one(crop: str) -> bool:
    """Whether a crop is spoken of in the singular (`garlic was`, but `leeks were`)."""
    return crop in _STUFF


def placed(done: str, there: str) -> str:
    """`put in` and `in Bunker 1` to `put in Bunker 1`; else one after the other."""
    kept = done.removesuffix(" in") if there else done
    return " ".join(filter(None, [kept, there]))


def capital(sentence: str) -> str:
    """With its first letter large; a name in quotes keeps its own."""
    return sentence[:1].upper() + sentence[1:]
