"""Sheets over a screen: reasons, one question, and help; and the rest that runs meanwhile."""

from pathlib import Path

import pytest
from textual.screen import Screen

from tests.builders import a_usual_bin, entry, moment
from tests.tui.house import ODD_TEXTS, SIZES, a_home, drawn, opened, shown
from trayturn.domain.words import clean
from trayturn.tui.commands import COMMANDS, EVERYWHERE, commands_of
from trayturn.tui.screens.help import HelpScreen, everywhere, key_words
from trayturn.tui.widgets.line_input import one_line
from trayturn.tui.widgets.reason import ReasonScreen
from trayturn.tui.widgets.type_in import TypeIn


async def test_a_reason_is_read_and_closed_by_any_likely_key(tmp_path: Path) -> None:
    async with opened(tmp_path, Screen()) as (app, pilot):
        for key in ("escape", "enter", "space", "q"):
            await app.push_screen(ReasonScreen("Why", ["Because.", "", "Source: a book"]))
            await pilot.pause()
            assert "Because." in drawn(app)
            await pilot.press(key)
            assert not isinstance(app.screen, ReasonScreen)


async def test_a_long_reason_scrolls(tmp_path: Path) -> None:
    lines = [f"line {n}" for n in range(60)]
    async with opened(tmp_path, ReasonScreen("Why", lines)) as (app, pilot):
        assert "line 59" not in drawn(app)
        await pilot.press(*["pagedown"] * 6)
        assert "line 59" in drawn(app)
        await pilot.press(*["up"] * 2)
        assert "line 59" not in drawn(app)


async def test_a_reason_draws_any_text(tmp_path: Path) -> None:
    async with opened(tmp_path, Screen()) as (app, pilot):
        for text in ODD_TEXTS:
            await app.push_screen(ReasonScreen(text, [text, "last"]))
            await pilot.pause()
            assert shown(app, "#reason") == f"{clean(text)}\nlast"


def wrong(text: str) -> str | None:
    return None if text == "1 kg" else f"{text!r} is not right."


async def test_a_question_keeps_what_was_typed_until_it_is_right(tmp_path: Path) -> None:
    answers: list[str | None] = []
    async with opened(tmp_path, Screen()) as (app, pilot):
        await app.push_screen(TypeIn("How much?", "1", "such as 1 kg", wrong), answers.append)
        await pilot.pause()
        await pilot.press(*"[/", "enter")
        assert shown(app, "#wrong") == "'1[/' is not right."
        await pilot.press("backspace", "backspace", *" kg")
        assert shown(app, "#wrong") == ""
        await pilot.press("enter")
    assert answers == ["1 kg"]


async def test_a_question_can_be_left(tmp_path: Path) -> None:
    answers: list[str | None] = []
    async with opened(tmp_path, Screen()) as (app, pilot):
        await app.push_screen(TypeIn("How much?", "1 kg"), answers.append)
        await pilot.pause()
        await pilot.press("escape")
    assert answers == [None]


def test_a_paste_is_one_line_without_control_characters() -> None:
    assert one_line("a\tb\nc\r\nd\x00\x1b[0m") == "a b c d[0m"


@pytest.mark.parametrize("size", SIZES)
async def test_help_tells_every_key_of_every_screen(tmp_path: Path, size: tuple[int, int]) -> None:
    async with opened(tmp_path, Screen(), size) as (app, pilot):
        for place in EVERYWHERE:
            commands = list(commands_of(place))
            await app.push_screen(HelpScreen(place, commands))
            await pilot.pause()
            told = shown(app, "#keys").splitlines()
            assert [line.split("  ")[-1].strip() for line in told] == [command.help for command in commands]
            assert max(map(len, told)) <= app.screen.query_one("#keys").size.width
            assert str(tmp_path) in shown(app, "#everywhere")
            await pilot.press("question_mark")
            assert not isinstance(app.screen, HelpScreen)


def test_keys_are_named_as_they_are_printed() -> None:
    named = {command.id: key_words(command) for command in COMMANDS}
    assert (named["help"], named["leave"], named["feed"], named["more"]) == (
        "? or F1",
        "Esc",
        "f",
        "+ or Right",
    )


def test_what_holds_everywhere_is_three_lines(tmp_path: Path) -> None:
    assert len(everywhere(tmp_path)) == 3


async def test_a_running_rest_is_seen_on_a_sheet_and_hushed_from_it(tmp_path: Path) -> None:
    began = entry("separation_begun", 70, tray="A")
    rest = entry("step_started", 70, tray="A", step="rest", pass_number=1, ends_at=moment(70, 10, 15))
    home = a_home(tmp_path / "home", (*a_usual_bin(), began, rest))
    async with opened(home, ReasonScreen("Why", ["Because."]), now=moment(70, 10, 20)) as (app, pilot):
        assert "rest over for 5 min" in shown(app, "RestBar")
        await pilot.press("m")
        assert isinstance(app.screen, ReasonScreen)
        assert app._hushed == {app.rests[0].mark}


@pytest.mark.parametrize("place", sorted(EVERYWHERE))
async def test_help_is_headed_by_words_and_no_name_of_the_program(tmp_path: Path, place: str) -> None:
    async with opened(tmp_path, HelpScreen(place, [])) as (app, _):
        heading = drawn(app).split("Keys on this screen: ")[1].splitlines()[0].strip()
        assert heading
        assert "_" not in heading
