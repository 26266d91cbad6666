"""What all tests share: how the collector of waste goes about it."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from itertools import count

import pytest

OFTEN = 200
"""After so many tests what has stayed is taken to stay for good."""
_freeze = gc.freeze
_done = count(1)


def _what_is_here_stays() -> None:
    """Waste goes, and all else, modules and tables for the most part, is not walked again at every look."""
    gc.collect()
    _freeze()


def pytest_collection_finish() -> None:
    gc.set_threshold(1400, 10, 30)
    _what_is_here_stays()


@pytest.fixture(autouse=True, scope="session")
def _apps_can_be_forgotten() -> Iterator[None]:
    """The app freezes what it has read, once, for its one keeper. Here hundreds of apps come and go.

    Frozen, each of them would stay to the end: a gigabyte, which makes every fork and every page of it slow.
    """
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(gc, "freeze", lambda: None)
        yield


def pytest_runtest_logfinish() -> None:
    if next(_done) % OFTEN == 0:
        _what_is_here_stays()
