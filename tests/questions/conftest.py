"""The sample diary as frames, read once."""

import pytest

from journal import reading
from journal.diary import Diary


@pytest.fixture(scope="session")
def sample_diary(sample: reading.Reading) -> Diary:
    """The sample diary on 1 March 2026."""
    from datetime import date

    return Diary(sample, date(2026, 3, 1))
