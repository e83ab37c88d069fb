"""Which crops took up which soil and when, for rotation: the ledger without pots and seedlings."""

from dataclasses import dataclass, replace
from datetime import date, timedelta

from journal.diary import Diary
from journal.events.model import Event
from journal.studies.ledger.batches import Batch, Stay
from journal.studies.ledger.grounds import Grounds
from journal.studies.ledger.habits import is_annual, is_perennial
from journal.studies.once import once_a_diary
from journal.studies.plants import books_of

# an annual of which nothing is written for so long is taken to be over
SILENT_DAYS = 365
_UNDER_COVER = ("house", "frame")
_NO_GROUND = ("pot", "bay", "tank", "roof", "store")


@dataclass(frozen=True, slots=True)
class Stood:
    """One batch on one ground, by its name of today, from its first possible day to its last.

    `event` is the sowing or planting that brought it there; `stands` is true of what stands today.
    """

    batch: int
    crop: str
    cultivar: str
    family: str
    ground: str
    perennial: bool
    stands: bool
    since: date
    until: date
    event: int

    @property
    def kin(self) -> str:
        """What it rotates with: its family, or by itself where none is known."""
        return self.family or self.crop

    @property
    def years(self) -> range:
        """The calendar years that hold a possible day of it."""
        return range(self.since.year, self.until.year + 1)


@once_a_diary
def in_soil(diary: Diary) -> tuple[Stood, ...]:
    """Each batch's time on each ground, the ledger followed.

    - Ground goes by its name of today, a split place once for each part. Beds, and places that
      the sheet does not know, carry what stood in them from sowing on; a house or frame only what
      was not planted out of it. Pots, and what was sown or planted in a vessel, stand on no
      ground.
    - From the first possible day to the last possible one, today for what stands: the widest time
      that the diary leaves. A batch that the ledger takes to be over ends with its last picking;
      an annual of which nothing was written for 365 days ended then.
    """
    events = {event.event: event for event in diary.reading.events}
    families = {event.crop: event.family for event in diary.reading.events if event.family}
    grounds = Grounds(diary.sheet)
    return tuple(
        one
        for batch in books_of(diary).batches
        for one in _of_batch(batch, families.get(batch.crop, ""), grounds, events, diary)
    )


def _of_batch(
    batch: Batch, family: str, grounds: Grounds, events: dict[int, Event], diary: Diary
) -> list[Stood]:
    found: dict[str, Stood] = {}
    for stay in _on_ground(batch, grounds, events):
        until, stands = _until(batch, stay, diary.today)
        if until < stay.since.first:
            continue
        for name in sorted(grounds.of(stay.place, stay.since.first)):
            one = Stood(
                batch.number,
                batch.crop,
                batch.cultivar,
                family,
                name,
                is_perennial(batch.crop),
                stands,
                stay.since.first,
                until,
                stay.event,
            )
            found[name] = _joined(found[name], one) if name in found else one
    return list(found.values())


def _joined(one: Stood, other: Stood) -> Stood:
    """Two stays of a batch on one ground as one; the earlier brought it there."""
    return replace(
        one,
        since=min(one.since, other.since),
        until=max(one.until, other.until),
        stands=one.stands or other.stands,
    )


def _on_ground(batch: Batch, grounds: Grounds, events: dict[int, Event]) -> list[Stay]:
    """The stays that took up soil."""
    kept = []
    potted: dict[str, bool] = {}
    for stay in sorted(batch.stays, key=lambda stay: stay.since.first):
        vessel = bool(events[stay.event].vessel)
        # seedlings stay in their modules from stage to stage; planting is out of them
        planting = stay.stage == "planted"
        potted[stay.place] = vessel or (not planting and potted.get(stay.place, False))
        declared = grounds.sheet.place_on(stay.place, stay.since.first)
        kind = declared.kind if declared is not None else ""
        raised = kind in _UNDER_COVER and _moves_on(batch, stay)
        grown = stay.stage != "ended" and kind not in _NO_GROUND and not potted[stay.place]
        if stay.place and grown and not raised:
            kept.append(stay)
    return kept


def _moves_on(batch: Batch, stay: Stay) -> bool:
    """Whether what was raised here was planted elsewhere, and nothing of it cropped here."""
    elsewhere = [
        other
        for other in batch.stays
        if other.stage == "planted" and other.place != stay.place
        if stay.stage != "planted" or other.since.first > stay.since.first
    ]
    cropped = any(other.stage == "cropping" and other.place == stay.place for other in batch.stays)
    here = stay.stage in {"planted", "cropping"} and cropped
    return bool(elsewhere) and not here


def _until(batch: Batch, stay: Stay, today: date) -> tuple[date, bool]:
    """The last possible day of a stay, and whether it stands today."""
    picked = batch.last_harvest
    told = [each.since.last for each in batch.stays if each.stage != "ended"]
    told += [picked.last] if picked is not None else []
    silent_from = max(told) + timedelta(days=SILENT_DAYS)
    if stay.until is not None:
        if batch.ended != "assumed" or batch.ended_on != stay.until:
            return stay.until.last, False
        return (picked.last if picked is not None else min(stay.until.last, silent_from)), False
    if not is_annual(batch.crop):
        return today, True
    return min(today, silent_from), today <= silent_from
