"""The samples that ship with the program: sound, believable, and in the form the program writes."""

from __future__ import annotations

from datetime import datetime, timedelta
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
import tomli

from tests.tools import make_long_sample
from trayturn.advice.castings.stages import open_lots
from trayturn.advice.castings.use import minded
from trayturn.advice.cautions import cautions_for
from trayturn.advice.due import due_list
from trayturn.domain.entries import (
    CastingsGiven,
    CastingsUsed,
    CautionsRead,
    Checked,
    Entry,
    Fed,
    LotMoved,
    LotStage,
    OversCarried,
    PassDone,
    Settled,
    Stage,
    Step,
    TrayStarted,
)
from trayturn.domain.profile import Profile, read_journal, read_setup
from trayturn.domain.replay import replay, standing
from trayturn.domain.setup import Pattern, Units
from trayturn.domain.stack import Stack
from trayturn.storage.blocks import entry_blocks
from trayturn.storage.reading import load

FOLDER = Path(__file__).parents[1] / "sample_profiles"
NAMES = sorted(path.stem for path in FOLDER.glob("*.toml"))
SCENARIO = datetime.fromisoformat("2026-11-21T10:05:00+01:00")
"""The moment at which the demo's clock starts."""

every_sample = pytest.mark.parametrize("name", NAMES)


def text_of(name: str) -> str:
    return (FOLDER / f"{name}.toml").read_bytes().decode("utf-8")


def sample(name: str) -> Profile:
    """The sample as a profile; a problem of any kind fails the test that asks for it."""
    data = tomli.loads(text_of(name))
    setup, trays, problems = read_setup(data)
    journal, more = read_journal(data["journal"])
    assert [*problems, *more] == []
    assert setup is not None
    return Profile(name, setup, trays, tuple(journal))


def stack_of(name: str) -> Stack:
    return replay(sample(name), SCENARIO)


def still_standing(name: str, kind: type[Any]) -> list[Any]:
    return [entry for _, entry in standing(sample(name).journal) if isinstance(entry, kind)]


def without_comments(text: str) -> str:
    kept = [line.partition("  # ")[0] for line in text.splitlines() if not line.startswith("#")]
    return "\n".join(kept) + "\n"


def test_there_is_a_sample_of_each_sort() -> None:
    assert {"pantry", "stairwell", "workshop", "school"} <= set(NAMES)


@every_sample
def test_a_sample_opens_for_writing(name: str) -> None:
    loaded = load(FOLDER / f"{name}.toml")
    assert not loaded.read_only
    assert loaded.profile == sample(name)


@every_sample
def test_a_sample_has_no_findings_at_the_scenario_moment(name: str) -> None:
    assert stack_of(name).findings == ()


@every_sample
def test_a_sample_has_no_findings_at_the_moment_of_any_entry(name: str) -> None:
    profile = sample(name)
    moments = sorted({entry.at for entry in profile.journal})
    assert [finding for at in moments for finding in replay(profile, at).findings] == []


@every_sample
def test_the_entries_are_in_order_of_time_and_none_is_yet_to_come(name: str) -> None:
    moments = [entry.at for entry in sample(name).journal]
    assert all(before <= after for before, after in pairwise(moments))
    assert moments[-1] <= SCENARIO


@every_sample
def test_a_sample_is_plain_text(name: str) -> None:
    text = text_of(name)
    assert text.isascii()
    assert all(ch.isprintable() or ch == "\n" for ch in text)
    assert all(len(line) <= 110 and line == line.rstrip() for line in text.splitlines())
    assert text.endswith("\n")


@every_sample
def test_the_keeper_wrote_comments_at_the_top_and_in_the_journal(name: str) -> None:
    head, _, journal = text_of(name).partition("[[journal]]")
    assert head.startswith("# ")
    assert "# " in journal


@every_sample
def test_the_journal_is_in_the_form_the_program_writes(name: str) -> None:
    plain = without_comments(text_of(name))
    assert plain[plain.index("\n[[journal]]") :] == entry_blocks(sample(name).journal)


@every_sample
def test_every_tray_of_a_sample_is_listed_and_the_stack_is_full(name: str) -> None:
    profile, stack = sample(name), stack_of(name)
    assert {tray.id for tray in profile.trays} == {tray.id for tray in stack.trays}
    assert len(stack.trays) == profile.bin.tray_count
    assert stack.off_stack == ()


@every_sample
def test_the_setup_of_a_sample_says_everything(name: str) -> None:
    given = tomli.loads(text_of(name))["bin"]
    assert set(given) == set(type(sample(name).bin).model_fields)


@every_sample
def test_the_readings_of_a_sample_are_of_this_world(name: str) -> None:
    for entry in still_standing(name, Checked):
        assert entry.moisture_pct is None or 60 <= entry.moisture_pct <= 90
        assert entry.temperature_c is None or 12 <= entry.temperature_c <= 26
        assert entry.sump_l is None or entry.sump_l <= 1.2


@every_sample
def test_the_cautions_that_were_read_are_those_of_the_work(name: str) -> None:
    for entry in still_standing(name, CautionsRead):
        assert set(entry.codes) <= {caution.code for caution in cautions_for(entry.work)}


@pytest.mark.parametrize(("name", "kind"), [("pantry", "feed"), ("stairwell", "turn"), ("workshop", "rest")])
def test_the_demo_has_something_to_do_in(name: str, kind: str) -> None:
    first = due_list(stack_of(name))[0]
    assert first.kind == kind
    assert first.due is not None


@every_sample
def test_what_comes_off_a_tray_fits_what_the_tray_weighed(name: str) -> None:
    profile, stack = sample(name), stack_of(name)
    for done in (*stack.past_separations, *stack.separations):
        weighed = [e.gross_kg for e in still_standing(name, Checked) if e.gross_kg and e.tray == done.tray]
        assert done.skimmed_kg < max(weighed) - profile.empty_kg(done.tray)


def test_the_pantry_is_three_weeks_old_and_its_next_feeding_is_due() -> None:
    stack = stack_of("pantry")
    assert stack.began_at is not None
    assert timedelta(days=18) <= SCENARIO - stack.began_at <= timedelta(days=25)
    assert stack.setup.tray_count == 3
    assert stack.last_fed_at is not None
    assert SCENARIO - stack.last_fed_at > timedelta(days=stack.setup.days_between_feedings - 1)


def test_the_stairwell_is_in_its_second_year_with_some_400_entries() -> None:
    journal = sample("stairwell").journal
    assert 370 <= len(journal) <= 410
    assert SCENARIO - journal[0].at > timedelta(days=13 * 31)
    assert stack_of("stairwell").setup.pattern is Pattern.BEDDING_BELOW


def test_every_turn_of_the_stairwell_gave_castings_in_the_usual_range() -> None:
    stack = stack_of("stairwell")
    assert stack.turns == len(stack.harvests) + 1
    assert all(3 <= harvest.castings_kg <= 6 for harvest in stack.harvests)


def test_the_turns_of_the_stairwell_are_about_sixty_days_apart() -> None:
    moments = [entry.at for entry in sample("stairwell").journal if entry.kind == "turned"]
    assert all(55 <= (after - before).days <= 65 for before, after in pairwise(moments))


def test_the_stairwell_is_fed_about_a_kilogram_and_a_half_with_dry_bedding() -> None:
    for entry in still_standing("stairwell", Fed)[5:]:
        scraps, bedding = sum(entry.items_kg.values()), sum(entry.bedding_kg.values())
        assert 1.2 <= scraps <= 1.7 or scraps == pytest.approx(0.3)
        assert 0.05 <= bedding <= 0.15
    started = still_standing("stairwell", TrayStarted)
    assert all(sum(entry.bedding_kg.values()) == pytest.approx(0.5) for entry in started)


def test_the_castings_of_the_stairwell_are_what_was_skimmed() -> None:
    past = stack_of("stairwell").past_separations
    weighed = [entry.castings_kg for entry in still_standing("stairwell", Settled)]
    assert [done.skimmed_kg for done in past] == pytest.approx(weighed)


def test_each_turn_of_the_stairwell_became_a_lot_of_what_was_weighed() -> None:
    stack = stack_of("stairwell")
    assert [lot.begun_kg for lot in stack.lots] == [harvest.castings_kg for harvest in stack.harvests]
    stages = {lot.code: lot.stage for lot in open_lots(stack)}
    assert stages == {"D1": LotStage.READY, "A2": LotStage.DRYING}
    assert {lot.code for lot in stack.lots if lot.closed_at} == {"A1", "B1", "C1"}


@every_sample
def test_a_lot_of_a_sample_weighs_less_at_every_step(name: str) -> None:
    """Water leaves it, then what stays on the sieve, then what is packed, used and given."""
    for lot in stack_of(name).lots:
        weighed = [e.kg for e in still_standing(name, LotMoved) if e.lot == lot.code and e.kg is not None]
        sieved = [(one.passed_kg or 0) + (one.oversize_kg or 0) for one in lot.sieved]
        assert all(before >= after for before, after in pairwise([lot.begun_kg or 0, *weighed, *sieved]))
        if lot.closed_at is not None:
            assert lot.left_kg == pytest.approx(0)


@every_sample
def test_castings_of_a_sample_go_out_as_advised(name: str) -> None:
    """No share above the usual, and what local rules say was read before any were given away."""
    assert all(minded(entry.share_pct) == "" for entry in still_standing(name, CastingsUsed))
    read = [entry.at for entry in still_standing(name, CautionsRead) if entry.work == "giving_away"]
    for entry in still_standing(name, CastingsGiven):
        assert entry.rules_read
        assert any(timedelta(0) <= entry.at - at <= timedelta(hours=1) for at in read)


@every_sample
def test_pieces_of_a_sample_that_were_carried_on_were_picked_out(name: str) -> None:
    for entry in still_standing(name, OversCarried):
        picked = [e.pieces for e in still_standing(name, PassDone) if e.tray == entry.tray and e.pieces]
        assert entry.pieces in picked


def test_each_rest_of_the_stairwell_was_kept() -> None:
    rests = [
        step
        for done in stack_of("stairwell").past_separations
        for step in done.steps
        if step.step is Step.REST
    ]
    assert len(rests) >= 10
    assert all(step.ends_at and step.ended_at and step.ended_at >= step.ends_at for step in rests)


def test_the_finishing_tray_of_the_stairwell_is_ready_to_separate() -> None:
    stack = stack_of("stairwell")
    (finishing,) = stack.in_stage(Stage.FINISHING)
    assert finishing.days_in_stage >= stack.setup.days_between_turns
    assert [tray.stage for tray in stack.trays] == ["bedding", "bedding", "finishing", "feeding"]


def test_the_workshop_rests_for_seven_more_minutes() -> None:
    stack = stack_of("workshop")
    (separation,) = stack.separations
    assert separation.step is not None
    assert (separation.step.step, separation.step.pass_number) == (Step.REST, 2)
    assert separation.step.ends_at == SCENARIO + timedelta(minutes=7)
    assert [done.pass_number for done in separation.passes] == [1]
    assert stack.setup.tray_count == 5


def test_the_school_works_in_us_units_and_straight_up() -> None:
    setup = stack_of("school").setup
    assert (setup.units, setup.pattern) == (Units.US, Pattern.STRAIGHT_UP)
    assert 50 <= len(sample("school").journal) <= 75


def test_the_laundry_is_too_wet_and_smells_of_ammonia() -> None:
    readings = still_standing("laundry", Checked)
    assert max(entry.moisture_pct or 0 for entry in readings) > 85
    assert "ammonia" in readings[-1].smell


def test_undone_entries_of_the_stairwell_are_left_out() -> None:
    journal: tuple[Entry, ...] = sample("stairwell").journal
    undone = [entry for entry in journal if entry.kind == "undone"]
    assert len(undone) == 2
    assert len(standing(journal)) == len(journal) - 2 * len(undone)


def test_the_script_makes_the_stairwell_byte_for_byte() -> None:
    assert make_long_sample.make_text() == text_of("stairwell")
