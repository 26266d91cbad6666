"""Signs that the last checks tell of already, and those that they do not."""

from __future__ import annotations

from typing import Any

import pytest

from tests.advice.trouble.cases import FED, a_case, checked
from tests.builders import started
from trayturn.advice.trouble.seen import Tick, seen_already
from trayturn.domain.entries import Entry, Pest


def _signs(*entries: Entry, **how: Any) -> set[str]:
    return set(seen_already(a_case(FED, *entries, **how)))


@pytest.mark.parametrize(
    ("reading", "signs"),
    [
        ({"smell": "rotten"}, {"smell-rotten"}),
        ({"smell": "Ammonia, fainter"}, {"smell-ammonia"}),
        ({"smell": "a bit sour"}, {"smell-sour"}),
        ({"smell": "earthy"}, set()),
        ({"smell": "not sour any more"}, set()),
        ({"smell": "no ammonia"}, set()),
        ({"strays": "many"}, {"leaving"}),
        ({"strays": "few"}, set()),
        ({"worms": "few"}, {"few-seen"}),
        ({"worms": "none"}, {"few-seen"}),
        ({"worms": "many"}, set()),
        ({"feel": "wet"}, {"drips"}),
        ({"feel": "dry"}, {"dry"}),
        ({"feel": "moist"}, set()),
        ({"moisture_pct": 88}, {"drips"}),
        ({"moisture_pct": 55}, {"dry"}),
        ({"temperature_c": 31}, {"heating"}),
        ({"temperature_c": 9}, {"chilled"}),
        ({"temperature_c": 18}, set()),
        ({"sump_l": 2}, {"sump-full"}),
        ({"sump_l": 0.2}, set()),
        ({"pests": ("ants", "red mites")}, {"ants", "red-mites"}),
    ],
)
def test_a_check_ticks_what_it_saw(reading: dict[str, Any], signs: set[str]) -> None:
    assert _signs(checked(**reading)) == signs


def test_every_animal_of_a_check_is_ticked() -> None:
    assert len(_signs(checked(pests=tuple(Pest)))) == len(Pest)


def test_each_says_which_check_it_comes_from() -> None:
    told = seen_already(a_case(FED, checked(feel="wet", smell="rotten")))
    said = "from the check of yesterday"
    assert told == {sign: Tick(sign, said) for sign in ("smell-rotten", "drips")}


def test_what_was_seen_more_than_two_weeks_ago_does_not_count() -> None:
    assert _signs(checked(25, smell="rotten", feel="wet", pests=("ants",))) == set()


def test_the_last_word_counts() -> None:
    assert _signs(checked(36, feel="wet"), checked(38, feel="damp")) == set()
    assert _signs(checked(36, smell="rotten"), checked(38, smell="earthy")) == set()
    assert _signs(checked(36, smell="rotten"), checked(38, feel="damp")) == {"smell-rotten"}


def test_a_tray_is_told_of_its_own_checks_and_of_those_of_the_bin() -> None:
    both = (started("B", 0, level=1), checked(tray="B", smell="rotten"), checked(tray=None, feel="wet"))
    assert _signs(*both) == {"smell-rotten", "drips"}
    assert _signs(*both, tray="A") == {"drips"}
    assert _signs(*both, tray="B") == {"smell-rotten", "drips"}


def test_a_bin_without_a_journal_has_no_signs() -> None:
    assert seen_already(a_case()) == {}
