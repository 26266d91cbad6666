"""The outlook of a bin: one series at a time as a band chart, what it says, and what if it were otherwise."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.containers import Container, Horizontal, Vertical
from textual.widgets import Static

from trayturn.advice.outlook.basis import basis_lines
from trayturn.advice.outlook.making import DRAWS
from trayturn.advice.outlook.progress import work_words
from trayturn.advice.outlook.result import Outlook
from trayturn.advice.outlook.sizes import next_kind, resized
from trayturn.advice.outlook.topics import MOISTURE, PAST, heading_of, lines_of
from trayturn.advice.outlook.what_if import WhatIf
from trayturn.advice.pages import Page
from trayturn.domain.profile import Profile
from trayturn.domain.setup import Units
from trayturn.domain.stack import Stack
from trayturn.domain.words import clean, day
from trayturn.tui.commands import OUTLOOK, bindings
from trayturn.tui.frame import BinFrame
from trayturn.tui.screens.outlook.asking import Answer, Answered, Asked, Broke, Step, work
from trayturn.tui.screens.outlook.bands import band_lines, harvest_rows, past_rows
from trayturn.tui.screens.outlook.fitted import Fitted, fitting
from trayturn.tui.screens.outlook.plots import plot_of
from trayturn.tui.screens.outlook.told_rows import as_bands, legend, topic_rows
from trayturn.tui.widgets.chart.widget import BandChart
from trayturn.tui.widgets.line_list import LineList
from trayturn.tui.widgets.reason import ReasonScreen
from trayturn.tui.widgets.title_row import TitleRow

UNREAD = "Its file cannot be read; the bin's own screen says what is wrong with it."
WORKING = ("The bin is reckoned day by day from its record.", "Keys work meanwhile; Esc leaves and stops it.")
BROKEN = ("The outlook could not be reckoned ({error}).", "The journal is whole; nothing was written.")
FIRST = "reading the record"
"""What is done before the first step is told."""
OF_ANSWER = ("open", "filter_tray", "filter_kind")
"""What needs an answer to work on; `more` and `less` need a what-if besides."""


class OutlookScreen(BinFrame):
    """Up and down go from series to series, `g` from one what-if to the next; Enter tells why."""

    PLACE = OUTLOOK
    BINDINGS = bindings(OUTLOOK)
    CSS_PATH = ["../../frame.tcss", "screen.tcss"]
    draws: ClassVar[int] = DRAWS

    def __init__(self, key: str) -> None:
        super().__init__(key)
        self.what: WhatIf | None = None
        self.asked: Asked | None = None
        self.answer: Answer | None = None
        self.way, self.trouble = "", ""

    def compose_body(self) -> ComposeResult:
        """What is asked on top, the answer below, or why there is none."""
        with Container(classes="body"):
            yield Static(id="what")
            yield Static(id="nothing")
            with Horizontal(id="above"):
                yield LineList(row_height=0, id="topics")
                with Vertical(id="drawn"):
                    yield BandChart(id="chart")
                    yield Fitted(id="bands")
            yield Static(id="legend", markup=False)
            with Horizontal(id="below"):
                yield Fitted(id="sentences")
                yield Fitted(id="basis")

    def on_mount(self) -> None:
        self.query_one(LineList).focus()

    # What is asked, and what comes back.

    @property
    def profile(self) -> Profile | None:
        """The bin's profile; None while it is unread, cannot be read or is gone."""
        loaded = self.house.shelf.loaded.get(self.key)
        return loaded.profile if loaded is not None and not loaded.read_only else None

    def show(self, key: str) -> None:
        if key in ("", self.key):
            self._ask()
            self._draw()

    def _ask(self) -> None:
        """Ask anew where the journal, the day or the what-if is another; what was asked before is stopped."""
        profile, stack = self.profile, self.stack
        if profile is None or stack is None:
            self.workers.cancel_group(self, OUTLOOK)
            self.asked = self.answer = None
            self.way = ""
            return
        asked = Asked(profile, stack.as_of, self.what)
        if not asked.same(self.asked):
            self.asked, self.way, self.trouble = asked, FIRST, ""
            self.call_after_refresh(self._begin, asked)

    def _begin(self, asked: Asked) -> None:
        """Start the work once what the key changed is painted, so that no frame waits for it."""
        if asked is self.asked and self.is_mounted:
            task = partial(work, asked, self.draws, self.post_message)
            self.run_worker(task, group=OUTLOOK, exclusive=True, thread=True)

    @on(Step)
    def _went_on(self, event: Step) -> None:
        if event.asked is self.asked:
            self.way = work_words(event.done, event.of)
            self._show_what()

    @on(Answered)
    def _came(self, event: Answered) -> None:
        if event.answer.asked is self.asked:
            self.answer, self.way = event.answer, ""
            self._draw()

    @on(Broke)
    def _broke(self, event: Broke) -> None:
        if event.asked is self.asked:
            self.trouble, self.answer, self.way = event.name, None, ""
            self._draw()

    # What is drawn.

    @property
    def units(self) -> Units:
        return self.stack.setup.units if self.stack is not None else Units.METRIC

    @property
    def topic(self) -> str:
        """The marked series; empty without any."""
        return self.query_one(LineList).marked_key

    def _draw(self) -> None:
        """All that is shown, from the answer there is."""
        told = self.answer.told if self.answer is not None else None
        there = told is not None and bool(told.series)
        for where in ("#above", "#legend", "#below"):
            self.query_one(where).visible = there
        self._show_title()
        self._show_what()
        self.put("#nothing", "\n\n".join(self._nothing())).display = not there
        if told is not None and there:
            self.query_one(LineList).show(topic_rows(told, self.units, wide=self.wide))
            self._show_topic()
        self.refresh_bindings()

    def _show_title(self) -> None:
        stack = self.stack
        name = clean(stack.setup.name if stack is not None else self.key, 40)
        unread = "" if self.profile is not None else "reading" if self.house.reading else "cannot be read"
        rests = self.answer.told.rests_on.words if self.answer is not None else ""
        self.query_one(TitleRow).show(f"Outlook of {name}", unread or rests)

    def _show_what(self) -> None:
        what, answer = self.what, self.answer
        if what is not None:
            words = f"What if: {what.said(self.units)}"
        elif answer is not None and answer.told.series:
            words = f"As planned, up to {day(answer.told.until, answer.told.as_of)}"
        else:
            words = ""
        way = f"{self.way}; below stands the last one" if self.way and answer is not None else self.way
        line = self.put("#what", "   ".join(part for part in (words, way) if part))
        line.set_class(what is not None, "-act")

    def _nothing(self) -> Iterator[str]:
        """What stands there instead of a chart."""
        if self.profile is None:
            yield "" if self.house.reading else UNREAD
        elif self.trouble:
            yield from (line.format(error=self.trouble) for line in BROKEN)
        elif self.answer is None:
            yield from WORKING
        else:
            yield from self.answer.told.sentences

    @on(LineList.Marked)
    def _show_topic(self) -> None:
        answer, stack, topic = self.answer, self.stack, self.topic
        if answer is None or stack is None or not topic:
            return
        bands, planned = as_bands(topic), answer.today if answer.both is not None else None
        self.query_one(BandChart).display = not bands
        self.query_one("#bands").display = bands
        plot = None
        if bands:
            self._show_bands(answer, planned)
        else:
            plot = plot_of(topic, answer.told, stack, planned)
            self.query_one(BandChart).show(plot)
        plain, compared = self.house.ascii, planned is not None
        self.put("#legend", legend(topic, plot, compared=compared, plain=plain))
        self._show_said(answer, stack)

    def _show_bands(self, answer: Answer, planned: Outlook | None) -> None:
        told, units = answer.told, self.units
        rows = list(past_rows(told, units) if self.topic == PAST else harvest_rows(told, planned, units))
        make = partial(band_lines, rows, units=units, plain=self.house.ascii)
        self.query_one("#bands", Fitted).show(make)

    def _show_said(self, answer: Answer, stack: Stack) -> None:
        said = list(self._said(answer, stack))
        self.query_one("#sentences", Fitted).show(partial(fitting, said))
        if self.wide:
            basis = list(basis_lines(self.topic, answer.told, self.units))
            self.query_one("#basis", Fitted).show(partial(fitting, basis))

    def _said(self, answer: Answer, stack: Stack) -> Iterator[str]:
        """What the marked series says; with a what-if, what differs and what to do about it."""
        if answer.both is None:
            yield from lines_of(self.topic, answer.told, stack)
        else:
            yield from answer.both.differences
            yield from answer.both.do

    def on_resize(self) -> None:
        super().on_resize()
        self._draw()

    # What keys do.

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        if not self.is_mounted or action not in (*OF_ANSWER, "more", "less"):
            return True
        there = self.answer is not None and bool(self.answer.told.series)
        return True if there and (action in OF_ANSWER or self.what is not None) else None

    @property
    def marked_page(self) -> Page:
        return Page.OUTLOOK

    @on(LineList.Opened)
    def action_open(self) -> None:
        """Enter: what is said in full, and what it rests on."""
        answer, stack = self.answer, self.stack
        if answer is None or stack is None or not self.topic:
            return
        lines = [*self._said(answer, stack), "", *basis_lines(self.topic, answer.told, self.units)]
        self.app.push_screen(ReasonScreen(heading_of(self.topic, answer.told), lines, self.marked_page))

    def action_filter_tray(self) -> None:
        """The moisture of the next tray."""
        keys = [row.key for row in self.query_one(LineList).rows]
        after = keys[self.query_one(LineList).marked + 1 :] + keys
        self._mark(next((key for key in after if key.startswith(MOISTURE)), self.topic))

    def _mark(self, topic: str) -> None:
        self.query_one(LineList).mark_row(topic)
        self._show_topic()

    def action_filter_kind(self) -> None:
        self._change(next_kind(self.what))

    def action_more(self) -> None:
        self._resize(1)

    def action_less(self) -> None:
        self._resize(-1)

    def _resize(self, by: int) -> None:
        if self.what is not None:
            self._change(resized(self.what, by))

    def _change(self, what: WhatIf | None) -> None:
        self.what = what
        self._ask()
        self._show_what()
        self.refresh_bindings()
