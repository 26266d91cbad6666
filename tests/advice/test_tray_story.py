"""The stack in words: at a glance, a sentence a tray, and the longer story."""

from __future__ import annotations

import pytest

from tests.builders import a_usual_bin, entry, fed, moment, stack_of, started, turned
from trayturn.advice.pantry import shipped_pantry
from trayturn.advice.story import move_line, separation_line, stack_sentence, tray_line, tray_story
from trayturn.advice.turning import Move
from trayturn.domain.entries import Entry, Stage
from trayturn.domain.stack import Separation, Stack


def line(stack: Stack, tray: str) -> str:
    found = stack.tray(tray)
    assert found is not None
    return tray_line(found, stack)


def story(stack: Stack, tray: str) -> list[str]:
    found = stack.tray(tray)
    assert found is not None
    return tray_story(found, stack)


def separation(*entries: Entry) -> Separation:
    begun = entry("separation_begun", moment(70, 9), tray="A")
    return stack_of(*a_usual_bin(), begun, *entries, as_of=80).separations[0]


def step(name: str, hour: int, minute: int, **fields: object) -> Entry:
    made: Entry = entry("step_started", moment(70, hour, minute), tray="A", step=name, **fields)
    return made


def test_the_bin_at_a_glance() -> None:
    stack = stack_of(*a_usual_bin(), as_of=90)
    assert stack_sentence(stack) == "Three trays, 90 days old. Tray B is fed; tray A finishes."


@pytest.mark.parametrize(
    ("entries", "said"),
    [
        ((), "No tray is on the stack."),
        ((started("A", 9.5),), "One tray, less than a day old. Tray A waits as bedding."),
        ((started("A", 0), started("B", 0)), "Two trays, 10 days old. Trays B and A wait as bedding."),
        (
            (*(started(t, 0) for t in "ABC"), turned("ABC", 5, A="finishing", B="finishing", C="feeding")),
            "Three trays, 10 days old. Tray C is fed; trays A and B finish.",
        ),
        (
            (started("A", 0), entry("separation_begun", 9, tray="A")),
            "One tray, 10 days old. Tray A is being separated.",
        ),
    ],
)
def test_the_bin_at_a_glance_in_other_states(entries: tuple[Entry, ...], said: str) -> None:
    assert stack_sentence(stack_of(*entries, as_of=10)) == said


def test_a_high_stack_is_counted_in_figures() -> None:
    stack = stack_of(*(started(tray, 0) for tray in "ABCDEFGHIJK"), as_of=1, trays="")
    assert stack_sentence(stack).startswith("11 trays, 1 day old.")


def test_a_sentence_a_tray() -> None:
    stack = stack_of(*a_usual_bin(), entry("checked", 88, tray="B", feel="damp"), as_of=90)
    assert line(stack, "B") == (
        "Tray B on level 3, the top, feeding: 90 days on the stack, 30 days feeding; 1 feeding, "
        "500 g of scraps; damp, about 70 %, checked 2 days ago. Feed this one next."
    )
    assert line(stack, "A") == (
        "Tray A on level 2, finishing: 90 days on the stack, 30 days finishing; 4 feedings, 2 kg of scraps; "
        "moisture not checked."
    )
    assert line(stack, "C") == (
        "Tray C on level 1, bedding: 30 days on the stack; not fed yet; moisture not checked."
    )


def test_a_spare_tray_says_since_when() -> None:
    stack = stack_of(*a_usual_bin(), turned("CB", 65), as_of=90)
    assert line(stack, "A") == "Tray A, off the stack: spare since Tue 5 May, 25 days ago."
    assert story(stack, "A") == [line(stack, "A")]


def test_the_story_of_a_tray_in_us_units() -> None:
    entries = (
        started("A", 0, water_kg=0.90718474, stage="feeding"),
        fed("A", 3, {"[red]cabbage": 0.45359237, "plum": 0.226796185}, grit_kg=0.0283495),
        entry("checked", 8, tray="A", feel="dry", temperature_c=20, ph=6.5, smell="[/ sour\n", strays="few"),
        entry("checked", 9, tray="A", gross_kg=4.5359237),
    )
    stack = stack_of(*entries, as_of=10, units="us", tray_empty_kg=0.90718474)
    assert story(stack, "A")[1:5] == [
        "Bedding: shredded cardboard 1.1 lb.",
        "Scraps: [red]cabbage 1 lb, plum 8 oz.",
        "Water poured on: 2 lb.",
        "Grit: 1 oz.",
    ]
    assert "Last fed on Wed 4 Mar, 7 days ago." in story(stack, "A")
    assert "Last checked yesterday." in story(stack, "A")
    assert "Weighed yesterday: 10 lb, of which 8 lb is contents." in story(stack, "A")
    assert any(told.startswith("Moisture: dry, about 50 %") for told in story(stack, "A"))


def test_a_dry_tray_tells_how_much_water_where_it_can_be_reckoned() -> None:
    """By hand: 0.5 kg of cardboard at 8 % is 0.46 kg of solids, which takes 1.00 l from 45 % and 0.82 l from
    55 % to come to 75 %."""
    stack = stack_of(started("A", 0), entry("checked", 9, tray="A", moisture_pct=50), as_of=10)
    tray = stack.trays[0]
    rough = next(line for line in tray_story(tray, stack) if line.startswith("Moisture:"))
    assert rough.endswith("Add water a little at a time; a check tells how much.")
    told = next(line for line in tray_story(tray, stack, shipped_pantry) if line.startswith("Moisture:"))
    assert "Add 820 ml to 1 l of water in all, for 75 %: at most 480 ml at once" in told


def test_the_last_check_tells_every_reading() -> None:
    reading = entry(
        "checked", 9, tray="A", moisture_pct=71.6, temperature_c=18, ph=6.5, smell="[/ sour\n", strays="few"
    )
    stack = stack_of(started("A", 0), reading, as_of=10)
    assert "Last checked yesterday: moisture 72 %, 18 °C, pH 6.5, smell: [/ sour , strays: few." in story(
        stack, "A"
    )


def test_unknown_contents_are_not_made_up() -> None:
    assert story(stack_of(turned("A", 0), as_of=3), "A")[1] == "What it was filled with was not noted."


def test_the_story_of_a_tray_in_hand_tells_where_its_separation_is() -> None:
    stack = stack_of(*a_usual_bin(), entry("separation_begun", 70, tray="A"), as_of=70)
    assert story(stack, "A")[-1] == "Tray A: next, get ready."


def test_a_rest_tells_what_is_left_and_what_follows() -> None:
    running = separation(step("rest", 10, 37, pass_number=2, ends_at=moment(70, 10, 52)))
    assert separation_line(running, moment(70, 10, 48)) == (
        "Tray A: pass 2, resting, 4 min left, ends 10:52; then skim."
    )
    assert separation_line(running, moment(70, 10, 52)) == (
        "Tray A: pass 2, rest ended 10:52, 0 s ago; now skim."
    )
    assert separation_line(running, moment(71, 10, 52)) == (
        "Tray A: pass 2, rest ended yesterday 10:52, 1 day ago; now skim."
    )


def test_a_clock_set_back_is_told_and_nothing_is_counted() -> None:
    running = separation(step("rest", 10, 37, pass_number=1, ends_at=moment(70, 10, 52)))
    said = separation_line(running, moment(70, 9))
    assert "the clock was set back" in said
    assert "left" not in said


def test_untimed_steps_and_the_time_between_steps() -> None:
    ready = step("get_ready", 9, 0)
    assert separation_line(separation(ready), moment(70, 9, 5)) == (
        "Tray A: getting ready since 09:00; then loosen."
    )
    skim = separation(step("skim", 11, 0, pass_number=3))
    assert separation_line(skim, moment(70, 11, 1)).startswith("Tray A: pass 3, skimming since 11:00;")
    between = separation(ready, entry("step_ended", moment(70, 9, 5), tray="A", step="get_ready"))
    assert separation_line(between, moment(70, 9, 6)) == "Tray A: next, loosen."
    assert separation_line(separation(), moment(70, 9, 1)) == "Tray A: next, get ready."


@pytest.mark.parametrize(
    ("move", "said"),
    [
        (
            Move("C", 3, None, Stage.FINISHING, Stage.SEPARATING),
            "Tray C leaves level 3 to be separated.",
        ),
        (Move("D", 4, 3, Stage.FEEDING, Stage.FINISHING), "Tray D goes from level 4 to 3, and finishes."),
        (Move("B", 2, 4, Stage.BEDDING, Stage.FEEDING), "Tray B goes from level 2 to 4, and is fed."),
        (
            Move("A", 1, 2, Stage.BEDDING, Stage.BEDDING),
            "Tray A goes from level 1 to 2, and goes on as bedding.",
        ),
        (Move("A", 2, 2, Stage.FEEDING, Stage.FINISHING), "Tray A stays on level 2, and finishes."),
        (Move("E", None, 1, None, Stage.BEDDING), "Tray E comes in on level 1 with fresh bedding."),
        (
            Move("E", None, 4, None, Stage.FEEDING),
            "Tray E comes in on level 4 with fresh bedding, and is fed.",
        ),
    ],
)
def test_a_move_as_a_sentence(move: Move, said: str) -> None:
    assert move_line(move) == said
