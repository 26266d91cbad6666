"""Trouble with the disk: one sentence, nothing lost, and the same key works once it is mended."""

from __future__ import annotations

import errno
from pathlib import Path

import pytest

from tests.tui.stories import keeper, samples
from trayturn.storage import disk

TROUBLES = {
    errno.ENOSPC: "the disk is full. Free some space and try again.",
    errno.EACCES: "you may not use it. Check the permissions",
    errno.EROFS: "the disk is read-only. Make it writable",
    errno.EIO: "the disk reported a fault. Try again",
}


def refuse(patch: pytest.MonkeyPatch, number: int) -> None:
    """From now on the disk takes nothing."""

    def write(*_: object) -> None:
        raise OSError(number, "refused")

    patch.setattr(disk, "write_through", write)


@pytest.mark.parametrize("number", TROUBLES, ids=errno.errorcode.get)
async def test_a_form_keeps_its_words_and_saves_once_it_is_mended(tmp_path: Path, number: int) -> None:
    async with keeper(samples(tmp_path, "pantry"), "pantry") as k:
        before = (tmp_path / "pantry.toml").read_bytes()
        await k.press("i")
        await k.type("first frost")
        with pytest.MonkeyPatch.context() as patch:
            refuse(patch, number)
            await k.press("ctrl+s")
            assert TROUBLES[number] in k.reads("#trouble")
            k.sees("first frost")
            assert (tmp_path / "pantry.toml").read_bytes() == before
        await k.press("ctrl+s")
        k.sees("Note saved.")
        assert k.standing("pantry")[-1].kind == "note"


async def test_a_step_with_its_answers_waits_for_the_disk(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path, "workshop"), "workshop") as k:
        await k.press("s", "e", "2", "down", "+")
        before = k.standing("workshop")
        with pytest.MonkeyPatch.context() as patch:
            refuse(patch, errno.ENOSPC)
            for key in ("space", "b", "z"):
                await k.press(key)
                assert len(k.troubles) == 1
                assert "workshop.toml" in k.troubles[0]
                assert "the disk is full" in k.troubles[0]
                k.sees("[2 few]", "-  100 g  +")
            assert k.standing("workshop") == before
        await k.press("space")
        k.sees("Step 5 of 7")


async def test_a_turn_and_undo_wait_for_the_disk(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path, "stairwell"), "stairwell") as k:
        await k.press("t")
        await (await k.heed()).press("escape")
        before = k.standing("stairwell")
        with pytest.MonkeyPatch.context() as patch:
            refuse(patch, errno.EACCES)
            await k.press("u", "t", "e")
            assert "you may not use it" in k.troubles[0]
            assert k.screen == "Plan"
        await k.press("e")
        assert (k.screen, len(k.standing("stairwell")) > len(before)) == ("Stack", True)


async def test_making_and_naming_bins_wait_for_the_disk(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path, "pantry")) as k:
        for key in "nyr":
            await k.press(key, "end")
            await k.type("Attic")
            with pytest.MonkeyPatch.context() as patch:
                refuse(patch, errno.ENOSPC)
                await k.press("ctrl+s")
                assert "the disk is full" in k.reads("#trouble")
                assert k.screen == "Form"
            await k.press("ctrl+s", *(["escape"] if key == "n" else []))
            assert k.screen == "Bins"
        with pytest.MonkeyPatch.context() as patch:
            refuse(patch, errno.ENOSPC)
            await k.press("x")
            assert "the disk is full" in k.troubles[-1]
        assert (tmp_path / "pantry.toml").exists()


async def test_a_separation_whose_file_vanishes_goes_on_when_it_is_back(tmp_path: Path) -> None:
    file, away = samples(tmp_path, "workshop") / "workshop.toml", tmp_path / "kept"
    async with keeper(tmp_path, "workshop") as k:
        await k.press("s", "e", "2")
        file.rename(away)
        await k.press("space")
        k.sees("cannot be read any more", "[2 few]")
        await k.press("b", "z", "plus", "enter", "u")
        assert k.screen == "Separation"
        away.rename(file)
        await k.press("space")
        k.sees("Step 5 of 7")
        assert k.separation("workshop").passes[-1].worms_seen == "few"


async def test_a_separation_whose_file_breaks_goes_on_when_it_is_mended(tmp_path: Path) -> None:
    file = samples(tmp_path, "workshop") / "workshop.toml"
    async with keeper(tmp_path, "workshop") as k:
        await k.press("s", "e", "2")
        text = file.read_text(encoding="utf-8")
        file.write_text(text + "oops", encoding="utf-8")
        await k.look()
        k.sees("cannot be read any more", "[2 few]")
        await k.press("space")
        assert file.read_text(encoding="utf-8") == text + "oops"
        file.write_text(text, encoding="utf-8")
        await k.look()
        k.sees_no("cannot be read any more")
        await k.press("space")
        k.sees("Step 5 of 7")
