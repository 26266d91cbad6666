"""The meal on its screen: what is drawn of it, and how it is laid on the bin as that changes."""

from __future__ import annotations

from textual import on
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.geometry import Size
from textual.widgets import Static

from trayturn.advice.composing.composed import Composed
from trayturn.advice.composing.draft import EATEN, Draft, Line, Part
from trayturn.advice.composing.ground import Goals
from trayturn.advice.composing.minding import Mind
from trayturn.advice.composing.recent import history_of
from trayturn.advice.composing.telling import Figure
from trayturn.advice.pages import Page
from trayturn.advice.pantry import pantry_of
from trayturn.advice.phrases import when
from trayturn.domain.stack import Stack
from trayturn.domain.words import clean
from trayturn.tui.commands import FEED
from trayturn.tui.frame import BinFrame
from trayturn.tui.screens.feed.desk import Desk
from trayturn.tui.screens.feed.hints import hint
from trayturn.tui.screens.feed.rows import ADD, MIND, figure_rows, meal_rows
from trayturn.tui.widgets.line_list import LineList
from trayturn.tui.widgets.title_row import TitleRow

NO_TRAY = (
    "",
    "There is no tray on the stack to feed.",
    "",
    "Esc leads back to the stack,",
    "where a puts a tray with bedding on it.",
)
PAGES = {
    Part.BEDDING: Page.BEDDING,
    Part.COVER: Page.BEDDING,
    Part.GRIT: Page.GRIT,
    Part.WATER: Page.MOISTURE,
}
"""The page behind a line of the meal; behind scraps it is that of meals."""
GOALS = "goals"
"""Under what the goals of a bin are left off."""
WIDE, MEAL_WIDTH = 120, (40, 56)
"""From how many columns on it is wide, and how wide the meal then is, as in `screen.tcss`."""


class MealFrame(BinFrame):
    """The meal on the left in feeding order, what comes of it on the right. What keys do is in `screen`."""

    CSS_PATH = ["../../frame.tcss", "screen.tcss"]

    def __init__(self, key: str, tray: str | None = None) -> None:
        super().__init__(key)
        self.desk = Desk(tray)
        self.warned = False
        self._said = ""
        self._drawn_at = Size(0, 0)

    def compose_body(self) -> ComposeResult:
        with Horizontal(classes="body"):
            with Vertical(id="meal-side"):
                yield Static(id="meal-title", classes="heading")
                yield LineList(row_height=0, empty=NO_TRAY, id="meal")
                yield Static(id="hint")
            with Vertical(id="figures-side"):
                yield Static(Content("What comes of it   Tab, Enter: why"), classes="heading")
                yield LineList(row_height=0, id="figures")

    def on_mount(self) -> None:
        self.meal.focus()

    @property
    def meal(self) -> LineList:
        """The rows of the meal."""
        return self.query_one("#meal", LineList)

    @property
    def made(self) -> Composed | None:
        """The meal with all that comes of it; None while there is no tray to feed."""
        return self.desk.made

    @property
    def line(self) -> Line | None:
        """The marked line of the meal, if one is."""
        return self.made.draft.at(self.meal.marked_key) if self.made is not None else None

    @property
    def marked_figure(self) -> Mind | Figure | None:
        """The marked figure of the meal, or what is minded about it."""
        made, key = self.made, self.query_one("#figures", LineList).marked_key
        if made is None or key.startswith(MIND):
            return made.minds[int(key.removeprefix(MIND))] if made is not None else None
        return next((one for one in made.figures if one.code == key), None)

    @property
    def marked_page(self) -> Page | None:
        """The page behind the marked figure or warning, else behind the marked line."""
        if self.focused is self.query_one("#figures", LineList) and self.marked_figure is not None:
            return self.marked_figure.page
        return PAGES.get(self.line.part, Page.MEALS) if self.line is not None else Page.MEALS

    def show(self, key: str) -> None:
        if key not in ("", self.key):
            return
        stack, loaded = self.stack, self.house.shelf.loaded.get(self.key)
        if stack is None or loaded is None or loaded.read_only:
            self._show_absence()
        elif stack is not self.desk.stack:
            self.lay_anew()
        else:
            self.draw()
        self.refresh_bindings()

    def _show_absence(self) -> None:
        """The file is gone or broken: the meal waits until it can be read again."""
        self.leave_off()
        self.desk.forget()
        self.query_one(TitleRow).show(self.key, "reading" if self.house.reading else "cannot be read")
        self.draw()

    def lay_anew(self) -> None:
        """Lay the meal on the bin as it stands now."""
        stack, profile = self.stack, self.house.shelf.loaded[self.key].profile
        if stack is None or profile is None:
            return
        fresh, key = self.made is None, self.meal.marked_key
        history = self.house.shelf.kept(profile, history_of)
        self.desk.lay(stack, pantry_of(profile), history, self.goals, self._unfinished)
        self.query_one(TitleRow).show(clean(stack.setup.name, 30), *_facts(stack, self.made))
        self.draw(self.first if fresh else key)

    @property
    def _unfinished(self) -> Draft | None:
        """The meal that was begun and left in this session."""
        left = self.house.left_off.get((FEED, self.key))
        return left if isinstance(left, Draft) else None

    def leave_off(self) -> bool:
        """Keep a meal that is not written down until the program is left; whether there was one to keep."""
        if not self.desk.touched or self.made is None:
            return False
        self.house.left_off[FEED, self.key] = self.made.draft
        return True

    @property
    def goals(self) -> Goals | None:
        """The goals that were set in this session."""
        goals = self.house.left_off.get((GOALS, self.key))
        return goals if isinstance(goals, Goals) else None

    def set_goals(self, goals: Goals) -> None:
        """Other goals, until the program is left."""
        self.house.left_off[GOALS, self.key] = goals
        self.lay_anew()

    @property
    def first(self) -> str:
        """The first scraps: they are what is stepped first."""
        scraps = self.made.draft.of(*EATEN) if self.made is not None else ()
        return scraps[0].key if scraps else ADD

    def draw(self, marked: str = "") -> None:
        """Draw the meal with that row marked, its figures, and what the marked row is about."""
        made, self._drawn_at = self.made, self.app.size
        self._draw_meal(made)
        if marked:
            self.meal.mark_row(marked)
        self.draw_figures(made)
        self._hint()

    @property
    def _wide(self) -> bool:
        return self.app.size.width >= WIDE

    def _draw_meal(self, made: Composed | None) -> None:
        width = MEAL_WIDTH[self._wide]
        self.meal.show(meal_rows(made, width - 2) if made is not None else [])
        title = f"Meal for tray {made.draft.tray} ({clean(self.desk.said, 20)})" if made is not None else ""
        self._put("#meal-title", title)

    def draw_figures(self, made: Composed | None) -> None:
        """Draw what comes of this meal."""
        wide, width = self._wide, self.app.size.width - MEAL_WIDTH[self._wide] - 3
        rows = [] if made is None else figure_rows(made, width, wide=wide, ascii_only=self.house.ascii)
        self.query_one("#figures", LineList).show(rows)

    @on(LineList.Marked, "#meal")
    def _marked(self) -> None:
        self._said = ""
        self._hint()

    def _hint(self) -> None:
        words = self._said or ("\n".join(hint(self.made, self.meal.marked_key)) if self.made else "")
        self._put("#hint", words).set_class(bool(self._said), "-said")

    def _put(self, where: str, words: str) -> Static:
        """Words in a text of fixed size: nothing around it is to be laid out anew."""
        text = self.query_one(where, Static)
        if str(text.content) != words:
            text.update(Content(words), layout=False)
        return text

    def say(self, words: str) -> None:
        """Say something in the place of the hint, until the next key."""
        self._said = clean(words, 200)
        self._hint()

    def on_resize(self) -> None:
        super().on_resize()
        if self.app.size != self._drawn_at:
            self.draw()

    def change(self, draft: Draft) -> None:
        """The meal is another. The mark stays on its row."""
        key = self.meal.marked_key
        self.desk.change(draft)
        self.changed(key)

    def changed(self, key: str) -> None:
        """Draw what was changed, with that row marked."""
        self._said, self.warned = "", False
        self.draw(key)


def _facts(stack: Stack, made: Composed | None) -> tuple[str, ...]:
    """The tray that is fed, and when it was last."""
    fed = stack.tray(made.draft.tray) if made is not None else None
    if fed is None:
        return ("no tray to feed",)
    last = f"last fed {when(fed.last_fed_at, stack.as_of)}" if fed.last_fed_at is not None else "not fed yet"
    return f"feed tray {fed.id}", last
