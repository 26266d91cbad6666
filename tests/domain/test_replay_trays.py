"""From feedings, checks and turns to the stack as it stands."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from tests.builders import (
    a_profile,
    a_usual_bin,
    codes,
    entry,
    fed,
    moment,
    noted,
    order,
    stack_of,
    stages,
    started,
    turned,
    undone,
)
from trayturn.domain.replay import present, replay, replay_now


def test_an_empty_journal_is_an_empty_stack() -> None:
    stack = stack_of()
    assert (stack.trays, stack.off_stack, stack.findings) == ((), (), ())
    assert (stack.began_at, stack.worms_kg, stack.last_fed_at, stack.turns) == (None, None, None, 0)


def test_a_new_bin_with_one_tray() -> None:
    stack = stack_of(started("A", stage="feeding", water_kg=0.4), fed("A", 2, grit_kg=0.02), as_of=3)
    (tray,) = stack.trays
    assert (tray.id, tray.level, tray.stage, tray.on_stack) == ("A", 1, "feeding", True)
    assert (tray.days_on_stack, tray.days_in_stage) == (3.0, 3.0)
    assert (tray.feedings, tray.fed_kg, tray.scraps_kg) == (1, 0.5, {"cabbage": 0.5})
    assert (tray.bedding_kg, tray.grit_kg, tray.water_kg) == ({"shredded cardboard": 0.5}, 0.02, 0.4)
    assert tray.last_fed_at == stack.last_fed_at == moment(2)
    assert stack.began_at == moment(0)


def test_a_first_feeding_makes_a_bedding_tray_the_feeding_tray() -> None:
    stack = stack_of(started("A"), fed("A", 5), fed("A", 9), as_of=12)
    (tray,) = stack.trays
    assert (tray.stage, tray.stage_since, tray.days_in_stage) == ("feeding", moment(5), 7.0)
    assert tray.days_on_stack == 12


def test_a_new_bin_with_two_trays_by_both_patterns() -> None:
    two = (started("A"), started("B", 1))
    assert order(stack_of(*two)) == "BA"
    assert order(stack_of(*two, pattern="straight_up")) == "AB"
    assert stages(stack_of(*two)) == {"B": "bedding", "A": "bedding"}


def test_the_usual_bin() -> None:
    stack = stack_of(*a_usual_bin(), as_of=65)
    assert order(stack) == "CAB"
    assert stages(stack) == {"C": "bedding", "A": "finishing", "B": "feeding"}
    assert [tray.days_in_stage for tray in stack.trays] == [5, 5, 5]
    assert [tray.feedings for tray in stack.trays] == [0, 4, 1]
    assert (stack.turns, stack.last_turn_at, stack.findings) == (1, moment(60), ())
    assert [tray.id for tray in stack.in_stage(stack.trays[0].stage)] == ["C"]


def test_a_whole_turn_with_bedding_below() -> None:
    entries = (*a_usual_bin(), started("D", 120), turned("DBC", 120))
    stack = stack_of(*entries, as_of=121)
    assert order(stack) == "DBC"
    assert stages(stack) == {"D": "bedding", "B": "finishing", "C": "feeding", "A": "spare"}
    assert [tray.id for tray in stack.off_stack] == ["A"]
    assert stack.off_stack[0].level is None
    assert (stack.turns, stack.findings) == (2, ())


def test_a_whole_turn_straight_up() -> None:
    bottom = (started("A", stage="feeding"), started("B", 60), turned("AB", 60))
    stack = stack_of(*bottom, started("C", 120), turned("BC", 120), as_of=121, pattern="straight_up")
    assert order(stack) == "BC"
    assert stages(stack) == {"A": "spare", "B": "finishing", "C": "feeding"}
    assert stack.findings == ()


def test_a_turn_with_stages_changes_only_those_it_names() -> None:
    stack = stack_of(*a_usual_bin(), turned("ACB", 70, C="feeding"), as_of=80)
    assert stages(stack) == {"A": "finishing", "C": "feeding", "B": "feeding"}
    tray = stack.tray("C")
    assert tray is not None
    assert tray.days_in_stage == 10


def test_a_turn_that_leaves_a_tray_in_its_stage_leaves_its_age() -> None:
    stack = stack_of(*a_usual_bin(), turned("CAB", 70), as_of=80)
    assert [tray.days_in_stage for tray in stack.trays] == [20, 20, 20]


def test_a_tray_started_again_begins_from_nothing() -> None:
    stack = stack_of(*a_usual_bin(), turned("CB", 70), started("A", 80, bedding_kg={"leaves": 1}), as_of=85)
    tray = stack.tray("A")
    assert tray is not None
    assert (tray.level, tray.stage, tray.feedings, tray.fed_kg) == (1, "bedding", 0, 0)
    assert (tray.bedding_kg, tray.days_on_stack) == ({"leaves": 1}, 5)


def test_a_bin_began_with_its_first_tray_even_when_all_were_started_again() -> None:
    entries = (started("A"), turned("B", 50), started("A", 60), turned("A", 60), started("B", 70))
    assert stack_of(*entries).began_at == moment(0)
    assert stack_of(*entries, began=moment(-10)).began_at == moment(-10)


def test_a_checks_readings_stand_with_their_moments() -> None:
    stack = stack_of(
        *a_usual_bin(),
        entry("checked", 62, tray="B", moisture_pct=72, gross_kg=6.5),
        entry("checked", 63, tray="B", smell="sweet"),
        entry("checked", 64, temperature_c=19.5, sump_l=0.8, strays="few"),
    )
    tray = stack.tray("B")
    assert tray is not None
    assert tray.last_check is not None
    assert tray.last_moisture is not None
    assert (tray.last_check.at, tray.last_moisture.at) == (moment(63), moment(62))
    assert (tray.gross_kg, tray.weighed_at) == (6.5, moment(62))
    assert (stack.sump.volume_l, stack.sump.checked_at) == (0.8, moment(64))
    assert (stack.temperature_c, stack.temperature_at, stack.last_check_at) == (19.5, moment(64), moment(64))
    assert stack.findings == ()


def test_entries_count_by_their_time_not_by_their_place_in_the_file() -> None:
    shuffled = (fed("C", 121), noted("x", 3), *a_usual_bin(), started("D", 120), turned("DBC", 120))
    assert stages(stack_of(*shuffled)) == {"D": "bedding", "B": "finishing", "C": "feeding", "A": "spare"}
    assert stack_of(*shuffled).findings == ()


def test_entries_of_one_moment_count_in_the_order_of_the_file() -> None:
    assert codes(stack_of(started("A"), fed("A", 0))) == []
    assert codes(stack_of(fed("A", 0), started("A"))) == ["fed-off-stack"]


def test_one_moment_told_with_two_offsets_is_one_moment() -> None:
    later_by_the_clock = moment(0).astimezone(UTC) + timedelta(minutes=1)
    assert codes(stack_of(fed("A", later_by_the_clock), started("A"))) == []


def test_the_past_is_shown_as_it_was() -> None:
    entries = (*a_usual_bin(), started("D", 120), turned("DBC", 120))
    stack = stack_of(*entries, as_of=20)
    assert (order(stack), stages(stack), stack.turns) == ("BA", {"B": "bedding", "A": "feeding"}, 0)
    assert stack_of(*entries, as_of=-1).trays == ()
    assert order(stack_of(*entries, as_of=moment(120))) == "DBC"
    assert order(stack_of(*entries, as_of=moment(120) - timedelta(seconds=1))) == "CAB"


def test_ages_are_fractions_of_days() -> None:
    (tray,) = stack_of(started("A"), as_of=moment(1, 16)).trays
    assert tray.days_on_stack == 1.25


def test_a_change_of_the_clocks_is_not_time() -> None:
    berlin = ZoneInfo("Europe/Berlin")
    before, after = datetime(2026, 3, 28, 12, tzinfo=berlin), datetime(2026, 3, 29, 12, tzinfo=berlin)
    (tray,) = stack_of(started("A", before), as_of=after).trays
    assert tray.days_on_stack == 23 / 24
    (tray,) = stack_of(started("A", before.astimezone(UTC)), as_of=after.astimezone(UTC)).trays
    assert tray.days_on_stack == 23 / 24


def test_the_same_moment_by_another_offset_gives_the_same_ages() -> None:
    as_of = moment(65, 18)
    here, there = (
        replay(a_profile(*a_usual_bin()), as_of),
        replay(a_profile(*a_usual_bin()), as_of.astimezone(UTC)),
    )
    assert here.trays == there.trays


def test_a_clock_set_back_hides_nothing() -> None:
    profile = a_profile(*a_usual_bin())
    assert present(profile, moment(10)) == moment(61)
    assert present(profile, moment(100)) == moment(100)
    assert present(a_profile(), moment(10)) == moment(10)


def test_what_was_taken_back_does_not_move_the_present() -> None:
    slip = fed("B", 13_000)
    assert present(a_profile(*a_usual_bin(), slip, undone(slip, 62)), moment(62)) == moment(62)


def test_entries_ahead_of_the_clock_count_and_are_told_once() -> None:
    behind, ahead = (replay_now(a_profile(*a_usual_bin()), moment(day)) for day in (61, 60))
    assert behind == replay(a_profile(*a_usual_bin()), moment(61))
    assert (ahead.trays, ahead.as_of) == (behind.trays, behind.as_of)
    assert codes(ahead) == ["dated-ahead"]
    assert ahead.findings[0].entry == 9
    assert str(ahead.findings[0]).startswith("entry 9 (fed B, 2026-05-01 10:00): 1 entry is dated ahead")


@pytest.mark.parametrize("as_of", [datetime.min, datetime.max])
def test_the_ends_of_the_calendar_do_no_harm(as_of: datetime) -> None:
    stack = stack_of(*a_usual_bin(), as_of=as_of.replace(tzinfo=UTC))
    assert len(stack.trays) == (0 if as_of == datetime.min else 3)


def test_water_poured_on_with_meals_is_added_up() -> None:
    stack = stack_of(started("A", water_kg=0.5), fed("A", 2, water_kg=0.2), fed("A", 3, {}, water_kg=0.1))
    assert stack.trays[0].water_kg == pytest.approx(0.8)
    assert stack.trays[0].feedings == 2
