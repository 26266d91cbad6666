"""Histories that cannot have happened are findings with the entry named, and never a crash."""

from __future__ import annotations

import pytest

from tests.builders import (
    a_profile,
    a_usual_bin,
    codes,
    entry,
    fed,
    moment,
    order,
    stack_of,
    stages,
    started,
    turned,
)
from trayturn.domain.problems import Severity
from trayturn.domain.replay import replay
from trayturn.domain.stack import Stack


def only_finding(stack: Stack, code: str) -> str:
    """The one finding, as a keeper reads it."""
    assert codes(stack) == [code]
    return str(stack.findings[0])


def test_fed_before_started() -> None:
    told = only_finding(stack_of(fed("A", 0), started("A", 1)), "fed-off-stack")
    assert told == (
        "entry 1 (fed A, 2026-03-01 10:00): Tray A was fed before it was started. Correct the tray or date."
    )


def test_fed_after_it_left() -> None:
    stack = stack_of(*a_usual_bin(), turned("CB", 70), fed("A", 71))
    told = only_finding(stack, "fed-off-stack")
    assert told.startswith("entry 11 (fed A, 2026-05-11 10:00): Tray A was fed after it left the stack.")
    assert stack.findings[0].entry == 11
    tray = stack.tray("A")
    assert tray is not None
    assert tray.feedings == 4
    assert stack.last_fed_at == moment(61)


def test_fed_while_finishing_counts_and_is_told() -> None:
    stack = stack_of(*a_usual_bin(), fed("A", 62))
    assert only_finding(stack, "fed-late").endswith("Tray A was fed while finishing. It will finish later.")
    assert stack.findings[0].severity is Severity.WARNING
    assert stages(stack)["A"] == "finishing"
    assert stack.trays[1].feedings == 5


def test_started_twice() -> None:
    stack = stack_of(started("A"), fed("A", 1), started("A", 2))
    assert "Tray A is on the stack already." in only_finding(stack, "started-twice")
    assert stack.trays[0].feedings == 1


def test_two_trays_on_one_level() -> None:
    stack = stack_of(started("A"), started("B", 0, level=2), started("C", 1, level=2))
    told = only_finding(stack, "two-on-one-level")
    assert "Level 2 already holds tray B. Tray B and those above it count as lifted by one." in told
    assert [(tray.id, tray.level) for tray in stack.trays] == [("A", 1), ("C", 2), ("B", 3)]


def test_a_fresh_tray_may_name_the_level_its_pattern_gives_it() -> None:
    assert codes(stack_of(started("A"), started("B", 1, level=1))) == []
    straight = stack_of(started("A"), started("B", 1, level=2), pattern="straight_up")
    assert (codes(straight), order(straight)) == ([], "AB")


def test_a_level_with_nothing_under_it() -> None:
    stack = stack_of(started("A", level=5))
    assert "Level 5 is in the air. It counts as 1." in only_finding(stack, "level-in-the-air")
    assert stack.trays[0].level == 1


def test_a_tray_listed_twice_in_a_turn() -> None:
    stack = stack_of(*a_usual_bin(), turned("CABC", 70))
    assert "Tray C stands on two levels." in only_finding(stack, "tray-on-two-levels")
    assert order(stack) == "CAB"


def test_a_turn_that_brings_in_a_tray_never_started() -> None:
    stack = stack_of(*a_usual_bin(), turned("DCAB", 70))
    assert "Tray D came in without being started." in only_finding(stack, "turned-unstarted")
    assert (order(stack), stages(stack)["D"]) == ("DCAB", "bedding")


def test_a_stage_for_a_tray_that_is_not_in_the_order() -> None:
    stack = stack_of(*a_usual_bin(), turned("CB", 70, A="spare", B="finishing"))
    assert "Tray A is given a stage and is not in the new order." in only_finding(stack, "stage-off-stack")
    assert stages(stack) == {"C": "bedding", "B": "finishing", "A": "spare"}


@pytest.mark.parametrize("stage", ["spare", "separating"])
def test_a_stage_that_no_turn_can_make(stage: str) -> None:
    stack = stack_of(*a_usual_bin(), turned("CAB", 70, A=stage))
    assert f"No turn makes tray A {stage}. It keeps its stage." in only_finding(stack, "stage-not-by-turn")
    assert stages(stack)["A"] == "finishing"


def test_before_the_bin_began() -> None:
    stack = stack_of(started("A"), began=moment(1))
    told = only_finding(stack, "before-the-bin")
    assert told == (
        "entry 1 (tray started A, 2026-03-01 10:00): The bin began on 2026-03-02, after this. Correct a date."
    )
    assert codes(stack_of(started("A"), began=moment(0))) == []


def test_a_tray_that_is_not_listed() -> None:
    told = only_finding(stack_of(started("Z")), "unlisted-tray")
    assert told.endswith("Tray Z is not one of the [[trays]]. Add or correct it.")
    assert codes(stack_of(started("A"), turned("AY", 1))) == ["unlisted-tray", "turned-unstarted"]
    assert codes(stack_of(entry("worms_added", 0, worms_kg=0.5))) == []


def test_a_profile_that_lists_no_trays_takes_any() -> None:
    assert replay(a_profile(started("Z"), trays=""), moment(1)).findings == ()


def test_checked_before_it_was_started() -> None:
    stack = stack_of(entry("checked", 0, tray="A", moisture_pct=70))
    assert "Tray A was not started by then." in only_finding(stack, "checked-unknown")
    assert stack.last_check_at == moment(0)
