"""One bin: its stack drawn, what is due and why, and the story of the marked tray."""

from __future__ import annotations

from collections.abc import Sequence

from textual import on
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.widgets import Static

from trayturn.advice.due import Due, due_list
from trayturn.advice.feeding import feed_next
from trayturn.advice.links import page_of_tray
from trayturn.advice.pages import Page
from trayturn.advice.pantry import Pantry, pantry_of, shipped_pantry
from trayturn.advice.story import tray_story
from trayturn.domain.entries import Stage
from trayturn.domain.problems import Problem
from trayturn.domain.stack import Stack
from trayturn.domain.units import show_temperature
from trayturn.domain.words import clean
from trayturn.tui.commands import STACK, bindings
from trayturn.tui.frame import BinFrame
from trayturn.tui.screens.stack import acts, recording
from trayturn.tui.screens.stack.rows import FINDINGS, MORE, due_rows, problem_rows
from trayturn.tui.ways import go
from trayturn.tui.widgets.line_list import LineList
from trayturn.tui.widgets.reason import ReasonScreen
from trayturn.tui.widgets.stack_drawing import StackDrawing, picture_of
from trayturn.tui.widgets.title_row import TitleRow

ALWAYS = ("leave", "quit", "help", "hush", "open", "cautions", "journal", "handbook")
"""What can be done also with a file that cannot be read."""
GONE = "Put the file back, and this screen goes on from it. Esc leads back to the other bins."

WIDE, DRAWING, DRAWING_WIDE, ASIDE_MARGINS = 120, 42, 66, 4
"""From how many columns the window is wide, and how many the drawing and the edges of the list take."""


class StackScreen(BinFrame):
    """The drawing on the left, what to do on the right; Space does the most pressing thing."""

    PLACE = STACK
    BINDINGS = bindings(STACK)
    CSS_PATH = ["../../frame.tcss", "screen.tcss"]

    def __init__(self, key: str) -> None:
        super().__init__(key)
        self.due: list[Due] = []

    def compose_body(self) -> ComposeResult:
        with Horizontal(classes="body"):
            yield StackDrawing(id="drawing")
            with Vertical(id="aside"):
                yield Static("Due", id="due-title", markup=False)
                yield LineList(row_height=0, id="due")
                yield Static(id="story")

    def on_mount(self) -> None:
        self.query_one(StackDrawing).focus()

    @property
    def tray(self) -> str | None:
        """The tray marked in the drawing."""
        return self.query_one(StackDrawing).selected

    def show(self, key: str) -> None:
        """Draw the bin as it stands, what is wrong with its file, or that it is gone."""
        if key not in ("", self.key):
            return
        loaded, stack = self.house.shelf.loaded.get(self.key), self.stack
        drawing = self.query_one(StackDrawing)
        if drawing.display != (stack is not None):
            drawing.display = stack is not None
            (drawing if stack is not None else self.query_one("#due")).focus()
        if loaded is not None and loaded.read_only:
            self._show_problems(loaded.problems)
        elif stack is not None:
            self._show_stack(stack)
        else:
            self._show_absence()
        self.refresh_bindings()

    def _show_absence(self) -> None:
        self.due = []
        self.query_one("#due", LineList).show([])
        said = "reading" if self.house.reading else "its file is gone"
        self.query_one(TitleRow).show(self.key, said)
        self.query_one("#story", Static).update(Content("" if self.house.reading else GONE))

    def _show_stack(self, stack: Stack) -> None:
        self.due = due_list(stack)
        self.query_one("#due-title", Static).update(
            Content.assemble("Due", ("   d: all   Tab, Enter: why", "not bold"))
        )
        self.query_one(TitleRow).show(clean(stack.setup.name, 40), *_facts(stack))
        drawing = self.query_one(StackDrawing)
        drawing.ascii = self.house.ascii
        drawing.picture = picture_of(stack, feed_next(stack).tray)
        if drawing.selected is None and stack.trays:
            drawing.selected = feed_next(stack).tray or stack.trays[-1].id
        self._show_due()
        self._show_story()

    def _show_due(self) -> None:
        if not self.due or self.read_only:
            return
        due, stack, width = self.query_one("#due", LineList), self.stack, self.app.size.width
        findings = stack.findings if stack is not None else ()
        # The width is known before the first frame, so that nothing is wrapped anew in sight.
        room = width - (DRAWING_WIDE if width >= WIDE else DRAWING) - ASIDE_MARGINS
        due.show(due_rows(self.due, findings, room, with_why=width >= WIDE))

    def on_resize(self) -> None:
        super().on_resize()
        self._show_due()

    def _show_problems(self, problems: Sequence[Problem]) -> None:
        self.query_one(TitleRow).show(self.key, "cannot be read, so nothing is written to it")
        self.query_one("#due-title", Static).update(Content("What is wrong with the file"))
        due = self.query_one("#due", LineList)
        due.show(problem_rows(problems, due.scrollable_content_region.width - 1))
        due.focus()
        self.query_one("#story", Static).update(
            Content("Mend the file with an editor; this screen follows at once. Enter shows a line in full.")
        )

    @on(StackDrawing.Selected)
    def _show_story(self) -> None:
        stack = self.stack
        tray = stack.tray(self.tray) if stack is not None and self.tray else None
        lines = tray_story(tray, stack, self._pantry) if stack is not None and tray is not None else []
        shown = lines if self.has_class("-wide") else [*lines[:1], "Enter tells more."] if lines else []
        self.query_one("#story", Static).update(Content("\n".join(shown)))

    def _pantry(self) -> Pantry:
        """What the names in this bin's journal stand for."""
        loaded = self.house.shelf.loaded.get(self.key)
        if loaded is None or loaded.profile is None:
            return shipped_pantry()
        return self.house.shelf.kept(loaded.profile, pantry_of)

    @on(StackDrawing.Opened)
    def _open_tray(self) -> None:
        stack = self.stack
        tray = stack.tray(self.tray) if stack is not None and self.tray else None
        if stack is not None and tray is not None:
            story = tray_story(tray, stack, self._pantry)
            self.app.push_screen(ReasonScreen(f"Tray {tray.id}", story, page_of_tray(tray)))

    @property
    def marked_page(self) -> Page | None:
        """The page behind the marked due thing, or the one that fits the marked tray."""
        if self.focused is self.query_one("#due"):
            place = self.query_one("#due", LineList).marked_key
            return self.due[int(place)].page if place.isdecimal() and self.due else None
        tray = self.stack.tray(self.tray) if self.stack is not None and self.tray else None
        return page_of_tray(tray) if tray is not None else None

    def action_open(self) -> None:
        """Enter: the reason of the marked due thing, or the story of the marked tray."""
        if self.focused is self.query_one(StackDrawing):
            self._open_tray()
        else:
            self._open_due()

    @on(LineList.Opened)
    def _open_due(self) -> None:
        place, loaded = self.query_one("#due", LineList).marked_key, self.house.shelf.loaded.get(self.key)
        if loaded is not None and loaded.read_only:
            problems = loaded.problems
            self.app.push_screen(ReasonScreen("What is wrong", [clean(str(p)) for p in problems]))
        elif place == FINDINGS and self.stack is not None:
            told = [line for finding in self.stack.findings for line in (clean(str(finding)), "")]
            self.app.push_screen(ReasonScreen("What does not add up", told))
        elif place == MORE:
            self.action_due()
        elif place and self.due:
            acts.why(self.house, self.due[int(place)])

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        if not self.is_mounted or action in ALWAYS:
            return True
        return None if self.stack is None or self.read_only else True

    @property
    def read_only(self) -> bool:
        """Whether the file has problems, so that nothing may be written to it."""
        loaded = self.house.shelf.loaded.get(self.key)
        return loaded is None or loaded.read_only

    def action_go_on(self) -> None:
        """Do the most pressing thing."""
        if self.due:
            acts.do(self.house, self.due[0], self.tray)

    def action_feed(self) -> None:
        acts.feed(self.house, self.key, self.tray)

    def action_feed_by_form(self) -> None:
        acts.feed_by_form(self.house, self.key, self.tray)

    def action_check(self) -> None:
        acts.check(self.house, self.key, self.tray)

    def action_typed_check(self) -> None:
        recording.check(self.house, self.key, self.tray)

    def action_note(self) -> None:
        recording.note(self.house, self.key)

    def action_begin(self) -> None:
        go(self.house, "begin", self.key)

    def action_start(self) -> None:
        recording.start_tray(self.house, self.key)

    def action_worms(self) -> None:
        recording.worms(self.house, self.key)

    def action_split(self) -> None:
        recording.worms(self.house, self.key, "move")

    def action_supplies(self) -> None:
        go(self.house, "supplies", self.key)

    def action_past(self) -> None:
        go(self.house, "past", self.key)

    def action_castings(self) -> None:
        go(self.house, "castings", self.key)

    def action_compare(self) -> None:
        go(self.house, "compare", self.key)

    def action_ledger(self) -> None:
        go(self.house, "ledger", self.key)

    def action_outlook(self) -> None:
        go(self.house, "outlook", self.key)

    def action_found(self) -> None:
        go(self.house, "found", self.key)

    def action_turn(self) -> None:
        acts.turn(self.house, self.key)

    def action_put_right(self) -> None:
        go(self.house, "put_right", self.key, self.tray)

    def action_separate(self) -> None:
        acts.separate(self.house, self.key, self.tray)

    def action_due(self) -> None:
        """All that is due at this bin, and whether it should rest."""
        go(self.house, "due", self.key)


def _facts(stack: Stack) -> list[str]:
    feeding = stack.in_stage(Stage.FEEDING)
    turn_day = f"day {int(max(t.days_in_stage for t in feeding)) + 1} of this turn" if feeding else ""
    warmth = (
        show_temperature(stack.temperature_c, stack.setup.units) if stack.temperature_c is not None else ""
    )
    return [turn_day, warmth]
