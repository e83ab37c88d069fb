"""The shelf that the tests of the cache share."""

from pathlib import Path

import pytest

from journal.cache.shelf import Shelf


@pytest.fixture
def shelf(tmp_path: Path) -> Shelf:
    return Shelf(tmp_path / "shelf")
