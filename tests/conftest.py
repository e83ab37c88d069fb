"""What every test may ask for: the reference tables, the sample diary read, the corpus option.

It also says how hard the properties are tried, by `HYPOTHESIS_PROFILE`.
"""

import os
from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

from journal import reading
from journal.cache.shelf import VARIABLE
from journal.reference.load import Reference, load

CHECKOUT = Path(__file__).parent.parent
# `house` tries the same examples in every run, so that a failure is the change's own; `search`
# tries new ones each time, and `large` twenty times as many.
settings.register_profile(
    "house",
    max_examples=80,
    deadline=None,
    derandomize=True,
    suppress_health_check=[HealthCheck.too_slow],
)
settings.register_profile("search", settings.get_profile("house"), derandomize=False)
settings.register_profile("large", settings.get_profile("search"), max_examples=1600)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "house"))

SAMPLE_TODAY = date(2026, 3, 1)


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption(
        "--update-corpus",
        action="store_true",
        help="write what came out into the corpus files, and fail the run so that it is read",
    )


@pytest.fixture(scope="session", autouse=True)
def own_cache(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """Keeps the tests away from the caches of whoever runs them."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv(VARIABLE, str(tmp_path_factory.mktemp("cache")))
        patch.setenv("XDG_CACHE_HOME", str(tmp_path_factory.mktemp("caches")))
        yield


@pytest.fixture(scope="session")
def reference() -> Reference:
    """The reference tables of `shared/`."""
    return load()


@pytest.fixture(scope="session")
def sample() -> reading.Reading:
    """The sample diary as it reads on 1 March 2026."""
    return reading.read_folder(CHECKOUT / "sample_journal", SAMPLE_TODAY)
