"""What to say of a question that is not read: which part, what is near it, what can be asked."""

from collections.abc import Sequence

from journal.diary import Diary
from journal.questions.lexer import Tokens
from journal.questions.model import Answer
from journal.questions.names import Names, Sense
from journal.questions.parts import Part
from journal.questions.saying import crop_said, listed

# so many unread words and it is no question about a garden
_NONSENSE = 4
_OFFERED = 3


def refuse(sentence: str, offers: Sequence[str]) -> Answer:
    """A refusal with the nearest questions that can be asked."""
    return Answer(False, sentence, caveats=tuple(f"you can ask: {offer}" for offer in offers))


def unread_words(found: Tokens, parts: Sequence[Part], names: Names) -> str:
    """The sentence that names the words which no part of the grammar takes."""
    words = [found.text[part.start : part.end] for part in parts if part.kind == "unread"]
    unsure = {written: near for written, near in found.unsure}
    for word in words:
        near = next((each for written, each in unsure.items() if written.startswith(word)), None)
        if near:
            return f"I do not know `{word}`: did you mean {listed(_titled(near, names), 'or')}?"
    if len(words) >= _NONSENSE and len(words) > len(parts) - len(words):
        return "I cannot read that as a question about the diary."
    quoted = [f"`{word}`" for word in dict.fromkeys(words)]
    return f"I do not know what {listed(quoted)} {'means' if len(quoted) == 1 else 'mean'} here."


def _titled(near: Sequence[str], names: Names) -> list[str]:
    """Near spellings under the names that the diary keeps them by."""
    found = []
    for spelling in near:
        sense = names.meant(spelling)[0]
        found.append(f"'{sense.name}'" if sense.kind == "cultivar" else spelling)
    return list(dict.fromkeys(found))


def left_over(found: Tokens, parts: Sequence[Part]) -> str:
    """The sentence that names what does not go with the rest of the question."""
    words = [f"`{found.text[part.start : part.end]}`" for part in parts]
    return f"I cannot tell what {listed(words)} {_does(words)} in that question."


def _does(words: Sequence[str]) -> str:
    return "does" if len(words) == 1 else "do"


def offers(diary: Diary, parts: Sequence[Part], names: Names) -> list[str]:
    """Two or three questions of the words that were understood, the likeliest kind first."""
    crop, place, job = _crop(parts, names), _place(parts), _job(parts)
    year = _year(diary, parts)
    crop = crop or _commonest(diary, "crop")
    place_said = place or _commonest(diary, "place")
    made = {
        "when": f"When did the {crop} go in, {year}?" if crop else "",
        "picked": f"When did we last pick {crop}?" if crop else "",
        "much": f"How many kilos of {crop} did we pick in {year}?" if crop else "",
        "from": f"How much did we pick from {place_said} in {year}?" if place_said else "",
        "in": f"What was in {place_said} in {year}?" if place_said else "",
        "long": f"How long did {job or 'weeding'} take in {year}?",
        "best": f"Which year was best for {crop}?" if crop else "",
    }
    order = _order(parts, named_place=bool(place), named_job=bool(job))
    return [made[name] for name in order if made[name]][:_OFFERED]


def _order(parts: Sequence[Part], *, named_place: bool, named_job: bool) -> list[str]:
    """The kinds nearest to how the question began."""
    head = next((part.name for part in parts if part.kind == "head"), "")
    usual = ["when", "much", "from", "in", "picked", "long", "best"]
    first: list[str] = []
    if named_job:
        first.append("long")
    if named_place:
        first += ["in", "from"]
    first += {
        "how_much": ["much", "from"],
        "how_many": ["much", "from"],
        "how_long": ["long", "when"],
        "which": ["best", "much"],
        "where": ["in", "when"],
        "what": ["in", "much"],
    }.get(head, ["when", "picked"])
    return list(dict.fromkeys([*first, *usual]))


def _crop(parts: Sequence[Part], names: Names) -> str:
    for sense in _senses(parts):
        if sense.kind in ("crop", "narrow", "group") and sense.name in names.own_crops:
            return crop_said(sense.name)
        if sense.kind == "cultivar":
            return crop_said(sense.crop)
    return ""


def _place(parts: Sequence[Part]) -> str:
    return next((s.name for s in _senses(parts) if s.kind in ("place", "places")), "")


def _senses(parts: Sequence[Part]) -> list[Sense]:
    return [sense for part in parts for sense in part.senses]


_JOBS = ("weed", "hoe", "dig", "prune", "mow", "tidy", "edge", "clean")


def _job(parts: Sequence[Part]) -> str:
    from journal.questions.acts import ACTS

    return next((ACTS[p.name].noun for p in parts if p.kind == "act" and p.name in _JOBS), "")


def _year(diary: Diary, parts: Sequence[Part]) -> int:
    """The year that was asked about, else the last whole one of the diary."""
    for part in parts:
        if part.period is not None and part.period.year is not None:
            return part.period.year
    years = diary.events["date"].dt.year
    before = years[years < diary.today.year]
    latest = before.max() if len(before.dropna()) else years.max()
    return int(latest) if latest == latest else diary.today.year


def _commonest(diary: Diary, column: str) -> str:
    """The crop or place that is picked from most often."""
    events = diary.events[diary.events["kind"] == "harvest"]
    known = events.loc[events[column] != "", column]
    if known.empty:
        return ""
    top = str(known.value_counts().index[0])
    return crop_said(top) if column == "crop" else top
