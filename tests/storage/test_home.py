"""Where profiles live and what they are called."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.storage.files import HAND_WRITTEN, write
from tests.strategies import ODD_TEXTS
from trayturn.storage.errors import NameRefused, NotFound, StorageError
from trayturn.storage.home import COMMANDS, check_key, home_dir, key_for, list_profiles, profile_path, resolve


def test_the_home_is_the_one_asked_for_then_the_environment_then_the_platform(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("TRAYTURN_HOME", str(tmp_path / "environment"))
    assert home_dir(tmp_path / "asked") == tmp_path / "asked"
    assert home_dir() == tmp_path / "environment"
    monkeypatch.setenv("TRAYTURN_HOME", "")
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    monkeypatch.setenv("HOME", str(tmp_path))
    assert home_dir().name == "trayturn"
    assert tmp_path in home_dir().parents
    assert home_dir("~/bins") == tmp_path / "bins"
    assert list(tmp_path.iterdir()) == []


def test_looking_for_profiles_loads_no_validator() -> None:
    script = "import sys, trayturn.storage.home as home; home.home_dir(); print('pydantic' in sys.modules)"
    environment = {**os.environ, "PYTHONPATH": str(Path(__file__).parents[2] / "src")}
    said = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, env=environment, check=True
    )
    assert said.stdout == "False\n"


@pytest.mark.parametrize("key", ["pantry", "a", "7", "bin-2", "top_floor", "a" * 40, "cont", "newer"])
def test_a_plain_word_is_a_short_name(key: str, tmp_path: Path) -> None:
    assert check_key(key) == key
    assert profile_path(tmp_path, key) == tmp_path / f"{key}.toml"


REFUSED = [
    "",
    " ",
    "..",
    ".hidden",
    "-x",
    "_x",
    "a/b",
    "a\\b",
    "../up",
    "/etc",
    "a.b",
    "Pantry",
    "küche",
    "a b",
]
REFUSED += ["a" * 41, "a\n", "a\0", "con", "nul", "com1", "lpt9", *sorted(COMMANDS), *ODD_TEXTS]


@pytest.mark.parametrize("key", REFUSED, ids=range(len(REFUSED)))
def test_what_could_lead_astray_is_no_short_name(key: str, tmp_path: Path) -> None:
    with pytest.raises(NameRefused) as caught:
        profile_path(tmp_path, key)
    assert str(caught.value).isprintable()
    assert len(str(caught.value)) < 400


@pytest.mark.parametrize(
    ("name", "key"),
    [
        ("Pantry", "pantry"),
        ("Küche", "kuche"),
        ("Größe & Øst", "grosse-ost"),
        ("Under the stairs, left", "under-the-stairs-left"),
        ("厨房", "bin"),
        ("מטבח", "bin"),
        ("Verify", "verify-bin"),
        ("NUL", "nul-bin"),
        ("  --  ", "bin"),
        ("../../etc/passwd", "etc-passwd"),
        ("Bin №2 ½", "bin-no2-1-2"),
    ],
)
def test_a_shown_name_in_any_script_gives_a_short_name(name: str, key: str) -> None:
    assert key_for(name, []) == key


def test_a_short_name_that_is_taken_is_numbered() -> None:
    assert key_for("厨房", ["bin"]) == "bin-2"
    assert key_for("Küche", ["kuche", "Kuche-2"]) == "kuche-3"


@given(name=st.text(max_size=80) | st.sampled_from(ODD_TEXTS), taken=st.integers(0, 12))
def test_every_short_name_made_is_fit_and_free(name: str, taken: int) -> None:
    keys: list[str] = []
    for _ in range(taken + 1):
        keys.append(check_key(key_for(name, keys)))
    assert len(set(keys)) == len(keys)


def test_profiles_are_listed_sound_or_not_and_nothing_else(tmp_path: Path) -> None:
    assert list_profiles(tmp_path / "none yet") == []
    for name in ("b.toml", "a.toml", ".a.toml.lock", ".a.toml.12.tmp", ".hidden.toml", "notes.txt"):
        (tmp_path / name).write_text("not a profile")
    (tmp_path / "backups").mkdir()
    assert [path.name for path in list_profiles(tmp_path)] == ["a.toml", "b.toml"]


def test_a_home_that_cannot_be_opened_is_said(tmp_path: Path) -> None:
    file = tmp_path / "file"
    file.touch()
    with pytest.raises(StorageError, match="cannot be opened: not a directory"):
        list_profiles(file)


def test_a_bin_is_found_by_short_name_path_and_shown_name(tmp_path: Path) -> None:
    path = write(tmp_path)
    other = write(tmp_path, HAND_WRITTEN.replace("Pantry", "Küche 厨房"), "kuche")
    write(tmp_path, "broken = ", "broken")
    assert resolve(tmp_path, "pantry") == path
    assert resolve(tmp_path, str(path)) == path
    assert resolve(tmp_path / "elsewhere", str(other)) == other
    assert resolve(tmp_path, "PANTRY ") == path
    assert resolve(tmp_path, "Ku\u0308che 厨房") == other
    assert resolve(tmp_path, "broken") == tmp_path / "broken.toml"


def test_a_bin_that_is_not_there_names_the_nearest(tmp_path: Path) -> None:
    with pytest.raises(NotFound, match="trayturn new NAME"):
        resolve(tmp_path, "pantry")
    write(tmp_path)
    with pytest.raises(NotFound, match="Did you mean 'pantry'"):
        resolve(tmp_path, "pantyr")
    with pytest.raises(NotFound, match="trayturn bins"):
        resolve(tmp_path, "zzzz")
    with pytest.raises(NotFound, match="There is no file"):
        resolve(tmp_path, "gone/pantry.toml")


@pytest.mark.parametrize("header", ["[[journal]]", "  [[ journal ]]"])
@pytest.mark.parametrize("newline", ["\n", "\r\n"])
def test_a_shown_name_is_found_whatever_the_journal_is_like(
    header: str, newline: str, tmp_path: Path
) -> None:
    entry = 'at = 2026-03-01T10:00:00Z\nkind = "note"\ntext = "fine"\n'
    text = 'format = 1\n[bin]\nname = "Küche oben"\n\n' + f"{header}\n{entry}" * 2000
    path = write(tmp_path, text.replace("\n", newline))
    assert resolve(tmp_path, "küche OBEN") == path


def test_two_bins_of_one_shown_name_are_told_apart_by_short_name(tmp_path: Path) -> None:
    write(tmp_path, name="left")
    write(tmp_path, name="right")
    with pytest.raises(NotFound, match="left or right"):
        resolve(tmp_path, "Pantry")


@pytest.mark.parametrize(
    "words",
    ["", ".", "..", "a\0b.toml", "~nobody-here/a.toml", *ODD_TEXTS],
    ids=lambda words: repr(words)[:20],
)
def test_odd_words_never_do_more_than_find_nothing(words: str, tmp_path: Path) -> None:
    write(tmp_path)
    with pytest.raises(NotFound, match=r"no bin called|no file") as caught:
        resolve(tmp_path, words)
    assert str(caught.value).isprintable()
