"""The stack drawing: its layout at any size, its signs, its words, and how it answers keys and clicks."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise, product

import pytest
from rich.cells import cell_len

from tests.tui.pictures import FED, FINISHING, FOUR, MOVING, RESTING, DrawingApp, of
from trayturn.advice.reading import Texture
from trayturn.tui.widgets.stack_drawing import StackDrawing, StackPicture, TrayPicture
from trayturn.tui.widgets.stack_drawing.geometry import Layout, Part, lay_out
from trayturn.tui.widgets.stack_drawing.glyphs import ASCII, BLOCKS, Glyphs
from trayturn.tui.widgets.stack_drawing.paint import draw

PICTURES = [StackPicture(), of(1), of(3), FOUR, RESTING, MOVING, of(8)]
SIZES = list(product(range(1, 121), range(1, 61)))
FEW_SIZES = list(product((1, 2, 3, 5, 8, 11, 16, 24, 38, 60, 120), (1, 2, 4, 7, 8, 12, 18, 34, 40)))
ODD_TEXTS = [
    "[/",
    "[red]x[/red]",
    "{'a[0]'}",
    "a\x1b[31mb",
    "\u202egnirts",
    "厨房",
    "🪱🪱🪱",
    "e\u0301\u0301",
    "❤\ufe0f",
]


def text_of(picture: StackPicture, width: int, height: int, glyphs: Glyphs = BLOCKS, chosen: str = "") -> str:
    return draw(picture, lay_out(picture, width, height, chosen), glyphs, chosen).text()


def trays_of(layout: Layout) -> list[str]:
    return [band.tray.id for band in layout.bands if band.part is Part.TRAY and band.tray]


@pytest.mark.parametrize("picture", PICTURES, ids=lambda p: f"{len(p.trays)} trays")
def test_no_part_overflows_or_overlaps_at_any_size(picture: StackPicture) -> None:
    for width, height in SIZES:
        layout = lay_out(picture, width, height)
        columns = layout.columns
        assert 0 <= columns.left < columns.right <= columns.width == width
        assert all(band.top >= 0 and band.rows > 0 for band in layout.bands)
        assert all(upper.top + upper.rows == lower.top for upper, lower in pairwise(layout.bands))
        assert not layout.bands or layout.bands[-1].top + layout.bands[-1].rows == height


@pytest.mark.parametrize("picture", PICTURES, ids=lambda p: f"{len(p.trays)} trays")
@pytest.mark.parametrize("glyphs", [BLOCKS, ASCII], ids=["blocks", "ascii"])
def test_every_row_of_the_drawing_is_as_wide_as_asked(picture: StackPicture, glyphs: Glyphs) -> None:
    for width, height in FEW_SIZES:
        canvas = draw(picture, lay_out(picture, width, height), glyphs, "A")
        rows = ["".join(text for text, _ in canvas.runs(y)) for y in range(height)]
        assert [cell_len(row) for row in rows] == [width] * height


@pytest.mark.parametrize("picture", PICTURES[1:], ids=lambda p: f"{len(p.trays)} trays")
def test_every_tray_shows_its_name_where_there_is_a_row_for_it(picture: StackPicture) -> None:
    for width, height in FEW_SIZES:
        if width < 5 or height < len(picture.trays):
            continue
        layout = lay_out(picture, width, height)
        lines = draw(picture, layout, BLOCKS).text().split("\n")
        for band in layout.bands:
            if band.part is Part.TRAY and band.tray:
                assert band.tray.id in lines[band.label_row]


def test_level_one_is_the_lowest_and_all_trays_are_as_deep() -> None:
    layout = lay_out(FOUR, 38, 18)
    assert trays_of(layout) == ["A", "B", "C", "D"]
    assert len({band.rows for band in layout.bands if band.part is Part.TRAY}) == 1


def test_the_stack_stands_between_its_lid_and_its_feet() -> None:
    parts = [band.part for band in lay_out(FOUR, 38, 18).bands]
    assert parts == [Part.LID, *[Part.TRAY] * 4, Part.SUMP, Part.FEET]


def test_a_tray_being_separated_stands_on_top_with_a_gap_and_no_lid() -> None:
    layout = lay_out(RESTING, 60, 34)
    assert [band.part for band in layout.bands][:3] == [Part.TRAY, Part.GAP, Part.TRAY]
    assert trays_of(layout) == ["E", "A", "B", "C", "D"]


def test_a_tray_in_hand_is_drawn_above_the_rest_wherever_it_came_from() -> None:
    layout = lay_out(MOVING, 38, 18)
    assert trays_of(layout) == ["F", "B", "A", "C"]
    assert layout.bands[1].part is Part.GAP
    assert "in hand" in text_of(MOVING, 38, 18)


def test_in_too_few_rows_the_selected_tray_is_among_those_shown() -> None:
    for chosen in "1234567A":
        assert chosen in trays_of(lay_out(of(8), 24, 3, chosen))


def test_trays_grow_with_the_room_up_to_their_true_proportions() -> None:
    rows = {h: next(b.rows for b in lay_out(FOUR, 60, h).bands if b.tray) for h in (8, 18, 34, 60)}
    assert rows == {8: 1, 18: 3, 34: 7, 60: 8}


@pytest.mark.parametrize("glyphs", [BLOCKS, ASCII], ids=["blocks", "ascii"])
def test_every_sign_takes_one_cell(glyphs: Glyphs) -> None:
    plain = [getattr(glyphs, name) for name in Glyphs.__slots__ if name != "grain"]
    signs = [*"".join("".join(signs) for signs in plain)]
    signs += [sign for grain in glyphs.grain.values() for sign, _ in grain]
    assert [sign for sign in signs if cell_len(sign) != 1] == []


def test_each_texture_has_its_own_grain_in_both_forms() -> None:
    for glyphs in (BLOCKS, ASCII):
        assert set(glyphs.grain) == set(Texture)
        assert len(set(glyphs.grain.values())) == len(Texture)


def test_the_ascii_form_is_ascii_at_every_size() -> None:
    assert all(text_of(picture, *size, ASCII, "A").isascii() for picture in PICTURES for size in FEW_SIZES)


def test_the_same_picture_is_drawn_the_same_every_time() -> None:
    assert text_of(FOUR, 60, 34) == text_of(FOUR, 60, 34)


def test_small_form() -> None:
    assert text_of(FOUR, 24, 8, BLOCKS, "C").split("\n") == [
        " ▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀",
        " ▜ A  feeding ╱▇▛ ◀ feed",
        " ▜ B  finishing▆▛",
        "▶▜ C  bedding  ▅▛",
        " ▜ D  bedding ╱▃▛",
        " ▜  sump 1.6 l  ▛",
        "  ▌▆▆▆▆▆▆▆▆▆▆▆▆▐▄▖",
        "   ▜▛        ▜▛",
    ]


def test_ascii_form() -> None:
    assert text_of(of(2), 34, 11, ASCII, "1").split("\n") == [
        "  .-------[==]-------.",
        "  ====================",
        "  \\  A  feeding -----/ < feed next",
        "  |%/ *-oo -o-~~ ** #| wet 84 %",
        "   |%  -*oo~~ *\\~~ #|",
        '> \\  1  bedding ""-" /',
        "  |/   /\\/ ;;==; /  -| damp 60 %",
        "   |;/\\/    ;;\\;- ;#|",
        '  \\  sump 800 ml " " /',
        "   |................|=,",
        "    []            []",
    ]


def test_words_beside_the_stack_at_half_a_small_screen() -> None:
    text = text_of(FOUR, 38, 18, BLOCKS, "C")
    for words in ("◀ feed next", "wet 84 %", "moist 74 %", "feeding", "96 d", "finishing", "sump 1.6 l"):
        assert words in text
    marked = next(line for line in text.split("\n") if "▶" in line)
    assert " C  bedding" in marked


def test_moisture_nobody_felt_is_a_question_and_no_mark() -> None:
    unknown = StackPicture((replace(FED, moisture=None, moisture_words=""),))
    canvas = draw(unknown, lay_out(unknown, 38, 12), BLOCKS)
    assert "moisture ?" in canvas.text()
    layout = lay_out(unknown, 38, 12)
    tray = next(band for band in layout.bands if band.tray)
    runs = [run for y in range(tray.top, tray.top + tray.rows) for run in canvas.runs(y)]
    assert [text for text, ink in runs if ink.fore == "water" and text.strip()] == []


def test_worms_are_many_where_food_is_and_none_in_dry_shreds() -> None:
    def ticks(tray: TrayPicture) -> int:
        return text_of(StackPicture((tray,)), 60, 20).count("~")

    dry = replace(FED, texture=Texture.DRY_SHREDS)
    assert ticks(FED) > ticks(replace(FED, worms=2)) > ticks(replace(FED, worms=0)) == ticks(dry) == 0


def test_drops_fall_from_a_wet_tray_through_damp_ones_and_stop_in_a_dry_one() -> None:
    def sump_drips(under: float) -> bool:
        lower = replace(FINISHING, moisture=under)
        canvas = draw(picture := StackPicture((lower, FED), 0.1), lay_out(picture, 60, 34), BLOCKS)
        sump = next(band for band in lay_out(picture, 60, 34).bands if band.part is Part.SUMP)
        return any(BLOCKS.drop in canvas.signs[y] for y in range(sump.top, sump.top + sump.rows))

    assert sump_drips(0.9)
    assert sump_drips(0.7)
    assert not sump_drips(0.4)


@pytest.mark.parametrize("odd", ODD_TEXTS)
async def test_odd_names_and_words_are_drawn_as_they_are_and_keep_the_width(odd: str) -> None:
    tray = replace(FED, id=odd, stage_word=odd, moisture_words=odd, caption=odd)
    drawing = StackDrawing(StackPicture((tray,), 0.3, odd), selected=odd)
    async with DrawingApp(drawing).run_test(size=(60, 20)):
        strips = [drawing.render_line(y) for y in range(20)]
    text = "\n".join(strip.text for strip in strips)
    assert {strip.cell_length for strip in strips} == {60}
    assert "\x1b" not in text
    assert "\u202e" not in text
    if odd.isascii() and odd.isprintable():
        assert text.count(odd) == 5


@pytest.mark.parametrize("name", ["kitchen-top-1", "厨房厨房厨房厨房厨房厨房"])
def test_a_long_name_leaves_room_for_the_stage(name: str) -> None:
    assert "feed" in text_of(StackPicture((replace(FED, id=name),)), 38, 6)


async def test_arrows_move_the_selection_from_the_tray_to_feed() -> None:
    app = DrawingApp(StackDrawing(FOUR))
    async with app.run_test(size=(60, 24)) as pilot:
        app.drawing.focus()
        await pilot.press("up", "down", "down", "up", "enter")
    assert app.heard == ["selected A", "selected B", "selected C", "selected B", "opened B"]


async def test_the_selection_stays_on_the_stack() -> None:
    app = DrawingApp(StackDrawing(FOUR, selected="D"))
    async with app.run_test(size=(60, 24)) as pilot:
        app.drawing.focus()
        await pilot.press("down", "down")
        assert app.drawing.selected == "D"
    assert app.heard == []


async def test_a_click_selects_the_tray_under_it_and_elsewhere_nothing() -> None:
    app = DrawingApp(StackDrawing(FOUR))
    async with app.run_test(size=(38, 18)) as pilot:
        layout = lay_out(FOUR, 38, 18)
        row = next(band.top for band in layout.bands if band.tray and band.tray.id == "C")
        await pilot.click(StackDrawing, offset=(10, row))
        await pilot.click(StackDrawing, offset=(10, 17))
    assert app.heard == ["selected C"]


async def test_another_picture_keeps_the_selection_only_if_the_tray_is_in_it() -> None:
    app = DrawingApp(StackDrawing(FOUR, selected="B"))
    async with app.run_test(size=(60, 24)):
        app.drawing.show(RESTING)
        assert app.drawing.selected == "B"
        app.drawing.show(of(3))
        assert app.drawing.selected == "A"
        app.drawing.show(StackPicture())
        assert app.drawing.selected is None
    assert app.heard == []


async def test_the_drawing_follows_the_apps_wish_for_ascii() -> None:
    app = DrawingApp(StackDrawing(FOUR))
    async with app.run_test(size=(60, 24)):
        assert not app.drawing.render_line(23).text.isascii()
        app.ascii = True
        app.drawing.show(FOUR)
        assert app.drawing.render_line(23).text.isascii()


async def test_an_empty_picture_answers_keys_and_clicks_with_nothing() -> None:
    app = DrawingApp(StackDrawing())
    async with app.run_test(size=(38, 18)) as pilot:
        app.drawing.focus()
        await pilot.press("up", "down", "enter")
        await pilot.click(StackDrawing, offset=(10, 8))
    assert app.heard == []


async def test_a_new_size_draws_anew() -> None:
    app = DrawingApp(StackDrawing(FOUR))
    async with app.run_test(size=(60, 34)) as pilot:
        await pilot.resize_terminal(24, 8)
        await pilot.pause()
        assert [app.drawing.render_line(y).cell_length for y in range(8)] == [24] * 8
