"""The ledger: castings against what went in, turn by turn and in sums, of one bin or of all."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from textual import on
from textual.app import ComposeResult
from textual.containers import Container, Vertical
from textual.content import Content
from textual.message import Message
from textual.widgets import Static
from textual.worker import Worker, WorkerState, get_current_worker

from trayturn.advice.ledger.books import Forecasts, Ledger, Totals, in_all, ledger_of
from trayturn.advice.ledger.sums import (
    NO_FORECASTS,
    NOTHING_YET,
    forecast_line,
    kept_line,
    sum_story,
    under_way_lines,
    weighed_words,
    yield_line,
)
from trayturn.advice.ledger.table import heading
from trayturn.advice.ledger.turn import Turn
from trayturn.advice.ledger.words import entries_behind, story
from trayturn.advice.pages import Page
from trayturn.advice.pantry import pantry_of
from trayturn.domain.profile import Profile
from trayturn.domain.setup import Units
from trayturn.domain.stack import Stack
from trayturn.domain.words import clean, count
from trayturn.tui.commands import LEDGER, bindings
from trayturn.tui.frame import Frame
from trayturn.tui.screens.ledger.bars import YieldBars
from trayturn.tui.screens.ledger.rows import FOUND, bars_of, columns, ledger_rows, sums, turn_key
from trayturn.tui.ways import go
from trayturn.tui.widgets.line_list import LineList
from trayturn.tui.widgets.reason import ReasonScreen
from trayturn.tui.widgets.title_row import TitleRow

UNREAD = "Its file cannot be read; the bin's own screen says what is wrong with it."
BEHIND = "Where the numbers come from:"
FOUND_WORDS = (
    "What goes round again from tray to tray, and stickers, tape or plastic with what they came in with.",
)


class Expected(Message):
    """What had been forecast of one bin's harvests."""

    def __init__(self, profile: Profile, forecasts: Forecasts) -> None:
        super().__init__()
        self.profile, self.forecasts = profile, forecasts


class Reckoned(Message):
    """The forecasts of all bins have been made again."""


class LedgerScreen(Frame):
    """A row a turn, the sums below, and the yield as bars; Enter tells where the numbers come from."""

    PLACE = LEDGER
    BINDINGS = bindings(LEDGER)
    CSS_PATH = ["../../frame.tcss", "screen.tcss"]

    def __init__(self, key: str | None = None) -> None:
        super().__init__()
        self.key = key
        self.books: list[Ledger] = []
        self.turns: dict[str, Turn] = {}
        self.expected: dict[str, tuple[Profile, Forecasts]] = {}

    def compose_body(self) -> ComposeResult:
        with Container(classes="body"):
            with Vertical(id="table"):
                yield Static(id="nothing")
                yield Static(id="heading")
                yield LineList(id="rows")
                yield YieldBars(id="bars")
                yield Static(id="sums")
            yield Static(id="story")

    def on_mount(self) -> None:
        self.query_one(LineList).focus()

    def show(self, key: str) -> None:
        """The turns of the bins with their sums, as they stand now."""
        if self.key is not None and key not in ("", self.key):
            return
        self.books = list(self._books())
        self.turns = {turn_key(turn): turn for book in self.books for turn in book.turns}
        empty = not self.turns
        for where in ("#heading", "#bars", "#sums"):
            self.query_one(where).display = not empty
        self.put("#nothing", "\n".join(self._nothing())).display = empty
        self._show_title()
        rows = ledger_rows(self.books, self.units)
        self.query_one(LineList).show(rows if not empty else rows[-1:] if self.books else [])
        if not empty:
            self.put("#heading", f" {heading(columns(self.books), self.units)}")
            self.put("#sums", "\n".join(self._sums()))
        self._show_marked()
        self.refresh_bindings()

    def _books(self) -> Iterator[Ledger]:
        """The ledgers shown, by the bins' names; bins that cannot be read are left out."""
        for stack in self.house.shelf.stacks():
            loaded = self.house.shelf.loaded[stack.key]
            if self.key in (None, stack.key) and loaded.profile is not None and not loaded.read_only:
                profile, forecasts = self.expected.get(stack.key, (None, None))
                known = forecasts if profile is loaded.profile else None
                yield ledger_of(stack, self.house.shelf.kept(loaded.profile, pantry_of), known)

    def action_filter_kind(self) -> None:
        """What had been forecast of each harvest, beside what came: reckoned off this thread."""
        asked = [
            (loaded.profile, stack)
            for stack in self.house.shelf.stacks()
            if self.key in (None, stack.key)
            and (loaded := self.house.shelf.loaded[stack.key]).profile is not None
            and not loaded.read_only
        ]
        self.house.say("Past forecasts are being made again")
        work = partial(self._forecast, asked)
        self.run_worker(work, group=LEDGER, thread=True, exclusive=True, exit_on_error=False)

    def _forecast(self, asked: list[tuple[Profile, Stack]]) -> None:
        from trayturn.advice.outlook.score import forecasts

        worker = get_current_worker()
        for profile, stack in asked:
            if worker.is_cancelled:
                return
            self.post_message(Expected(profile, forecasts(profile, stack)))
        self.post_message(Reckoned())

    @on(Expected)
    def _came(self, event: Expected) -> None:
        self.expected[event.profile.key] = event.profile, event.forecasts
        self.show("")

    @on(Reckoned)
    def _reckoned(self) -> None:
        """Say that it is done, and of how many turns."""
        told = sum(turn.forecast_kg is not None for turn in self.turns.values())
        self.house.say(f"Done: past forecasts of {count(told, 'turn')}" if told else NO_FORECASTS)

    def on_worker_state_changed(self, event: Worker.StateChanged) -> None:
        """What went wrong in the reckoning is said; the ledger itself stands."""
        if event.state is WorkerState.ERROR and event.worker.group == LEDGER and self.is_mounted:
            self.house.warn("Past forecasts could not be made again. The ledger itself stands.")

    def _nothing(self) -> tuple[str, ...]:
        if self.books or self.key is None or self.house.reading:
            return NOTHING_YET
        return (UNREAD,)

    def _show_title(self) -> None:
        if self.key is None:
            name = f"Ledger of {count(len(self.books), 'bin')}" if self.books else "Ledger"
        else:
            name = f"Ledger of {clean(self.books[0].name if self.books else self.key, 40)}"
        total = in_all(self.books)
        unread = "reading" if self.house.reading else "" if self.books else "cannot be read"
        facts = (unread if self.key else "", weighed_words(total) if total.turns else "")
        self.query_one(TitleRow).show(name, *facts)

    @property
    def units(self) -> Units:
        """The keeper's units: US where every bin shown has them."""
        us = bool(self.books) and all(book.units is Units.US for book in self.books)
        return Units.US if us else Units.METRIC

    def _sums(self) -> Iterator[str]:
        """What does not add up comes first: it makes the rest wrong."""
        total = in_all(self.books)
        wrong = [one for book in self.books for one in book.remarks]
        if wrong:
            more = f" And {len(wrong) - 1} more; Enter on a row tells." if len(wrong) > 1 else ""
            yield f"! {wrong[0].what}{more}"
        foretold = forecast_line(total, self.units)
        # In a small window the rows need the room; Enter on the sum tells how much of the solids stayed.
        kept = kept_line(total) if self.wide or not foretold else ""
        yield from (line for line in (yield_line(total, self.units), foretold, kept) if line)
        for book in self.books:
            yield from under_way_lines(book, clean(book.name, 30) if len(self.books) > 1 else "")

    @property
    def marked(self) -> Turn | None:
        """The turn of the marked row; None on a sum."""
        return self.turns.get(self.query_one(LineList).marked_key)

    @property
    def marked_sum(self) -> tuple[str, Totals] | None:
        """The sum of the marked row, with its label."""
        return sums(self.books).get(self.query_one(LineList).marked_key) if self.books else None

    @property
    def marked_page(self) -> Page | None:
        return Page.FOUND if self.query_one(LineList).marked_key == FOUND else Page.YIELD

    @on(LineList.Marked)
    def _show_marked(self) -> None:
        turn = self.marked
        if self.turns:
            book = next((one for one in self.books if turn is None or one.bin == turn.bin), self.books[0])
            mean = book.totals.per_scraps.mean if book.totals.per_scraps is not None else None
            unit = "lb" if self.units is Units.US else "kg"
            whose = f" of {clean(book.name, 30)}" if len(self.books) > 1 else ""
            caption = f" {unit} of castings for each {unit} of scraps, turn by turn{whose}"
            bars, place = bars_of(book, turn)
            self.query_one(YieldBars).show(bars, place, mean, caption)
        title, lines = self._told() if self.books else ("", [])
        self.query_one("#story", Static).update(Content.assemble((title, "bold"), "\n\n", "\n".join(lines)))

    def on_resize(self) -> None:
        super().on_resize()
        self._show_marked()

    def _told(self) -> tuple[str, list[str]]:
        """A title and what there is to tell of the marked row."""
        turn, total = self.marked, self.marked_sum
        if turn is not None:
            book = next(one for one in self.books if one.bin == turn.bin)
            wrong = [f"! {one.what} {one.look}" for one in book.remarks_of(turn)]
            return self._title_of(turn, book), [*wrong, *story(turn, book.as_of, self.units)]
        if total is not None:
            label, totals = total
            name = f"{label[:1].upper()}{label[1:]}"
            return name, sum_story(name, totals, self.units)
        return "What was found", list(FOUND_WORDS)

    def _title_of(self, turn: Turn, book: Ledger) -> str:
        tray = turn.life.tray
        return f"{clean(book.name, 40)}, tray {tray}" if len(self.books) > 1 else f"Tray {tray}"

    @on(LineList.Opened)
    def action_open(self) -> None:
        """Enter: where the numbers come from; on the last row what was found."""
        if not self.query_one(LineList).rows:
            return
        if self.query_one(LineList).marked_key == FOUND:
            self.action_found()
            return
        turn, (title, lines) = self.marked, self._told()
        stack = self.house.shelf.stack(turn.bin) if turn is not None else None
        if turn is not None and stack is not None:
            lines = [*lines, "", BEHIND, *entries_behind(turn, stack.lots, self.units)]
        self.app.push_screen(ReasonScreen(title, lines, self.marked_page))

    def action_found(self) -> None:
        """What goes round, and what does not belong."""
        go(self.house, "found", self.key)
