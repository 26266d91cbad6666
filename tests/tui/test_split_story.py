"""Splitting a bin by keyboard: to another, to a new one, by weight, by number, with a tray; and back."""

from __future__ import annotations

import errno
from pathlib import Path

import pytest

from tests.builders import a_bin, a_usual_bin, entry, fed, moment, started
from tests.tui.house import a_home
from tests.tui.stories import Keeper, Wrist, keeper, samples
from tests.tui.test_trouble_story import refuse
from trayturn.domain.entries import Entry, Note, WormsAdded, WormsRemoved
from trayturn.domain.setup import Tray
from trayturn.storage import managing
from trayturn.storage.home import PAIR
from trayturn.storage.reading import load
from trayturn.storage.saving import append

NOW = moment(70)
WORMS = entry("worms_added", 1, worms_kg=0.5)
SHED = (started("A", 50, stage="feeding"), started("B", 50), fed("A", 51))


def two_bins(home: Path, **setup: str) -> Path:
    """A pantry of three trays with half a kilogram of worms, and a shed of two."""
    a_home(home, (*a_usual_bin(), WORMS), **setup)
    trays = [Tray(id=name) for name in "ABC"]
    managing.create(home, a_bin(name="Shed", **setup), trays, SHED, "shed")
    return home


async def asked(k: Keeper, *ways: str) -> Keeper:
    """The worms form with moving picked in it, and the cursor on the mass."""
    await k.press("w", "up", "3", "tab", *ways)
    k.sees("Worms of Pantry", "[3 moved to another bin]")
    return k


def last(k: Keeper, key: str, number: int = 1) -> list[Entry]:
    return k.standing(key)[-number:]


async def test_worms_move_to_another_bin_and_u_takes_them_back_in_both(tmp_path: Path) -> None:
    async with keeper(two_bins(tmp_path), "pantry", wrist=Wrist(NOW)) as k:
        before = k.standing("pantry"), k.standing("shed")
        await asked(k)
        k.sees("Half by weight is about 250 g", "[1 Shed]", "worms alone")
        await k.type("250 g")
        k.sees("Pantry then has 250 g, 1.0 times the published best", "Shed then has 250 g")
        await k.press("ctrl+s")
        assert k.screen == "Reason"
        k.sees("250 g of worms moved to Shed", "u takes it back in both bins")
        out, into = last(k, "pantry")[0], last(k, "shed")[0]
        assert out == WormsRemoved(at=NOW, worms_kg=0.25, tray="B", went_to="Shed")
        assert into == WormsAdded(at=NOW, worms_kg=0.25, tray="A", source="Pantry")
        await k.press("escape", "u")
        k.sees("Taken back: moved worms, here and in Shed")
        assert (k.standing("pantry"), k.standing("shed")) == before


async def test_u_in_the_other_bin_does_the_same(tmp_path: Path) -> None:
    async with keeper(two_bins(tmp_path), "pantry", wrist=Wrist(NOW)) as k:
        before = k.standing("pantry"), k.standing("shed")
        await asked(k)
        await k.type("250 g")
        await k.press("ctrl+s", "escape", "escape")
        k.app.open_bin("shed")
        await k.pause()
        await k.press("u")
        k.sees("Taken back: moved worms, here and in Pantry")
        assert (k.standing("pantry"), k.standing("shed")) == before


async def test_where_the_other_bin_went_on_its_half_is_kept_and_that_is_said(tmp_path: Path) -> None:
    async with keeper(two_bins(tmp_path), "pantry", wrist=Wrist(NOW)) as k:
        await asked(k)
        await k.type("250 g")
        await k.press("ctrl+s", "escape")
        append(load(tmp_path / "shed.toml"), [Note(at=NOW, text="settled in")])
        await k.look()
        await k.press("u")
        k.sees("Taken back: this half; Shed keeps its own")
        assert k.stack("pantry").worms_kg == 0.5
        assert [one.kind for one in last(k, "shed", 2)] == ["worms_added", "note"]


async def test_a_tray_goes_along_with_all_that_is_in_it(tmp_path: Path) -> None:
    async with keeper(two_bins(tmp_path), "pantry", wrist=Wrist(NOW)) as k:
        before = k.standing("pantry"), k.standing("shed")
        await asked(k)
        await k.type("250 g")
        await k.press("tab", "tab", "tab", "1")
        k.sees("[1 tray B]")
        k.sees_no("whole bin")
        await k.press("ctrl+s")
        k.sees("250 g of worms moved with tray B to Shed")
        await k.press("escape")
        assert [tray.id for tray in k.stack("pantry").trays] == ["C", "A"]
        assert [tray.id for tray in k.stack("shed").trays] == ["B", "A", "C"]
        await k.press("u")
        assert (k.standing("pantry"), k.standing("shed")) == before


async def test_a_new_bin_is_named_in_the_same_form_and_made_with_it(tmp_path: Path) -> None:
    async with keeper(two_bins(tmp_path), "pantry", wrist=Wrist(NOW)) as k:
        await asked(k)
        await k.type("250 g")
        await k.press("tab", "tab", "2", "ctrl+s")
        k.sees("Its name is still to be filled in.")
        await k.type("Shed")
        await k.press("ctrl+s")
        assert k.screen == "Form"
        k.sees("There is already a bin called Shed", "250 g")
        await k.press("ctrl+u")
        await k.type("Attic")
        k.sees_no("There is already")
        k.sees("Attic then has 250 g")
        await k.press("ctrl+s")
        k.sees("250 g of worms moved to Attic", "Attic has no tray yet")
        assert [one.kind for one in k.standing("attic")] == ["worms_added"]
        assert k.profile("attic").bin.tray_area_m2 == k.profile("pantry").bin.tray_area_m2
        await k.press("escape", "escape")
        k.sees("3 bins", "Attic")
        k.app.open_bin("attic")
        await k.pause()
        await k.press("space")
        k.sees("Starting Attic", "done  Put the worms in", "next  Soak the bedding")


async def test_worms_by_number_are_weighed_by_their_mean(tmp_path: Path) -> None:
    async with keeper(two_bins(tmp_path), "pantry", wrist=Wrist(NOW)) as k:
        await k.press("w", "tab")
        await k.type("400")
        k.sees("400 worms are 100 g to 220 g, at 0.25 to 0.55 g each")
        await k.press("ctrl+s")
        (added,) = last(k, "pantry")
        assert isinstance(added, WormsAdded)
        assert (added.counted, added.tray, round(added.worms_kg, 6)) == (400, "B", 0.16)


async def test_mixed_worms_are_told_to_be_weighed_beside_the_number(tmp_path: Path) -> None:
    async with keeper(two_bins(tmp_path, species="mixed"), "pantry", wrist=Wrist(NOW)) as k:
        await asked(k, "tab")
        await k.type("400")
        await k.press("ctrl+s")
        assert k.reads("#wrong-counted") == "! No figure was found for mixed worms. Weigh them."
        k.sees("Not saved yet", "400")


async def test_everything_wrong_is_said_beside_its_field_and_nothing_is_lost(tmp_path: Path) -> None:
    async with keeper(two_bins(tmp_path), "pantry", wrist=Wrist(NOW)) as k:
        await asked(k)
        await k.press("ctrl+s")
        assert "or the number below it" in k.reads("#wrong-kg")
        await k.type("250 g")
        await k.press("tab", "tab", "tab", "2")
        await k.press("tab")
        await k.type("why not")
        full = [started("C", 60), entry("note", 60, text="full")]
        append(load(tmp_path / "shed.toml"), full)
        await k.press("ctrl+s")
        assert "Shed has no place for another tray" in k.reads("#wrong-along")
        k.sees("250 g", "why not")
        await k.press("0", "ctrl+s")
        assert k.screen == "Reason"
        assert last(k, "shed")[0].note == "why not"


async def test_what_was_typed_for_a_move_is_kept_while_another_way_is_picked(tmp_path: Path) -> None:
    async with keeper(two_bins(tmp_path), "pantry", wrist=Wrist(NOW)) as k:
        await asked(k, "tab", "tab", "2", "tab")
        await k.type("Attic")
        await k.press("up", "up", "up", "up", "1")
        k.sees_no("Attic", "Goes along")
        k.sees("From or to")
        await k.press("3")
        k.sees("Attic", "Goes along")
        k.sees_no("From or to")


async def test_a_full_disk_keeps_the_form_and_both_files(tmp_path: Path) -> None:
    async with keeper(two_bins(tmp_path), "pantry", wrist=Wrist(NOW)) as k:
        before = k.standing("pantry"), k.standing("shed")
        await asked(k)
        await k.type("250 g")
        with pytest.MonkeyPatch.context() as patch:
            refuse(patch, errno.ENOSPC)
            patch.setattr("trayturn.storage.pending.write_through", _full)
            await k.press("ctrl+s")
        k.sees("the disk is full")
        assert (k.standing("pantry"), k.standing("shed")) == before
        assert not (tmp_path / PAIR).exists()
        await k.press("ctrl+s")
        assert k.screen == "Reason"


def _full(*_: object) -> None:
    raise OSError(errno.ENOSPC, "refused")


@pytest.mark.parametrize("where", ["bins", "stack"])
async def test_the_palette_has_split_on_bins_and_stack(tmp_path: Path, where: str) -> None:
    bin_first = "pantry" if where == "stack" else None
    async with keeper(two_bins(tmp_path), bin_first, wrist=Wrist(NOW)) as k:
        offered = {command.title for command in k.app.get_system_commands(k.app.screen)}
        assert "Split" in offered
        await k.app.screen.run_action("split")
        await k.pause()
        k.sees("[3 moved to another bin]")


async def test_the_form_fits_and_can_be_saved_at_80_by_24(tmp_path: Path) -> None:
    async with keeper(two_bins(tmp_path), "pantry", wrist=Wrist(NOW)) as k:
        await asked(k)
        await k.type("250 g")
        await k.press("tab", "tab", "2", "tab")
        await k.type("Attic")
        for label in ("Mass", "Or number", "To", "Its name", "Goes along", "Tray", "Note", "When", "Save"):
            k.sees(label)
        k.sees("Attic then has", "ctrl+s saves")
        assert len(k.app.screen.query("*")) <= 60


async def test_any_name_and_note_move_as_they_are(tmp_path: Path) -> None:
    async with keeper(two_bins(tmp_path), "pantry", wrist=Wrist(NOW)) as k:
        await asked(k)
        await k.type("250 g")
        await k.press("tab", "tab", "2", "tab")
        await k.type("[/ {'a[0]'} ☃")
        await k.press("ctrl+s")
        k.sees("[/ {'a[0]'} ☃")
        assert k.screen == "Reason"


async def test_too_many_worms_are_remarked_on_under_the_form(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path, "pantry"), "pantry") as k:
        await k.press("w")
        k.sees("such as 250 g")
        await k.type("500 kg")
        k.sees("times what all trays of this bin hold at the published best")
