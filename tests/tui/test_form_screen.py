"""The form screen: what is asked, what is said, and that nothing typed is lost."""

from pathlib import Path
from typing import Any

import pytest
from textual.screen import Screen
from textual.widgets import Input

from tests.builders import a_usual_bin, stack_of
from tests.tui.house import NOW, ODD_TEXTS, SIZES, drawn, opened, shown, type_in
from trayturn.domain.entries import Checked, Fed, Feel, Note
from trayturn.domain.setup import BinSetup
from trayturn.domain.words import clean
from trayturn.tui.screens.forms import definitions as forms
from trayturn.tui.screens.forms.form import Form
from trayturn.tui.screens.forms.pick_row import PickRow
from trayturn.tui.screens.forms.screen import FormScreen

STACK = stack_of(*a_usual_bin(), as_of=70, trays="ABC")


class Desk:
    """Takes what a form built; `trouble` is what saving says."""

    def __init__(self, trouble: str | None = None) -> None:
        self.trouble, self.saved = trouble, list[Any]()

    def save(self, built: Any) -> str | None:
        if self.trouble is None:
            self.saved.append(built)
        return self.trouble


def asked(form: Form, desk: Desk) -> FormScreen:
    return FormScreen(form, desk.save)


EVERY = [
    forms.check_form(STACK),
    forms.feed_form(STACK),
    forms.new_bin_form(),
    forms.start_form(STACK),
    forms.worms_form(STACK),
    forms.worms_form(STACK, {"shed": STACK}, "move"),
    forms.supplies_form(STACK),
]


@pytest.mark.parametrize("size", SIZES)
async def test_every_question_is_in_sight(tmp_path: Path, size: tuple[int, int]) -> None:
    async with opened(tmp_path, Screen(), size) as (app, pilot):
        for form in EVERY:
            await app.push_screen(asked(form, Desk()))
            await pilot.pause()
            picture = drawn(app)
            asked_now = [f for f in form.fields if not f.more and form.is_asked(f, {})]
            assert [f.label for f in asked_now if f.label not in picture] == []
            assert [f.label for f in form.fields if f.more and f.label in picture] == []
            assert "ctrl+s saves" in picture
            assert len(app.screen.query("*")) <= 60


async def test_a_feeding_is_written_by_keyboard_alone(tmp_path: Path) -> None:
    desk = Desk()
    async with opened(tmp_path, asked(forms.feed_form(STACK), desk)) as (app, pilot):
        await pilot.press("3", "tab")
        await type_in(app, pilot, "cabbage 500 g")
        await pilot.press(*["enter"] * 5)
        assert not isinstance(app.screen, FormScreen)
    assert desk.saved == [[Fed(at=NOW, tray="C", items_kg={"cabbage": 0.5})]]


async def test_picks_are_stepped_and_moved_between_with_arrows(tmp_path: Path) -> None:
    desk = Desk()
    async with opened(tmp_path, asked(forms.check_form(STACK), desk)) as (_, pilot):
        await pilot.press("0", "down", "right", "right", "up", "down", "ctrl+s")
    assert desk.saved == [[Checked(at=NOW, feel=Feel.DAMP)]]


async def test_a_slip_is_told_beside_its_field_when_it_is_left(tmp_path: Path) -> None:
    async with opened(tmp_path, asked(forms.check_form(STACK), Desk())) as (app, pilot):
        app.screen.query_one("#field-moisture_pct").focus()
        await type_in(app, pilot, "wet")
        await pilot.press("tab")
        assert shown(app, "#wrong-moisture_pct") == "! 'wet' is not a percentage, such as 70."
        assert "not a percentage" in drawn(app)
        await pilot.press("shift+tab", "ctrl+u", "7", "0")
        assert shown(app, "#wrong-moisture_pct") == ""


async def test_saving_with_a_slip_leads_back_to_it_and_loses_nothing(tmp_path: Path) -> None:
    desk = Desk()
    async with opened(tmp_path, asked(forms.check_form(STACK), desk)) as (app, pilot):
        app.screen.query_one("#field-moisture_pct", Input).value = "wet"
        app.screen.query_one("#field-temperature_c", Input).value = "18"
        await pilot.press("ctrl+s")
        assert app.focused is app.screen.query_one("#field-moisture_pct")
        assert (app.screen.query_one("#field-temperature_c", Input).value, desk.saved) == ("18", [])
        assert "Not saved yet" in shown(app, "#trouble")


async def test_a_form_with_nothing_in_it_says_so(tmp_path: Path) -> None:
    desk = Desk()
    async with opened(tmp_path, asked(forms.feed_form(STACK), desk)) as (app, pilot):
        await pilot.press("ctrl+s")
        assert "fill in scraps, bedding or grit" in shown(app, "#trouble")
    assert desk.saved == []


async def test_trouble_on_saving_keeps_the_form_to_be_tried_again(tmp_path: Path) -> None:
    desk = Desk("The disk is full, so nothing was saved.")
    async with opened(tmp_path, asked(forms.note_form(STACK), desk)) as (app, pilot):
        await type_in(app, pilot, "frost")
        await pilot.press("ctrl+s")
        assert shown(app, "#trouble") == desk.trouble
        assert app.screen.query_one("#field-text", Input).value == "frost"
        desk.trouble = None
        await pilot.press("ctrl+s")
        assert not isinstance(app.screen, FormScreen)
    assert desk.saved == [[Note(at=NOW, text="frost")]]


async def test_the_answer_of_the_form_tells_whether_it_was_saved(tmp_path: Path) -> None:
    answers: list[bool | None] = []
    async with opened(tmp_path, asked(forms.note_form(STACK), Desk())) as (app, pilot):
        await pilot.press("escape")
        for keys in (["escape"], ["x", "ctrl+s"]):
            await app.push_screen(asked(forms.note_form(STACK), Desk()), answers.append)
            await pilot.pause()
            await pilot.press(*keys)
    assert answers == [False, True]


async def test_one_slip_of_a_finger_does_not_throw_away_what_was_typed(tmp_path: Path) -> None:
    async with opened(tmp_path, asked(forms.note_form(STACK), Desk())) as (app, pilot):
        await type_in(app, pilot, "frost")
        await pilot.press("escape")
        assert "Esc once more" in shown(app, "#trouble")
        await pilot.press("escape")
        assert not isinstance(app.screen, FormScreen)


async def test_more_questions_open_behind_the_form_and_keep_what_stands(tmp_path: Path) -> None:
    desk = Desk()
    async with opened(tmp_path, asked(forms.new_bin_form(), desk)) as (app, pilot):
        await type_in(app, pilot, "Shed")
        await pilot.click("#more")
        await pilot.pause()
        assert app.focused is app.screen.query_one("#field-days_between_feedings")
        await pilot.press(*"10", "ctrl+s")
    assert (desk.saved[0].setup.name, desk.saved[0].setup.days_between_feedings) == ("Shed", 10)


async def test_a_click_picks_and_the_button_saves(tmp_path: Path) -> None:
    desk = Desk()
    async with opened(tmp_path, asked(forms.check_form(STACK), desk)) as (app, pilot):
        await pilot.click("#field-strays", offset=(25, 0))
        assert app.screen.query_one("#field-strays", PickRow).value == "few"
        await pilot.click("#save")
    assert desk.saved[0][0].strays == "few"


async def test_any_text_is_taken_as_it_is(tmp_path: Path) -> None:
    desk = Desk()
    async with opened(tmp_path, Screen()) as (app, pilot):
        for text in ODD_TEXTS:
            await app.push_screen(asked(forms.note_form(STACK), desk))
            await pilot.pause()
            await type_in(app, pilot, text)
            await pilot.press("ctrl+s")
    assert [entries[0].text for entries in desk.saved] == list(ODD_TEXTS)


async def test_every_sign_of_the_keyboard_can_be_typed(tmp_path: Path) -> None:
    desk = Desk()
    async with opened(tmp_path, asked(forms.note_form(STACK), desk)) as (_, pilot):
        await pilot.press(*"q?m[/]", "ctrl+s")
    assert [entries[0].text for entries in desk.saved] == ["q?m[/]"]


async def test_pasted_lines_are_joined_and_none_is_lost(tmp_path: Path) -> None:
    desk = Desk()
    async with opened(tmp_path, asked(forms.note_form(STACK), desk)) as (app, pilot):
        await type_in(app, pilot, "one\r\ntwo\n\x1b[31mthree\x07")
        await pilot.press("ctrl+s")
    assert desk.saved[0][0].text == "one two [31mthree"


async def test_odd_names_are_drawn_as_they_are(tmp_path: Path) -> None:
    async with opened(tmp_path, Screen()) as (app, pilot):
        for text in ODD_TEXTS:
            await app.push_screen(asked(forms.change_form(BinSetup(name=text[:80])), Desk()))
            await pilot.pause()
            assert shown(app, "#sheet-title") == f"Change {clean(text[:80])}"
            assert app.screen.query_one("#field-name", Input).value == text[:80]


async def test_the_cursor_does_not_blink(tmp_path: Path) -> None:
    async with opened(tmp_path, asked(forms.feed_form(STACK), Desk())) as (app, _):
        assert not any(line.cursor_blink for line in app.screen.query(Input))
