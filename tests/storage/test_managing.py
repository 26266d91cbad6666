"""Making, copying, renaming and putting away profiles: nothing is overwritten, nothing is lost."""

from __future__ import annotations

import os
import threading
from datetime import timedelta
from pathlib import Path

import pytest

from tests.storage.files import HAND_WRITTEN, NOW, note, rename, write
from tests.strategies import ODD_TEXTS
from trayturn.domain.setup import BinSetup, Pattern, Tray, Units
from trayturn.storage.errors import NameRefused, NotFound, NotSaved, Unreadable
from trayturn.storage.home import list_profiles
from trayturn.storage.managing import (
    BACKUPS,
    archive,
    back_up,
    change,
    copy,
    create,
    list_archived,
    unarchive,
)
from trayturn.storage.reading import Loaded, load
from trayturn.storage.saving import append

SETUP = BinSetup(name="Küche", units=Units.US, pattern=Pattern.STRAIGHT_UP, began=NOW, place="by the door")


def shown_name(loaded: Loaded) -> str:
    assert loaded.problems == ()
    assert loaded.profile is not None
    return loaded.profile.bin.name


def test_a_new_bin_is_a_file_and_the_home_is_made_with_it(tmp_path: Path) -> None:
    home = tmp_path / "data" / "trayturn"
    made = create(home, SETUP, [Tray(id="A"), Tray(id="B", empty_kg=1.1)], [note("first words")])
    assert made.path == home / "kuche.toml"
    assert made == load(made.path)
    assert made.profile is not None
    assert made.profile.bin == SETUP
    assert [tray.id for tray in made.profile.trays] == ["A", "B"]
    assert made.profile.journal == (note("first words"),)
    assert made.raw.startswith(b"# A worm bin.")
    assert append(made, [note("more")]).raw.startswith(made.raw)


def test_a_new_bin_never_takes_the_place_of_another(tmp_path: Path) -> None:
    first = create(tmp_path, SETUP, [])
    second = create(tmp_path, BinSetup(name="Kuche"), [])
    with pytest.raises(NameRefused, match="already a bin called"):
        create(tmp_path, SETUP, [])
    assert (first.key, second.key) == ("kuche", "kuche-2")
    with pytest.raises(NameRefused, match="'kuche' is taken"):
        create(tmp_path, BinSetup(name="Other"), [], key="kuche")
    with pytest.raises(NameRefused, match="cannot be a short name"):
        create(tmp_path, BinSetup(name="Other"), [], key="../kuche")
    assert load(first.path) == first


def test_of_many_made_at_once_under_one_short_name_one_wins(tmp_path: Path) -> None:
    made: list[str] = []
    refused: list[str] = []

    def make(name: str) -> None:
        try:
            made.append(shown_name(create(tmp_path, BinSetup(name=name), [], key="same")))
        except NameRefused:
            refused.append(name)

    threads = [threading.Thread(target=make, args=(f"bin {n}",)) for n in range(8)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert len(made) == 1
    assert len(refused) == 7
    assert shown_name(load(tmp_path / "same.toml")) == made[0]


@pytest.mark.parametrize("text", ODD_TEXTS, ids=range(len(ODD_TEXTS)))
def test_any_name_and_place_come_back(text: str, tmp_path: Path) -> None:
    setup = BinSetup(name=text[:80], place=text[:200])
    made = create(tmp_path, setup, [Tray(id="A", note=text)])
    again = load(made.path).profile
    assert again is not None
    assert (again.bin, again.trays[0].note) == (setup, text)


def test_a_bin_that_does_not_add_up_is_not_made(tmp_path: Path) -> None:
    with pytest.raises(NotSaved, match="tray A is listed more than once"):
        create(tmp_path / "home", SETUP, [Tray(id="A"), Tray(id="A")])
    assert not (tmp_path / "home").exists()


def test_a_home_that_cannot_be_made_is_one_sentence(tmp_path: Path) -> None:
    (tmp_path / "file").touch()
    with pytest.raises(Exception, match=r"^The folder .* cannot be opened: not a directory\. Check it"):
        create(tmp_path / "file", SETUP, [])


@pytest.mark.parametrize("newline", ["\n", "\r\n"])
@pytest.mark.parametrize("mark", ["", "\ufeff"])
def test_renaming_changes_the_name_and_not_one_byte_more(newline: str, mark: str, tmp_path: Path) -> None:
    text = (mark + HAND_WRITTEN).replace("\n", newline)
    renamed = rename(load(write(tmp_path, text)), 'The "larder" 厨房', NOW)
    assert shown_name(renamed) == 'The "larder" 厨房'
    assert renamed.key == "pantry"
    assert load(renamed.path) == renamed
    changed = [
        (old, new)
        for old, new in zip(text.split("\n"), renamed.raw.decode().split("\n"), strict=True)
        if old != new
    ]
    assert len(changed) == 1
    assert changed[0][1].endswith("# as it says on the lid" + newline.removesuffix("\n"))


def test_a_dated_copy_is_kept_before_a_rewrite(tmp_path: Path) -> None:
    loaded = load(write(tmp_path))
    renamed = rename(loaded, "Larder", NOW)
    kept = tmp_path / "backups" / "pantry.2026-11-25T10-05-00.toml"
    assert kept.read_text() == HAND_WRITTEN
    rename(renamed, "Attic", NOW)
    rename(load(loaded.path), "Cellar", NOW + timedelta(days=1))
    names = sorted(path.name for path in kept.parent.glob("*.toml"))
    assert names == [
        "pantry.2026-11-25T10-05-00-2.toml",
        "pantry.2026-11-25T10-05-00.toml",
        "pantry.2026-11-26T10-05-00.toml",
    ]
    assert kept.read_text() == HAND_WRITTEN
    assert list_profiles(tmp_path) == [loaded.path]


@pytest.mark.skipif(os.name != "posix", reason="the permissions of other systems are not of this kind")
def test_a_private_file_stays_private(tmp_path: Path) -> None:
    path = write(tmp_path)
    path.chmod(0o600)
    saved = append(load(path), [note("for my eyes")])
    backup = back_up(path, saved.raw, NOW)
    away = archive(saved, tmp_path)
    assert [mode(file) for file in (backup, away)] == [0o600, 0o600]
    assert mode(unarchive(away, tmp_path)) == 0o600


def mode(path: Path) -> int:
    return path.stat().st_mode & 0o777


def test_a_backup_is_named_after_its_moment(tmp_path: Path) -> None:
    path = write(tmp_path)
    assert back_up(path, b"content", NOW).read_bytes() == b"content"


def test_renaming_keeps_what_was_saved_meanwhile(tmp_path: Path) -> None:
    mine = load(write(tmp_path))
    append(mine, [note("theirs")])
    renamed = rename(mine, "Larder", NOW)
    assert renamed.profile is not None
    assert renamed.profile.journal[-1] == note("theirs")


def test_the_same_name_again_changes_nothing(tmp_path: Path) -> None:
    loaded = load(write(tmp_path))
    assert rename(loaded, " Pantry ", NOW) == loaded
    assert not (tmp_path / "backups").exists()


@pytest.mark.parametrize("name", ["", "   ", "x" * 81])
def test_a_name_that_no_bin_can_have_is_refused(name: str, tmp_path: Path) -> None:
    loaded = load(write(tmp_path))
    with pytest.raises(NameRefused, match="1 to 80"):
        rename(loaded, name, NOW)
    with pytest.raises(NameRefused, match="1 to 80"):
        copy(loaded, tmp_path, name)
    assert loaded.path.read_text() == HAND_WRITTEN


@pytest.mark.parametrize(
    "text",
    [
        "format = 1\nbin.name = 'Pantry'\n",
        "format = 1\nbin = {name = 'Pantry', place = 'x'}\n",
        "format = 1\n[[journal]]\nat = 2026-03-01T10:00:00Z\nkind = 'note'\ntext = 'x'\n"
        "[bin]\nname = 'Pantry'\n",
        "format = 1\n[bin]\nplace = '''\n[[journal]]\n'''\nname = 'Pantry'\n",
    ],
)
def test_a_name_written_in_another_way_is_changed_too(text: str, tmp_path: Path) -> None:
    renamed = rename(load(write(tmp_path, text)), "Larder", NOW)
    assert renamed.raw.decode() in (text.replace("'Pantry'", '"Larder"'), text.replace("Pantry", "Larder"))


def test_a_broken_profile_is_neither_renamed_nor_copied(tmp_path: Path) -> None:
    loaded = load(write(tmp_path, HAND_WRITTEN + "\noops"))
    with pytest.raises(Unreadable, match="reading only"):
        rename(loaded, "Larder", NOW)
    with pytest.raises(Unreadable, match="cannot be copied"):
        copy(loaded, tmp_path, "Larder")
    assert [path.name for path in tmp_path.iterdir()] == ["pantry.toml"]


def test_a_copy_has_another_name_and_all_the_rest(tmp_path: Path) -> None:
    loaded = load(write(tmp_path))
    made = copy(loaded, tmp_path, "Second cellar")
    assert (made.key, shown_name(made)) == ("second-cellar", "Second cellar")
    assert made.profile is not None
    assert loaded.profile is not None
    assert made.profile.journal == loaded.profile.journal
    assert b"# as it says on the lid" in made.raw
    assert loaded.path.read_text() == HAND_WRITTEN
    with pytest.raises(NameRefused, match="already a bin called"):
        copy(loaded, tmp_path, "second cellar")
    assert copy(loaded, tmp_path, "Second  cellar!").key == "second-cellar-2"


def test_a_profile_put_away_can_be_brought_back(tmp_path: Path) -> None:
    loaded = load(write(tmp_path))
    away = archive(loaded, tmp_path)
    assert away == tmp_path / "archive" / "pantry.toml"
    assert list_profiles(tmp_path) == []
    assert list_archived(tmp_path) == [away]
    write(tmp_path, "the name is taken by now")
    back = unarchive(away, tmp_path)
    assert back == tmp_path / "pantry-2.toml"
    assert back.read_text() == HAND_WRITTEN
    assert list_archived(tmp_path) == []


def test_putting_away_never_overwrites_and_takes_a_broken_profile_too(tmp_path: Path) -> None:
    contents = [HAND_WRITTEN, "broken = ", ""]
    away = [archive(load(write(tmp_path, text)), tmp_path) for text in contents]
    assert [path.name for path in away] == ["pantry.toml", "pantry-2.toml", "pantry-3.toml"]
    assert [path.read_text() for path in away] == contents


def test_putting_away_what_is_gone_is_said(tmp_path: Path) -> None:
    loaded = load(write(tmp_path))
    loaded.path.unlink()
    with pytest.raises(NotFound, match=r"pantry\.toml was not moved: it is gone"):
        archive(loaded, tmp_path)
    assert not (tmp_path / "archive").exists()


def test_other_figures_are_changed_and_nothing_else(tmp_path: Path) -> None:
    text = HAND_WRITTEN
    changed = change(load(write(tmp_path, text)), {"places_beside": 3, "stands_m": 0.4}, NOW)
    assert changed.profile is not None
    assert (changed.profile.bin.places_beside, changed.profile.bin.stands_m) == (3, 0.4)
    assert load(changed.path) == changed
    new = ("places_beside", "stands_m")
    kept = [line for line in changed.raw.decode().splitlines() if not line.startswith(new)]
    assert kept == text.splitlines()
    assert len(list((tmp_path / BACKUPS).iterdir())) == 1
    assert change(changed, {"places_beside": 3}, NOW) == changed
    assert len(list((tmp_path / BACKUPS).iterdir())) == 1


def test_what_cannot_be_is_not_changed(tmp_path: Path) -> None:
    loaded = load(write(tmp_path, HAND_WRITTEN))
    with pytest.raises(NotSaved, match="Nothing was changed"):
        change(loaded, {"places_beside": 99}, NOW)
    assert loaded.path.read_bytes() == loaded.raw
