"""The keeper's own ingredients in the file: read, told apart from slips, and never in the way of an entry."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.builders import noted
from tests.storage.files import rename
from trayturn.advice.ingredients import own_rows
from trayturn.storage.reading import load
from trayturn.storage.saving import append

HEAD = 'format = 1\n\n[bin]\nname = "Pantry"\n'
HOPS = (
    '\n[[ingredients]]\nname = "Spent hops"  # from the brewer\nmoisture_pct = 80\nn_pct = 4.0\nc_pct = 48\n'
)
NOTE = '\n[[journal]]\nat = 2026-03-01T10:00:00+01:00\nkind = "note"\ntext = "first"\n'


def written(folder: Path, text: str) -> Path:
    path = folder / "pantry.toml"
    path.write_text(text, encoding="utf-8")
    return path


@pytest.mark.parametrize("text", [HEAD + HOPS + NOTE, HEAD + NOTE + HOPS, HEAD + NOTE + HOPS + NOTE])
def test_they_are_read_wherever_they_stand_and_outlast_a_save(tmp_path: Path, text: str) -> None:
    loaded = load(written(tmp_path, text))
    saved = append(loaded, [noted("second", 2)])
    again = load(saved.path)
    assert again.problems == ()
    assert again.profile is not None
    assert [one.name for one in again.profile.ingredients] == ["Spent hops"]
    assert again.profile.journal[-1].kind == "note"
    assert again.raw.startswith(text.encode())
    [row] = own_rows(again.profile)
    assert (row.name, row.moisture, row.sure) == ("Spent hops", 0.8, "own")
    assert row.c_to_n == pytest.approx(12)


def test_a_new_name_for_the_bin_leaves_them_alone(tmp_path: Path) -> None:
    loaded = load(written(tmp_path, HEAD + HOPS + NOTE))
    renamed = rename(loaded, "Cellar", noted("x", 3).at)
    assert renamed.raw.decode() == (HEAD + HOPS + NOTE).replace('"Pantry"', '"Cellar"')


@pytest.mark.parametrize(
    ("slip", "line", "told"),
    [
        ("moisture_pct = 180", 7, "needs 100 or less"),
        ("c_pct = 75", 7, "needs 60 or less"),
        ("n_pct = 60\nc_pct = 55", None, "more than all of the solids"),
        ("moistre_pct = 80", 7, "did you mean moisture_pct?"),
        ('breakdown = "brisk"', 7, "needs one of"),
    ],
)
def test_impossible_rows_are_problems_with_their_place(
    tmp_path: Path, slip: str, line: int | None, told: str
) -> None:
    text = f'{HEAD}[[ingredients]]\nname = "Hops"\n{slip}\n'
    loaded = load(written(tmp_path, text))
    [problem] = loaded.problems
    assert told in problem.message
    assert problem.key.startswith("ingredients[1]")
    assert line is None or problem.line == line
    assert loaded.read_only


def test_a_file_from_before_has_none(tmp_path: Path) -> None:
    loaded = load(written(tmp_path, HEAD + NOTE))
    assert loaded.profile is not None
    assert loaded.profile.ingredients == ()
