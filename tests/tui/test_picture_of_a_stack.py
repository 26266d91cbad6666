"""From a replayed stack to its picture: what is known is drawn, what nobody looked at stays unknown."""

from __future__ import annotations

import pytest

from tests.builders import a_usual_bin, entry, stack_of
from trayturn.tui.widgets.stack_drawing import picture_of


def test_the_usual_bin() -> None:
    picture = picture_of(stack_of(*a_usual_bin(), as_of=65), "B")
    assert [tray.id for tray in picture.trays] == ["C", "A", "B"]
    assert [tray.stage_word for tray in picture.trays] == ["bedding", "finishing", "feeding"]
    assert [tray.feed_next for tray in picture.trays] == [False, False, True]
    assert [tray.worms > 0 for tray in picture.trays] == [False, True, True]
    assert picture.trays[2].caption == "1 feeding, 500 g"
    assert picture.trays[0].caption == "shredded cardboard 500 g"
    assert all(0 < tray.fill <= 1 for tray in picture.trays)


def test_what_nobody_looked_at_is_unknown() -> None:
    picture = picture_of(stack_of(*a_usual_bin(), as_of=65), None)
    assert {tray.moisture for tray in picture.trays} == {None}
    assert (picture.sump_fill, picture.sump_words) == (None, "?")


def test_readings() -> None:
    checks = (
        entry("checked", 63, tray="B", moisture_pct=72.4, sump_l=1.5),
        entry("checked", 63, tray="A", feel="damp"),
    )
    picture = picture_of(stack_of(*a_usual_bin(), *checks, as_of=65), "B")
    fed, felt = picture.tray("B"), picture.tray("A")
    assert fed is not None
    assert felt is not None
    assert fed.moisture == pytest.approx(0.724)
    assert fed.moisture_words.endswith(" 72 %")
    assert felt.moisture_words == "damp"
    assert (picture.sump_fill, picture.sump_words) == (0.3, "1.5 l")


def test_a_separation() -> None:
    stack = stack_of(*a_usual_bin(), entry("separation_begun", 64, tray="A"), as_of=65)
    tray = picture_of(stack, None).top_first[0]
    assert (tray.id, tray.separating, tray.stage_word) == ("A", True, "separating")


def test_a_bin_without_worms_has_none_drawn() -> None:
    gone = (entry("worms_added", 62, worms_kg=0.4), entry("worms_removed", 63, worms_kg=0.4))
    picture = picture_of(stack_of(*a_usual_bin(), *gone, as_of=65), "B")
    assert {tray.worms for tray in picture.trays} == {0}
