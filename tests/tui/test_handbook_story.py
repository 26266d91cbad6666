"""The handbook at the bin: found in a few keys, opened at what is marked, and left the way one came."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.tui.stories import Keeper, heeded, keeper, samples
from trayturn.advice.cautions import cautions_for
from trayturn.advice.handbook import article, articles
from trayturn.advice.links import page_for, page_of_entry
from trayturn.advice.pages import Page
from trayturn.domain.entries import CautionsRead
from trayturn.domain.setup import Units
from trayturn.tui.screens.handbook.find_line import FindLine
from trayturn.tui.screens.handbook.page_view import PageView, lines, see_also
from trayturn.tui.screens.handbook.screen import HandbookScreen
from trayturn.tui.themes import STRAW
from trayturn.tui.widgets.line_list import LineList

TITLES = {one.page: one.title for one in articles()}
HOW_MANY = f"{len(Page)} pages"


def reads_page(k: Keeper, page: Page) -> bool:
    """Whether the handbook lies open at that page."""
    return k.screen == "Handbook" and k.title.strip().endswith(TITLES[page])


async def test_a_keeper_with_flies_finds_the_answer_in_a_few_keys(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path)) as k:
        await k.press("h")
        k.sees("Handbook", HOW_MANY, "Troubles: where to look", "Stop feeding, look")
        await k.press("tab")
        await k.type("flies")
        k.sees("4 pages found", "Small life and pests")
        k.sees_no("Lifting trays")
        await k.press("enter")
        assert reads_page(k, Page.PESTS)
        k.sees("fruit flies", "bury it; wash or", "vinegar")
        await k.press("escape")
        k.sees("4 pages found")
        await k.press("escape")
        assert k.screen == "Bins"


async def test_letters_typed_to_search_are_no_commands(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path)) as k:
        await k.press("h", "tab", *"qzx?qz/ qq")
        assert k.app.screen.query_one(FindLine).value == "qzx?qz/ qq"
        assert k.screen == "Handbook"
        k.sees("No page has these words", "0 pages found")
        await k.press("escape")
        k.sees(HOW_MANY)
        await k.press("q")
        assert k.app.return_code == 0


async def test_arrows_move_the_mark_while_words_are_typed(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path)) as k:
        await k.press("h", "tab", *"wet", "down", "down", "up", "enter")
        assert k.screen == "Handbook"
        second = k.app.screen.query_one("#pages", LineList).rows[1].key
        assert reads_page(k, Page(second))


async def test_enter_opens_and_escape_goes_back_step_by_step(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path)) as k:
        await k.press("h", "down", "enter")
        assert reads_page(k, Page.FEEDING)
        await k.press("2")
        see = article(Page.FEEDING).see[1]
        assert reads_page(k, see)
        await k.press("9")
        assert reads_page(k, see)
        await k.press("escape")
        assert reads_page(k, Page.FEEDING)
        await k.press("enter", "escape")
        k.sees(HOW_MANY)
        assert k.app.screen.query_one("#pages", LineList).marked_key == Page.FEEDING
        await k.press("escape")
        assert k.screen == "Bins"


async def test_h_on_a_page_shows_them_all_and_tab_searches(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path)) as k:
        await k.press("h", "down", "enter", "1", "h")
        k.sees(HOW_MANY)
        await k.press("enter", "tab", *"ammonia", "enter")
        assert reads_page(k, Page.SMELLS)
        await k.press("h", "escape")
        assert k.screen == "Bins"


async def test_a_long_page_scrolls_with_gloves_on(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path)) as k:
        await k.press("h", "enter")
        k.sees("Stop feeding, look, smell, squeeze.")
        k.sees_no("1 Smells")
        await k.press("space", "space", "space")
        k.sees("See also  1 Smells")
        await k.press("home")
        k.sees("Stop feeding, look, smell, squeeze.")
        await k.press("down", "down")
        k.sees_no("Stop feeding, look, smell, squeeze.")


async def test_a_wide_window_has_list_and_page_side_by_side(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path), size=(120, 40)) as k:
        await k.press("h", "down")
        k.sees(HOW_MANY, "Lifting trays", "How sure", "household norm")
        await k.press("down")
        k.sees("Limit or leave out", "meat, fish, dairy, fat")
        assert k.footer_fits
        await k.press("enter")
        assert reads_page(k, Page.MEALS)
        k.sees("Lifting trays")
        await k.resize(80, 24)
        k.sees_no("Lifting trays")
        k.sees("Vegetable and fruit trimmings")
        await k.press("escape")
        k.sees(HOW_MANY, "Vegetable and fruit trimmings")
        await k.resize(120, 40)
        k.sees("Limit or leave out")


async def test_a_reason_leads_to_its_page_and_back(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path), "pantry") as k:
        await k.press("tab", "enter")
        k.sees("h opens the handbook at it")
        await k.press("h")
        due = k.app.screen_stack[-2].due[0]  # type: ignore[attr-defined]
        assert reads_page(k, due.page)
        await k.press("escape")
        assert k.screen == "Stack"


async def test_the_stack_opens_the_page_of_what_is_marked(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path), "pantry") as k:
        marked = k.app.screen.marked_page  # type: ignore[attr-defined]
        await k.press("h")
        assert reads_page(k, marked)
        await k.press("escape", "enter")
        assert k.screen == "Reason"
        k.sees("h opens the handbook at it")
        await k.press("h")
        assert reads_page(k, marked)
        await k.press("escape", "tab", "h")
        assert reads_page(k, k.app.screen_stack[-2].due[0].page)  # type: ignore[attr-defined]


async def test_cautions_lead_to_their_pages_and_keep_their_ticks(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path, "pantry"), "pantry") as k:
        await k.press("f")
        assert k.screen == "CautionsSheet"
        first, second = cautions_for("feeding")[:2]
        k.sees("h opens the handbook")
        await k.press("h")
        assert reads_page(k, page_for(first.code) or Page.CAUTIONS)
        await k.press("escape", "space")
        assert k.screen == "CautionsSheet"
        await k.press("h")
        assert reads_page(k, page_for(second.code) or Page.CAUTIONS)
        await k.press("escape", "enter", "h")
        assert reads_page(k, page_for(second.code) or Page.CAUTIONS)
        await k.press("escape")
        k.sees("[✓]", "[ ]")
        await k.heed()
        assert any(isinstance(entry, CautionsRead) for entry in k.standing("pantry"))


async def test_the_list_of_cautions_leads_to_the_page_of_the_marked_one(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path)) as k:
        await k.press("c", "h")
        assert reads_page(k, Page.GRIT)
        await k.press("escape", "end", "enter")
        k.sees("h opens the handbook at it")
        await k.press("h")
        assert reads_page(k, Page.CASTINGS)
        await k.press("escape")
        assert k.screen == "Cautions"


async def test_a_turn_a_separation_and_an_entry_lead_to_their_pages(tmp_path: Path) -> None:
    async with keeper(heeded(tmp_path), "workshop") as k:
        await k.press("t")
        await k.press("h")
        assert reads_page(k, Page.TURNING)
        await k.press("escape")
        assert k.screen == "Plan"
        await k.press("escape", "s", "h")
        assert reads_page(k, Page.SEPARATING)
        await k.press("escape")
        assert k.screen == "Separation"
        await k.press("escape", "j")
        newest = k.app.screen._chosen  # type: ignore[attr-defined]
        await k.press("h")
        page = page_of_entry(next(iter(newest.values()))[1].kind)
        assert page is not None
        assert reads_page(k, page)


async def test_putting_right_supplies_a_meal_and_a_check_lead_to_their_pages(tmp_path: Path) -> None:
    async with keeper(heeded(tmp_path), "pantry") as k:
        await k.press("p", "h")
        assert reads_page(k, Page.SUPPLIES)
        await k.press("escape", "escape", "o", "h")
        assert reads_page(k, Page.TROUBLES)
        await k.press("escape", "space", "enter")
        cause = k.app.screen.marked.cause  # type: ignore[attr-defined]
        await k.press("h")
        assert reads_page(k, cause.page)
        await k.press("escape", "escape", "f")
        assert k.screen == "Feed"
        await k.press("h")
        assert reads_page(k, Page.MEALS)
        await k.press("escape", "tab")
        page = k.app.screen.marked_page  # type: ignore[attr-defined]
        await k.press("enter", "h")
        assert reads_page(k, page)
        await k.press("escape", "escape", "k", "h")
        assert k.screen == "Handbook"


async def test_a_rest_is_seen_over_the_handbook_and_hushed_from_it(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path), "workshop") as k:
        await k.press("h")
        k.sees("rest 07:00 left")
        await k.wait(minutes=8)
        k.sees("rest over")
        await k.press("m")
        assert k.app._hushed


async def test_figures_are_in_the_units_of_the_bin_beneath(tmp_path: Path) -> None:
    home = samples(tmp_path)
    for bin, seen, other in (("school", "59 to 68 °F", "°C"), ("pantry", "15 to 20 °C", "°F")):  # noqa: A001
        async with keeper(home, bin) as k:
            await k.press("h", "h", "tab", *"temperature", "enter")
            k.sees(seen)
            k.sees_no(other)


async def test_the_palette_and_help_tell_of_it(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path)) as k:
        assert "Handbook" in {command.title for command in k.app.get_system_commands(k.app.screen)}
        await k.press("h", "question_mark")
        k.sees("Keys on this screen: handbook", "Tab", "Type words to find a page by")


@pytest.mark.parametrize("theme", ["dark", "light"])
async def test_every_page_is_drawn_whole(tmp_path: Path, theme: str) -> None:
    async with keeper(samples(tmp_path, "pantry"), size=(80, 60), theme=theme) as k:
        for page in Page:
            k.app.push_screen(HandbookScreen(page))
            await k.pause()
            assert reads_page(k, page)
            drawn = k.picture
            for line in lines(article(page), Units.METRIC, 77):
                assert line.text in drawn, (page, line.text)
            assert k.footer_fits
            assert len(k.app.screen.query("*")) <= 60
            await k.press("escape")


async def test_another_theme_and_another_width_leave_nothing_of_the_old(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path), size=(160, 40)) as k:
        await k.press("h", "enter")
        view = k.app.screen.query_one(PageView)
        before = view.render_line(5)
        k.app.theme = STRAW.name
        await k.pause()
        after = view.render_line(5)
        assert after.text == before.text
        assert [segment.style for segment in after] != [segment.style for segment in before]
        await k.resize(140, 40)
        assert view.render_line(5).cell_length == view.scrollable_content_region.width


async def test_with_letters_only_no_sign_is_left(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path), ascii=True, size=(80, 60)) as k:
        await k.press("h", "tab", *"temperature", "enter")
        k.sees("15 to 20  C")
        assert k.picture.isascii()


async def test_in_a_small_window_it_says_what_it_needs(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path)) as k:
        await k.press("h", "enter")
        await k.resize(50, 12)
        k.sees("trayturn needs a window of 60 by 18")
        await k.resize(60, 18)
        assert reads_page(k, Page.TROUBLES)
        k.sees("Stop feeding, look, smell, squeeze.")


async def test_the_text_of_a_page_can_be_marked_with_the_mouse(tmp_path: Path) -> None:
    async with keeper(samples(tmp_path)) as k:
        await k.press("h", "enter", "down")
        first, second = lines(article(Page.TROUBLES), Units.METRIC, 77)[1:3]
        await k.pilot.mouse_down(PageView, (4, 0))
        await k.pilot.hover(PageView, (9, 2))
        await k.pilot.mouse_up(PageView, (9, 2))
        third = lines(article(Page.TROUBLES), Units.METRIC, 77)[3]
        assert k.app.screen.get_selected_text() == f"{first.text[3:]}\n {second.text}\n {third.text[:9]}"
        k.sees(first.text, third.text)


def test_what_to_see_also_breaks_no_name() -> None:
    for width in (50, 76):
        for page in Page:
            told = see_also(article(page).see, width)
            assert all(len(line.text) <= width for line in told)
            joined = " ".join(line.text for line in told)
            assert all(TITLES[see] in joined for see in article(page).see)
    assert see_also((), 50) == []
