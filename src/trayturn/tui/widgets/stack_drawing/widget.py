"""The stack drawing as a widget: colours from the theme, a selection by key and mouse."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from rich.color import Color
from rich.segment import Segment
from rich.style import Style
from textual import events
from textual.binding import Binding, BindingType
from textual.message import Message
from textual.reactive import reactive
from textual.strip import Strip
from textual.widget import Widget

from trayturn.tui.widgets.stack_drawing.canvas import Ink
from trayturn.tui.widgets.stack_drawing.geometry import Layout, lay_out
from trayturn.tui.widgets.stack_drawing.glyphs import ASCII, BLOCKS, PAINTS
from trayturn.tui.widgets.stack_drawing.paint import GROUND, draw
from trayturn.tui.widgets.stack_drawing.picture import StackPicture

PREFIX = "stack-drawing--"
KEPT = 20
ANSI_PAINTS = {
    "ground": "default",
    "text": "default",
    "muted": "default",
    "air": "default",
    "wall": "default",
    "chosen": "default",
    "lid": "green",
    "sheet": "yellow",
    "shreds": "yellow",
    "shreds-mark": "black",
    "soaked": "yellow",
    "soaked-mark": "black",
    "food": "green",
    "food-mark": "black",
    "food-bit": "bright_yellow",
    "food-leaf": "bright_green",
    "castings": "black",
    "castings-mark": "white",
    "worm": "bright_red",
    "worm-way": "red",
    "water": "cyan",
    "water-mark": "bright_white",
    "water-text": "default",
    "plate": "default",
    "plate-text": "default",
    "tag": "default",
    "tag-text": "default",
    "act": "yellow",
    "act-tag": "yellow",
    "act-tag-text": "black",
}


def _rules(colours: dict[str, str]) -> str:
    return "\n".join(f"& > .{PREFIX}{paint} {{ color: {colour}; }}" for paint, colour in colours.items())


class StackDrawing(Widget, can_focus=True):
    """A side view of a bin's stack of trays.

    | Component class | What it colours |
    | :- | :- |
    | `stack-drawing--NAME` | each NAME of `glyphs.PAINTS`, with what it is for; only `color` counts |
    """

    COMPONENT_CLASSES: ClassVar[set[str]] = {PREFIX + paint for paint in PAINTS}
    DEFAULT_CSS = f"""
    StackDrawing {{
        width: 1fr;
        height: 1fr;
        {_rules({paint: f"$stack-{paint}" for paint in PAINTS})}
        &:ansi {{
            {_rules({paint: f"ansi_{colour}" for paint, colour in ANSI_PAINTS.items()})}
        }}
    }}
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "go(1)", "Tray above", show=False, id="stack.above"),
        Binding("down", "go(-1)", "Tray below", show=False, id="stack.below"),
        Binding("enter", "open", "Open tray", show=False, id="stack.open"),
    ]
    """
    | Key(s) | Description |
    | :- | :- |
    | up | Select the tray above. |
    | down | Select the tray below. |
    | enter | Open the selected tray. |
    """
    ALLOW_SELECT = False

    picture: reactive[StackPicture] = reactive(StackPicture)
    selected: reactive[str | None] = reactive(None)
    ascii: reactive[bool] = reactive(False)

    @dataclass
    class Selected(Message):
        """The keeper moved the selection to another tray."""

        drawing: StackDrawing
        tray: str

        @property
        def control(self) -> StackDrawing:
            return self.drawing

    @dataclass
    class Opened(Message):
        """The keeper asked for more about a tray."""

        drawing: StackDrawing
        tray: str

        @property
        def control(self) -> StackDrawing:
            return self.drawing

    def __init__(
        self,
        picture: StackPicture | None = None,
        *,
        selected: str | None = None,
        ascii: bool = False,  # noqa: A002
        id: str | None = None,  # noqa: A002
        classes: str | None = None,
    ) -> None:
        super().__init__(id=id, classes=classes)
        self._drawn: dict[object, tuple[Layout, list[Strip]]] = {}
        self._styles_of: dict[Ink, Style] = {}
        self.set_reactive(StackDrawing.picture, picture or StackPicture())
        self.set_reactive(StackDrawing.selected, selected)
        self.set_reactive(StackDrawing.ascii, ascii)

    def show(self, picture: StackPicture) -> None:
        """Draws another picture, in ASCII if the app asks for that.

        The selection stays if it can; where the keeper can move it, it is never empty.
        """
        self.ascii = bool(getattr(self.app, "ascii", self.ascii))
        self.picture = picture
        if self.selected is None and self.can_focus:
            self.selected = self._first()

    def validate_selected(self, selected: str | None) -> str | None:
        """A tray that is not in the picture cannot be selected."""
        return selected if self.picture.tray(selected) else None

    def watch_picture(self) -> None:
        self.selected = self.validate_selected(self.selected)

    def action_go(self, levels: int) -> None:
        """Moves the selection up by that many trays; the first press finds the tray to feed, or the top."""
        ids = [tray.id for tray in self.picture.top_first]
        if self.selected is not None:
            self._select(ids[min(len(ids) - 1, max(0, ids.index(self.selected) - levels))])
        elif first := self._first():
            self._select(first)

    def _first(self) -> str | None:
        """The tray a keeper is likely to ask about first: the one to feed next, else the top one."""
        trays = self.picture.top_first
        return next((tray.id for tray in trays if tray.feed_next), trays[0].id if trays else None)

    def action_open(self) -> None:
        if self.selected is not None:
            self.post_message(self.Opened(self, self.selected))

    def on_click(self, event: events.Click) -> None:
        offset = event.get_content_offset(self)
        tray = self._drawing()[0].tray_at(offset.y) if offset else None
        if tray is not None:
            self._select(tray)

    def _select(self, tray: str) -> None:
        if tray != self.selected:
            self.selected = tray
            self.post_message(self.Selected(self, tray))

    def notify_style_update(self) -> None:
        self._drawn.clear()
        self._styles_of.clear()
        super().notify_style_update()

    def render_line(self, y: int) -> Strip:
        strips = self._drawing()[1]
        return strips[y] if y < len(strips) else Strip.blank(self.content_size.width, self._style(GROUND))

    def _drawing(self) -> tuple[Layout, list[Strip]]:
        """The layout and all rows, drawn once for a size, a picture, a selection and a theme.

        A few are kept, so that going up and down the trays draws nothing anew.
        """
        key = (self.content_size, self.picture, self.selected, self.ascii)
        if key not in self._drawn:
            if len(self._drawn) >= KEPT:
                self._drawn.clear()
            width, height = self.content_size
            layout = lay_out(self.picture, width, height, self.selected)
            canvas = draw(self.picture, layout, ASCII if self.ascii else BLOCKS, self.selected)
            rows = [
                Strip([Segment(text, self._style(ink)) for text, ink in canvas.runs(y)], width)
                for y in range(height)
            ]
            self._drawn[key] = layout, rows
        return self._drawn[key]

    def _style(self, ink: Ink) -> Style:
        if ink not in self._styles_of:
            fore, back = self._colour(ink.fore), self._colour(ink.back)
            # The terminal's own two colours have no names: a tag in them can only be asked for as reverse.
            reverse = ink.back == "tag" and back.is_default
            self._styles_of[ink] = Style(color=fore, bgcolor=back, bold=ink.bold, reverse=reverse)
        return self._styles_of[ink]

    def _colour(self, paint: str) -> Color:
        return self.get_component_styles(PREFIX + paint).color.rich_color
