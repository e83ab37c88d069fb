"""What every test may ask for: the reference tables, the sample diary read, the corpus option."""

from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest

from journal import reading
from journal.cache.shelf import VARIABLE
from journal.reference.load import Reference, load

CHECKOUT = Path(__file__).parent.parent
SAMPLE_TODAY = date(2026, 3, 1)


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption(
        "--update-corpus",
        action="store_true",
        help="write what came out into the corpus files, and fail the run so that it is read",
    )


@pytest.fixture(scope="session", autouse=True)
def own_cache(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """Keeps the tests away from the cache of whoever runs them."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv(VARIABLE, str(tmp_path_factory.mktemp("cache")))
        yield


@pytest.fixture(scope="session")
def reference() -> Reference:
    """The reference tables of `shared/`."""
    return load()


@pytest.fixture(scope="session")
def sample() -> reading.Reading:
    """The sample diary as it reads on 1 March 2026."""
    return reading.read_folder(CHECKOUT / "sample_journal", SAMPLE_TODAY)
