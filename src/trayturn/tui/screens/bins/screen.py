"""Every profile, what is due in each, and what rests."""

from __future__ import annotations

from textwrap import wrap
from typing import TYPE_CHECKING, Any

from textual import on
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.widgets import Static

from trayturn.tui.commands import BINS, bindings
from trayturn.tui.frame import Frame
from trayturn.tui.screens.bins.rows import bin_row, by_press
from trayturn.tui.ways import go
from trayturn.tui.widgets.line_list import LineList
from trayturn.tui.widgets.title_row import TitleRow

if TYPE_CHECKING:
    from trayturn.domain.stack import Stack

EMPTY = (
    "No bins yet.",
    "",
    "Each bin you keep has a profile here:",
    "its trays, its journal, what is due.",
    "",
    "Space makes the first one.",
    "",
    "To look around first, leave with q and",
    "type:  trayturn demo",
)


class BinsScreen(Frame):
    """The bins on the left; the marked one drawn on the right."""

    PLACE = BINS
    BINDINGS = bindings(BINS)
    CSS_PATH = ["../../frame.tcss", "screen.tcss"]

    def __init__(self) -> None:
        super().__init__()
        self._moved = False

    def compose_body(self) -> ComposeResult:
        with Horizontal(classes="body"):
            yield LineList(row_height=0, id="bins")
            with Vertical(id="marked"):
                yield Static(id="sentence")

    def on_mount(self) -> None:
        self.query_one("#bins", LineList).focus()

    @property
    def list(self) -> LineList:
        return self.query_one("#bins", LineList)

    def show(self, key: str) -> None:
        """Draw every bin, the most pressing first; the mark stays where the keeper put it."""
        house = self.house
        paths = house.shelf.paths()
        self.list.empty = tuple(wrap(house.shelf.trouble, 36)) or (() if house.reading else EMPTY)
        stands = {path.stem: house.shelf.stack(path.stem) for path in paths}
        ranked = by_press(paths, house.shelf.loaded, stands)
        self.list.show(
            [bin_row(path, house.shelf.loaded.get(path.stem), stands[path.stem]) for path in ranked]
        )
        if not self._moved:
            self.list.mark_first()
        count = f"{len(paths)} bins" if len(paths) != 1 else "one bin"
        self.query_one(TitleRow).show("trayturn", count if paths else "")
        self._draw_marked()
        self.refresh_bindings()

    @on(LineList.Marked)
    def _mark_moved(self) -> None:
        self._moved = True
        self._draw_marked()
        self.refresh_bindings()

    @property
    def stack(self) -> Stack | None:
        key = self.list.marked_key
        return self.house.shelf.stack(key) if key else None

    def _draw_marked(self) -> None:
        stack = self.stack
        self.query_one("#marked").display = stack is not None
        if stack is None:
            return
        from trayturn.advice.feeding import feed_next
        from trayturn.advice.story import stack_sentence
        from trayturn.tui.widgets.stack_drawing import StackDrawing, picture_of

        if not (drawings := self.query(StackDrawing)):
            drawing = StackDrawing(id="drawing")
            drawing.can_focus = False
            self.query_one("#marked").mount(drawing, before=0)
        else:
            drawing = drawings.first()
        drawing.ascii = self.house.ascii
        drawing.picture = picture_of(stack, feed_next(stack).tray)
        self.query_one("#sentence", Static).update(Content(stack_sentence(stack)))

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """What needs a marked bin is dim without one."""
        if not self.is_mounted:
            return True
        key = self.list.marked_key
        if action == "open":
            return True if key else None
        if action == "undo":
            return True if self.house.written or self.house.archived else None
        if action == "archive":
            return True if key in self.house.shelf.loaded else None
        if action in ("ledgers", "founds"):
            return True if self.house.shelf.loaded else None
        if action in ("change", "copy", "split"):
            return True if self.stack is not None else None
        return True

    @on(LineList.Opened)
    def action_open(self) -> None:
        if key := self.list.marked_key:
            self.house.open_bin(key)

    def action_go_on(self) -> None:
        """Space: into the marked bin; without any, make the first one."""
        if self.list.marked_key:
            self.action_open()
        else:
            self.action_new()

    def action_new(self) -> None:
        from trayturn.tui.screens.bins.managing import make_bin

        make_bin(self.house)

    def action_change(self) -> None:
        self._manage("change_bin")

    def action_copy(self) -> None:
        self._manage("copy_bin")

    def action_split(self) -> None:
        from trayturn.tui.screens.stack.recording import worms

        worms(self.house, self.list.marked_key, "move")

    def action_archive(self) -> None:
        self._manage("archive_bin")

    def _manage(self, what: str) -> None:
        from trayturn.tui.screens.bins import managing

        work: Any = getattr(managing, what)
        work(self.house, self.list.marked_key)

    def action_past(self) -> None:
        go(self.house, "past", None)

    def action_ledgers(self) -> None:
        go(self.house, "ledger", None)

    def action_founds(self) -> None:
        go(self.house, "found", None)

    def action_due(self) -> None:
        go(self.house, "due", None)

    def action_undo(self) -> None:
        from trayturn.tui.screens.bins.managing import undo_last

        undo_last(self.house)
