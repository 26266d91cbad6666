"""The past year, week by week, and what came of it: of one bin, or of all as one."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice
from typing import TYPE_CHECKING

from textual import on
from textual.app import ComposeResult
from textual.containers import Container, Vertical
from textual.content import Content
from textual.widgets import Static

from trayturn.advice.entry_words import entry_line
from trayturn.advice.past import WEEKS, Past, Tally, past_of, tally_of
from trayturn.advice.past.tally import week_number
from trayturn.advice.past.words import gap_line, headings, totals, week_line, week_name
from trayturn.domain.setup import Units
from trayturn.domain.words import clean, count
from trayturn.tui.commands import PAST, bindings
from trayturn.tui.frame import Frame
from trayturn.tui.screens.past.strip import YearStrip
from trayturn.tui.widgets.reason import ReasonScreen
from trayturn.tui.widgets.title_row import TitleRow

if TYPE_CHECKING:
    from trayturn.domain.profile import Profile

NOTHING_YET = (
    "Nothing was fed, checked or turned yet.",
    "",
    "A year will stand here, a column a week: feedings, scraps, checks, turns and castings; and what "
    "all of it adds up to. Esc leads back; on a bin's own screen f writes down a feeding and k a check.",
)
UNREAD = "Its file cannot be read; the bin's own screen says what is wrong with it."
MOST_BELOW = 24
"""How many lines of the marked week stand open in a wide window."""


class PastScreen(Frame):
    """Left and right mark a week, up and down go from bin to bin; Enter tells what the week holds."""

    PLACE = PAST
    BINDINGS = bindings(PAST)
    CSS_PATH = ["../../frame.tcss", "screen.tcss"]

    def __init__(self, key: str | None = None) -> None:
        super().__init__()
        self.key = key
        self.past: Past | None = None
        self.tallied: dict[str, Tally] = {}
        self.marked = WEEKS - 1

    def compose_body(self) -> ComposeResult:
        with Container(classes="body"):
            with Vertical(id="drawn"):
                yield YearStrip(id="year")
                yield Static(id="week")
                yield Static(id="written")
                yield Static(id="nothing")
            yield Static(id="totals")

    def show(self, key: str) -> None:
        """The year of the bins as their journals have it now; the marked week stays."""
        if self.key is not None and key not in ("", self.key):
            return
        profiles = list(self._profiles())
        self.tallied = {one.key: self.house.shelf.kept(one, tally_of) for one in profiles}
        stacks = [(self.house.shelf.stack(key), tallied) for key, tallied in self.tallied.items()]
        bins = [(stack, tallied) for stack, tallied in stacks if stack is not None]
        self.past = past_of(bins) if bins else None
        self._show_title(profiles)
        empty = self.past is None or self.past.empty
        for where in ("#year", "#week", "#written", "#totals"):
            self.query_one(where).display = not empty
        unread = self.key is not None and not profiles and not self.house.reading
        self.put("#nothing", UNREAD if unread else "\n".join(NOTHING_YET)).display = empty
        if self.past is not None and not empty:
            self._show_past(self.past)
        self.refresh_bindings()

    def _profiles(self) -> Iterator[Profile]:
        """The bins that are shown, by name; those that cannot be read are left out."""
        for key in self._keys() if self.key is None else [self.key]:
            loaded = self.house.shelf.loaded.get(key)
            if loaded is not None and loaded.profile is not None and not loaded.read_only:
                yield loaded.profile

    def _keys(self) -> list[str]:
        """Every readable bin, by its shown name."""
        return [stack.key for stack in self.house.shelf.stacks()]

    def _show_title(self, profiles: list[Profile]) -> None:
        if self.key is None:
            name = f"The past year of {count(len(profiles), 'bin')}" if profiles else "The past year"
        else:
            name = f"The past year of {clean(profiles[0].bin.name if profiles else self.key, 40)}"
        unread = "reading" if self.house.reading else "" if profiles else "cannot be read"
        ways = "left and right: another week" if profiles else ""
        self.query_one(TitleRow).show(name, unread, ways)

    @property
    def units(self) -> Units:
        """The keeper's units: US where every bin shown has them."""
        us = all(one.bin.units is Units.US for one in self._profiles())
        return Units.US if us else Units.METRIC

    def _show_past(self, past: Past) -> None:
        self.query_one(YearStrip).show(past.weeks, self.marked)
        tables = _tables(past, self.units)
        lines = [line for table in tables for line in (*table, "")] if self.wide else _beside(tables)
        self.query_one("#totals", Static).update(Content("\n".join((*lines, gap_line(past)))))
        self._show_week()

    def on_resize(self) -> None:
        super().on_resize()
        if self.past is not None and not self.past.empty:
            self._show_past(self.past)

    def _show_week(self) -> None:
        past = self.past
        if past is None:
            return
        strip = self.query_one(YearStrip)
        strip.marked = self.marked
        self.put("#week", week_line(past.weeks[self.marked], past.as_of, self.units))
        if self.wide:
            lines = list(islice(self._written(), MOST_BELOW + 1))
            if len(lines) > MOST_BELOW:
                lines[-1] = "and more; Enter tells all of it."
            self.query_one("#written", Static).update(Content("\n".join(lines)))

    def action_more(self) -> None:
        self._mark(self.marked + 1)

    def action_less(self) -> None:
        self._mark(self.marked - 1)

    def _mark(self, place: int) -> None:
        self.marked = max(0, min(place, WEEKS - 1))
        self._show_week()

    @on(YearStrip.Marked)
    def _clicked(self, event: YearStrip.Marked) -> None:
        self._mark(event.place)

    def action_next_bin(self) -> None:
        self._go(1)

    def action_last_bin(self) -> None:
        self._go(-1)

    def _go(self, by: int) -> None:
        """On to another bin; all of them together stand before the first."""
        around: list[str | None] = [None, *self._keys()]
        place = around.index(self.key) if self.key in around else 0
        self.key = around[(place + by) % len(around)]
        self.show("")

    def action_open(self) -> None:
        """Enter: all that was written down in the marked week."""
        past = self.past
        if past is None or past.empty:
            return
        lines = list(self._written()) or ["Nothing was written down in this week."]
        self.app.push_screen(ReasonScreen(week_name(past.weeks[self.marked]), lines))

    def _written(self) -> Iterator[str]:
        """The entries of the marked week, bin by bin, the oldest first."""
        number = week_number(self.past.weeks[self.marked].monday) if self.past is not None else 0
        for one in self._profiles():
            written = self.tallied[one.key].written.get(number, [])
            if written and self.key is None:
                yield clean(one.bin.name, 60)
            for entry in sorted(written, key=lambda entry: entry.at):
                yield f"{entry.at:%a %H:%M}  {entry_line(entry, one.bin.units)}"


def _tables(past: Past, units: Units) -> list[list[str]]:
    """The sums of the year shown and of all time, each under its heading; one where both are the same."""
    year, ever = headings(past)
    parts = [(year, past.year, past.year_gap), (ever, past.ever, past.ever_gap)]
    tables = []
    for heading, sums, gap in parts[:1] if year == ever else parts:
        rows = [f"{what:<17}{said}" for what, said in totals(sums, gap, units)]
        tables.append([f"{'':<17}{heading}", *rows])
    return tables


def _beside(tables: list[list[str]]) -> list[str]:
    """Both tables beside each other, the words before the rows written once."""
    if len(tables) == 1:
        return tables[0]
    whats = {line[:17]: line[17:] for line in tables[0]}
    return [f"{line[:17]}{whats.get(line[:17], ''):<31}{line[17:]}" for line in tables[1]]
