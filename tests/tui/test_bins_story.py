"""The bins screen, as a keeper meets it: first day, five bins, and a file that broke."""

from pathlib import Path

import pytest

from tests.tui.stories import SAMPLES, keeper, samples

BROKEN = 'format = 1\n\n[bin]\nname = "Old bin"\nunits = "stones"\n'


async def test_an_empty_home_says_what_to_do_and_stays_empty(tmp_path: Path) -> None:
    home = tmp_path / "home"
    async with keeper(home) as k:
        k.sees("No bins yet.", "Space makes the first one.", "trayturn demo")
        await k.press("enter", "r", "y", "x", "u")
        assert k.screen == "Bins"
    assert not home.exists()


async def test_five_bins_with_what_is_due_and_what_rests(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path)) as k:
        k.sees("5 bins", "Feed tray A now.", "Turn the stack now.", "Tray C: resting until 10:12")
        k.sees("Workshop, tray C: rest 07:00 left, until 10:12, then skim")
        k.sees("C  separating")
        await k.press("enter")
        assert (k.screen, k.title.split()[0]) == ("Stack", "Workshop")


async def test_a_new_bin_needs_a_name_and_ctrl_s(tmp_path: Path) -> None:
    async with keeper(tmp_path / "home") as k:
        await k.press("n")
        await k.type("Keller, links")
        await k.press("ctrl+s")
        assert k.screen == "Stack"
        k.sees("Keller, links", "Start the first")
        await k.press("escape")
        k.sees("Keller, links", "one bin")
        assert k.profile("keller-links").bin.name == "Keller, links"


async def test_a_copy_has_the_journal_and_leaves_the_first_alone(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path, "pantry")) as k:
        await k.press("y", "ctrl+s")
        k.sees("Pantry (copy)", "2 bins")
        assert k.profile("pantry-copy").journal == k.profile("pantry").journal
    assert (tmp_path / "pantry.toml").read_bytes() == (SAMPLES / "pantry.toml").read_bytes()


async def test_a_new_name_keeps_every_comment_and_a_backup(tmp_path: Path) -> None:
    before = (SAMPLES / "pantry.toml").read_text(encoding="utf-8")
    async with keeper(samples(tmp_path, "pantry")) as k:
        await k.press("r", "end", *["backspace"] * 6)
        await k.type("Cellar")
        await k.press("ctrl+s")
        k.sees("Cellar", "The bin is changed.")
    after = (tmp_path / "pantry.toml").read_text(encoding="utf-8")
    assert after == before.replace('name = "Pantry"', 'name = "Cellar"')
    assert [path.read_text(encoding="utf-8") for path in (tmp_path / "backups").iterdir()] == [before]


@pytest.mark.parametrize("names", [("pantry",), ("laundry", "pantry")])
async def test_a_bin_put_away_comes_back_with_u(tmp_path: Path, names: tuple[str, ...]) -> None:
    async with keeper(samples(tmp_path, *names)) as k:
        await k.press("end" if names[0] == "pantry" else "home", "x")
        k.sees("Put away in archive/pantry.toml. u brings it back")
        k.sees_no("bottom shelf")
        assert [path.name for path in (tmp_path / "archive").glob("*.toml")] == ["pantry.toml"]
        await k.press("u")
        k.sees("Pantry", "pantry is back")
    assert (tmp_path / "pantry.toml").read_bytes() == (SAMPLES / "pantry.toml").read_bytes()


async def test_u_takes_back_what_was_just_done_and_nothing_older(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path, "pantry", "laundry")) as k:
        before = k.standing("pantry"), k.standing("laundry")
        await k.press("u")
        assert (k.standing("pantry"), k.standing("laundry")) == before
        await k.press("end", "enter", "i")
        await k.type("first frost")
        await k.press("ctrl+s", "escape", "home", "u")
        k.sees("Taken back: note, 2026-11-21 10:05")
        assert (k.standing("pantry"), k.standing("laundry")) == before


async def test_a_broken_file_is_listed_with_its_fault_and_the_others_stay(tmp_path: Path) -> None:
    (samples(tmp_path, "pantry", "workshop") / "old.toml").write_text(BROKEN, encoding="utf-8")
    async with keeper(tmp_path) as k:
        k.sees("3 bins", "Pantry", "Workshop", "old", "has a fault; Enter shows it")
        await k.press("end", "enter")
        k.sees("Pantry", "Feed tray A now.")


async def test_a_broken_bin_opens_for_reading_and_follows_when_it_is_mended(tmp_path: Path) -> None:
    file = samples(tmp_path, "pantry") / "old.toml"
    file.write_text(BROKEN, encoding="utf-8")
    async with keeper(tmp_path, "old") as k:
        k.sees("cannot be read, so nothing is written to it", "line 5", "bin.units")
        await k.press("f", "t", "i", "space", "u")
        assert k.screen == "Stack"
        await k.press("enter")
        assert k.screen == "Reason"
        k.sees("bin.units")
        await k.press("escape")
        file.write_text(BROKEN.replace("stones", "metric"), encoding="utf-8")
        await k.look()
        assert k.title.split()[:2] == ["Old", "bin"]
        k.sees("Due")
        k.sees_no("What is wrong", "bin.units")
    assert file.read_text(encoding="utf-8") == BROKEN.replace("stones", "metric")


async def test_a_bin_that_an_editor_breaks_turns_read_only_with_its_fault(tmp_path: Path) -> None:
    file = samples(tmp_path, "pantry") / "pantry.toml"
    async with keeper(tmp_path, "pantry") as k:
        text = file.read_text(encoding="utf-8") + "\n[[journal]\n"
        file.write_text(text, encoding="utf-8")
        await k.look()
        k.sees("What is wrong with the file", "header that is not closed")
        await k.press("escape")
        k.sees("has a fault; Enter shows it")
    assert file.read_text(encoding="utf-8") == text


async def test_a_new_file_and_one_taken_away_are_followed(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path, "pantry")) as k:
        samples(tmp_path, "laundry")
        await k.look()
        k.sees("2 bins", "Laundry room")
        (tmp_path / "pantry.toml").unlink()
        await k.look()
        k.sees("one bin")
        k.sees_no("Pantry")


async def test_a_bin_opened_by_its_path_is_followed_and_hides_its_namesake(tmp_path: Path) -> None:
    home, away = samples(tmp_path / "home", "pantry"), samples(tmp_path / "away", "pantry") / "pantry.toml"
    text = away.read_text(encoding="utf-8").replace('"Pantry"', '"Lent out"')
    away.write_text(text, encoding="utf-8")
    async with keeper(home, path=away) as k:
        assert k.title.startswith(" Lent out")
        away.write_text(text.replace('"Lent out"', '"Given away"'), encoding="utf-8")
        await k.look()
        assert k.title.startswith(" Given away")
        await k.press("f")
        await (await k.heed()).press("a")
        await k.type("cabbage 100 g")
        await k.press("enter", "escape", "space")
    assert "cabbage = 0.1" in away.read_text(encoding="utf-8")
    assert (home / "pantry.toml").read_bytes() == (SAMPLES / "pantry.toml").read_bytes()


async def test_a_home_that_is_no_folder_is_said_and_nothing_crashes(tmp_path: Path) -> None:
    home = tmp_path / "home"
    home.write_text("", encoding="utf-8")
    async with keeper(home) as k:
        # The words wrap where the path of this test's folder leaves room.
        assert "cannot be opened: not a directory." in " ".join(k.picture.split())
        k.sees("--home")
        await k.press("n")
        await k.type("Pantry")
        await k.press("ctrl+s")
        k.sees("Pantry")
        assert k.screen == "Form"


async def test_the_places_beside_a_bin_are_changed_on_its_form(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path, "pantry"), size=(120, 40)) as k:
        await k.press("r")
        k.sees("Change Pantry", "what is left empty stays")
        before = k.profile("pantry").bin
        await k.press("tab", "tab", "enter")
        k.sees("Places beside", f"{before.places_beside} now", "60 now")
        await k.press(*["tab"] * 9)
        await k.type("4")
        await k.press("ctrl+s")
        k.sees("The bin is changed.")
        assert k.profile("pantry").bin == before.model_copy(update={"places_beside": 4})
