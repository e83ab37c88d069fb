"""A long table is written out piece by piece, to the same bytes."""

import pytest

from journal.diary import Diary
from journal.events.reading import Reading
from journal.tables import files


@pytest.mark.parametrize("rows", [1, 7, 100_000])
def test_the_size_of_a_piece_changes_nothing(
    sample: Reading, monkeypatch: pytest.MonkeyPatch, rows: int
):
    events = Diary(sample, sample.same_from).events[:60]
    whole = files.to_csv(events, "events")
    monkeypatch.setattr(files, "_CSV_BLOCK", rows)
    assert files.to_csv(events, "events") == whole
    assert whole.count(b"\n") >= 61
    assert files.to_csv(events[:0], "events").count(b"\n") == 1
