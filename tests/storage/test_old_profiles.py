"""A profile from before turn days, lots and pieces were written down opens as it is, and goes on."""

from __future__ import annotations

import shutil
from datetime import datetime
from pathlib import Path

import pytest

from trayturn.advice.turn_day.plan import day_entries, plan_day
from trayturn.domain import entries_after, entries_day
from trayturn.domain.entries import ENTRY_TYPES, Stage
from trayturn.domain.replay import replay
from trayturn.storage.home import list_profiles
from trayturn.storage.reading import load
from trayturn.storage.saving import append

OLD = Path(__file__).parents[1] / "data" / "before_turn_days.toml"
LATER = datetime.fromisoformat("2026-06-01T10:00:00+02:00")


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return Path(shutil.copyfile(OLD, tmp_path / "cellar.toml"))


def test_it_holds_an_entry_of_every_kind_there_was(path: Path) -> None:
    profile = load(path).profile
    assert profile is not None
    later = {entries_day.__name__, entries_after.__name__}
    before = {kind for kind, model in ENTRY_TYPES.items() if model.__module__ not in later}
    assert {one.kind for one in profile.journal} == before


def test_it_opens_without_a_byte_being_changed(path: Path) -> None:
    assert list_profiles(path.parent) == [path]
    loaded = load(path)
    assert loaded.problems == ()
    assert loaded.profile is not None
    replay(loaded.profile, LATER)
    assert path.read_bytes() == OLD.read_bytes()


def test_it_says_what_it_always_said(path: Path) -> None:
    profile = load(path).profile
    assert profile is not None
    stack = replay(profile, LATER)
    assert [(tray.id, tray.stage) for tray in stack.trays] == [("B", Stage.FEEDING)]
    assert [(one.tray, one.castings_kg) for one in stack.harvests] == [("A", 2.5)]
    assert stack.worms_kg == pytest.approx(0.4)
    assert stack.supplies_kg == pytest.approx({"shredded cardboard": 2.4, "grit": 0.38})
    assert stack.past_separations[0].passes[0].overs == "an avocado stone"
    assert (stack.turn_day, stack.past_turn_days, stack.lots, stack.overs, stack.found) == (
        None,
        (),
        (),
        (),
        (),
    )
    assert (stack.setup.places_beside, stack.setup.trays_on_a_place) == (2, 2)
    assert [meal.name for meal in stack.meals] == ["Friday"]
    assert dict(stack.caddy_kg) == {"melon": 0.8}
    assert [one.kg for one in stack.measures] == [0.35]
    assert not stack.follow_ups
    assert stack.findings == ()


def test_it_goes_on_behind_what_was_there(path: Path) -> None:
    loaded = load(path)
    assert loaded.profile is not None
    stack = replay(loaded.profile, LATER)
    after = append(loaded, day_entries(plan_day(stack), LATER))
    assert after.profile is not None
    assert replay(after.profile, LATER).turn_day is not None
    assert path.read_bytes().startswith(OLD.read_bytes().rstrip(b"\n"))
