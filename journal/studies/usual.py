"""How many days a crop usually takes from one stage to the next: the diary's own past, else books.

What neither tells is None; a figure is never borrowed from another crop.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from statistics import median

from journal.diary import Diary
from journal.reference.books import Published
from journal.reference.load import load
from journal.studies.ledger.batches import Batch
from journal.studies.ledger.habits import known_crop
from journal.studies.plants import books_of, certain, days_between, reached

OWN = "this diary"
# so many batches of its own make a crop's usual time; below that a published one goes before it
ENOUGH = 2
_CYCLE = "crop cycle"


@dataclass(frozen=True, slots=True)
class Usual:
    """Days from the `start` of a batch (sown or planted) to a stage: least, middle and most.

    `source` is this diary with how many batches, or who published the figures; those of a whole
    crop cycle tell only the most.
    """

    start: str
    low: float | None
    middle: float | None
    high: float
    source: str
    own: bool


@dataclass(frozen=True, slots=True)
class Lasted:
    """How long one finished batch took from a start to a stage."""

    cultivar: str
    days: int
    batch: int


# by crop, season, start and stage
AllLasted = dict[tuple[str, str, str, str], list[Lasted]]


def season_of(month: int, south: bool = False) -> str:
    """Whether a beginning is of spring or of autumn, for what stands over the winter.

    Autumn from August on, and from February on south of the equator (common practice, no
    published source).
    """
    first = 2 if south else 8
    return "autumn" if (month - first) % 12 < 5 else "spring"


def is_south(diary: Diary) -> bool:
    """Whether the plot lies south of the equator."""
    return (diary.plot.latitude or 0) < 0


def batch_season(batch: Batch, south: bool) -> str:
    """The season of a batch's beginning; "" where its days may lie in either."""
    found = {season_of(day.month, south) for day in (batch.started.first, batch.started.last)}
    return found.pop() if len(found) == 1 else ""


def lasted(diary: Diary) -> AllLasted:
    """The days of every batch from sowing or planting to each stage that it reached for sure."""
    south = is_south(diary)
    found: AllLasted = {}
    for batch in books_of(diary).batches:
        season = batch_season(batch, south)
        for start, stage, days in _spans(batch):
            row = Lasted(batch.cultivar, days, batch.number)
            found.setdefault((batch.crop, season, start, stage), []).append(row)
    return found


def _spans(batch: Batch) -> Iterable[tuple[str, str, int]]:
    starts = {"sown": batch.started if batch.how == "sow" else None}
    starts["planted"] = reached(batch, "planted")
    stages = {
        "up": reached(batch, "up"),
        "planted": reached(batch, "planted"),
        "picking": batch.first_harvest,
        "last picking": batch.last_harvest if batch.ended else None,
    }
    for start, since in starts.items():
        for stage, then in stages.items():
            days = days_between(since, then)
            if days is not None and stage != start and certain(since) is not None:
                yield start, stage, days


def own_time(every: AllLasted, batch: Batch, season: str, start: str, stage: str) -> Usual | None:
    """The least, middle and most days of other batches of the crop begun in the same season.

    Those of the same cultivar where there are enough of them; None where there is none at all.
    """
    alike = every.get((batch.crop, season, start, stage), ())
    same = [row for row in alike if row.batch != batch.number]
    own = [row for row in same if row.cultivar == batch.cultivar]
    chosen = own if len(own) >= ENOUGH else same
    if not chosen:
        return None
    days = [row.days for row in chosen]
    many = f"{len(days)} batches" if len(days) > 1 else "1 batch"
    return Usual(start, min(days), median(days), max(days), f"{OWN}, {many}", True)


def published_time(batch: Batch, season: str, raised: bool) -> Usual | None:
    """The published days to harvest that count from where this batch begins.

    From transplanting for what was raised, from planting for what is usually planted, else from
    sowing. Where there is nothing else, a whole crop cycle, whose worldwide limits tell how late
    it can be and not how early. None for what was begun in autumn: no figure counts a winter.
    """
    rows = load().books.days_to_harvest(batch.crop)
    if season != "spring" or not rows:
        return None
    for measure, start in _measures(batch, raised):
        own = [row for row in rows if row.measure == measure]
        if own:
            return _spanned(own, start, whole=measure != _CYCLE)
    return None


def _measures(batch: Batch, raised: bool) -> list[tuple[str, str]]:
    """What was published, and from where it counts, the fittest first."""
    crop = known_crop(batch.crop)
    from_planting = batch.how != "sow" or (raised and crop is not None and crop.put_in == "planted")
    start = "planted" if raised or batch.how != "sow" else "sown"
    found = [("transplanting to harvest", start)] if raised else []
    found += [("planting to harvest", start)] if from_planting else []
    found += [("sowing to harvest", "sown")] if batch.how == "sow" else []
    found += [("planting to harvest", "sown")] if batch.how == "sow" and not from_planting else []
    found += [("transplanting to harvest", start)] if batch.how != "sow" else []
    return [*found, (_CYCLE, start)]


def _spanned(rows: list[Published], start: str, whole: bool) -> Usual:
    low = min(row.low for row in rows if row.low is not None)
    high = max(row.high for row in rows if row.high is not None)
    sources = ", ".join(dict.fromkeys(row.source for row in rows))
    if not whole:
        return Usual(start, None, None, high, sources, False)
    return Usual(start, low, (low + high) / 2, high, sources, False)


def usual_time(
    every: AllLasted, batch: Batch, season: str, start: str, raised: bool
) -> Usual | None:
    """The time to the first picking: the diary's own where it has enough, else the published one.

    One batch of the diary's own goes before nothing.
    """
    own = own_time(every, batch, season, start, "picking")
    if own is not None and not own.source.endswith("1 batch"):
        return own
    return published_time(batch, season, raised) or own
