"""Two separations in two bins and one pair of hands: the program says where they go, the keeper follows."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.advice.side_by_side.test_side_by_side import NOW as STAGED
from tests.advice.side_by_side.test_side_by_side import STAGES, at_stage
from tests.builders import a_bin, entry, moment, started
from tests.tui.stories import Wrist, keeper
from trayturn.advice.cautions import CAUTIONS
from trayturn.advice.side_by_side import side_by_side
from trayturn.advice.side_by_side.chains import CLEAN_UP, DECIDE, LOOSEN, READY, SETTLE, SKIM
from trayturn.advice.side_by_side.words import what
from trayturn.domain.entries import Entry, Outcome, Step
from trayturn.domain.setup import Tray
from trayturn.storage import managing
from trayturn.tui.widgets.timeline.drawing import KEY, LETTERS, rows

NOW = moment(100, 10)
READ = entry("cautions_read", moment(99), work="all", codes=[caution.code for caution in CAUTIONS])


def two_bins(home: Path) -> Path:
    for name, tray in (("Attic", "A"), ("Cellar", "C")):
        journal: tuple[Entry, ...] = (started(tray, 0), started("B", 1, stage="feeding"), READ)
        managing.create(home, a_bin(name=name), [Tray(id=tray), Tray(id="B")], journal, name.lower())
    return home


def resting(tray: str, ends: int) -> tuple[Entry, ...]:
    return (
        entry("separation_begun", NOW, tray=tray),
        entry("step_started", NOW, tray=tray, step="rest", pass_number=1, ends_at=moment(100, 10, ends)),
    )


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
async def test_the_program_says_where_hands_go_and_v_goes_there(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    home = two_bins(tmp_path)
    for name, tray, ends in (("attic", "A", 12), ("cellar", "C", 15)):
        from tests.tui.stories import written_elsewhere

        written_elsewhere(home, name, list(resting(tray, ends)))
    wrist = Wrist(NOW)
    async with keeper(home, "attic", wrist=wrist, size=size) as k:
        await k.press("s")
        k.sees("Hands are free until 10:12: then skim tray A in", "All done between", "Attic A", "Cellar C")
        await k.press("v")
        k.sees("Cellar  separation", "tray C")
        await k.wait(minutes=13)
        await k.press("v")
        k.sees("Attic  separation")
        await k.press("space", "2", "space")
        assert k.stack("attic").separations[0].step.step is Step.DECIDE  # type: ignore[union-attr]
        await k.press("2", "space", "space", "space", "space", "space")
        assert k.stack("attic").past_separations[-1].outcome is Outcome.FINISHED
        assert k.footer_fits


async def test_with_one_separation_nothing_of_it_is_shown(tmp_path: Path) -> None:
    from tests.tui.stories import written_elsewhere

    home = two_bins(tmp_path)
    written_elsewhere(home, "attic", list(resting("A", 15)))
    async with keeper(home, "attic", wrist=Wrist(NOW)) as k:
        await k.press("s")
        k.sees_no("All done", "L loosen")
        await k.press("v")
        k.sees("No other tray is being separated.")


WORK = list(zip(STAGES, ("G", "L", "S", "S", "D", "T", "C"), strict=True))


@pytest.mark.parametrize(("stage", "letter"), WORK)
def test_every_piece_of_work_has_its_letter_and_its_words(stage: str, letter: str) -> None:
    plan = side_by_side([at_stage(stage, 0, "attic"), at_stage("rest", 3, "cellar")], STAGED)
    assert plan is not None
    drawn = ["".join(text for text, _ in row) for row in rows(plan, 60)]
    (mine,) = [row.removeprefix("Attic A") for row in drawn if row.startswith("Attic A")]
    assert mine.strip()[0] == letter
    assert all(what(slot).endswith(f" in {slot.name}") for slot in plan.slots)


def test_every_kind_of_work_has_a_letter_of_its_own_that_the_key_tells() -> None:
    assert set(LETTERS) == {LOOSEN, SKIM, DECIDE, SETTLE, CLEAN_UP, READY}
    told = dict(part.split(" ", 1) for part in KEY.split("  "))
    assert set(told) == set(LETTERS.values())
    assert told[LETTERS[CLEAN_UP]] == CLEAN_UP
