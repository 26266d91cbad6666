"""The check: readings taken with gloves on, each shown against its range and its own history at once."""

from __future__ import annotations

from dataclasses import replace

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Container, Horizontal
from textual.content import Content
from textual.widgets import Static

from trayturn.advice.checking.judging import judge_all
from trayturn.advice.checking.scene import Scene
from trayturn.advice.checking.verdict import PAGES
from trayturn.advice.pages import Page
from trayturn.domain.words import clean, listed
from trayturn.tui.commands import CHECK, bindings
from trayturn.tui.screens.check import stepping
from trayturn.tui.screens.check.outcome import entry_of, obstacle, saved_words
from trayturn.tui.screens.check.panel import panel
from trayturn.tui.screens.check.rows import Look, rows
from trayturn.tui.screens.check.taking import Taking
from trayturn.tui.ways import go
from trayturn.tui.widgets.line_list import LineList
from trayturn.tui.widgets.over_row import OverRow
from trayturn.tui.widgets.spans import spans_content
from trayturn.tui.widgets.title_row import TitleRow

WIDE, LIST, LIST_WIDE, MARGINS, MARGINS_WIDE = 120, 42, 72, 2, 4
"""From how many columns the window is wide, and how many the list and the edges of the panel take: known
before the first frame, so that nothing is wrapped anew in sight."""
GONE = "The file cannot be read. Put it back or mend it; nothing here is lost."
NO_TRAY = "That tray is not in this bin any more; v goes to another. Nothing is lost."
UNSAVED = "Not saved yet. Space saves; the same key once more leaves without."
FORM = "Enter opens the typed form: for a check of another day, or one with a note."
TYPING = "Enter keeps it   Esc leaves the line"


class CheckScreen(Taking):
    """One check of a tray or the whole bin. Readings are kept for each tray until they are saved or left."""

    PLACE = CHECK
    BINDINGS = [
        *bindings(CHECK),
        *(Binding(str(digit), f"pick({digit})", str(digit), show=False) for digit in range(10)),
        Binding("tab,shift+tab", "stop_typing", show=False),
    ]
    CSS_PATH = ["../../frame.tcss", "screen.tcss"]

    def __init__(self, key: str, tray: str | None = None) -> None:
        super().__init__(key, tray)
        self._look: Look | None = None
        self._said = ""
        self._saved: tuple[str, ...] = ()
        self._sure = False
        self._leaving = False

    def compose_body(self) -> ComposeResult:
        with Horizontal(classes="body"):
            with Container(id="taking"):
                yield LineList(row_height=0, id="readings")
                yield OverRow(id="typing")
                yield Static(id="ways")
            yield Static(id="panel")

    def on_mount(self) -> None:
        super().on_mount()
        self.readings.focus()

    def show(self, key: str) -> None:
        """Draw the readings as they stand. What is being taken is kept, whatever else was written."""
        if key not in ("", self.key):
            return
        scene = self.scene
        if scene is None:
            self.query_one(TitleRow).show(self.key, "reading" if self.house.reading else "cannot be read")
            self.put("#ways", "" if self.house.reading else GONE)
            return
        self._title(scene)
        self._look = look = self._looked_at(scene)
        self.readings.show(rows(look))
        self._show_marked()
        self.refresh_bindings()

    def _looked_at(self, scene: Scene) -> Look:
        taken = self.draft.seen_in(scene)
        wide, doubts = self.app.size.width >= WIDE, self.draft.doubts(scene)
        width = (LIST_WIDE if wide else LIST) - 1
        return Look(taken, self.draft, judge_all(taken), doubts, width, wide, self.house.ascii)

    def _title(self, scene: Scene) -> None:
        tray = scene.tray
        about = f"tray {tray.id}, {tray.stage}" if tray is not None else self.tray or "the whole bin"
        unsaved = [one for one, draft in self.drafts.items() if one != self.tray and not draft.empty]
        other = f"not saved: {listed(_called(one) for one in unsaved)}" if unsaved else ""
        self.query_one(TitleRow).show(f"{clean(scene.stack.setup.name, 30)}  check", about, other)

    @on(LineList.Marked)
    def _show_marked(self) -> None:
        """The marked reading beside the list, and under it how it is answered."""
        look, kind = self._look, self.kind
        beside = self.query_one("#panel", Static)
        if look is None:
            return
        if kind is None:
            beside.update(Content(FORM))
            self._show_ways("Enter opens the form")
            return
        margins = MARGINS_WIDE if look.wide else MARGINS
        look = replace(look, width=max(20, self.app.size.width - look.width - 1 - margins))
        beside.update(spans_content(panel(kind, look, self._saved)))
        self._show_ways(stepping.ways(kind, look.doubts.get(kind), look.scene))

    def _show_ways(self, words: str) -> None:
        ways = self.put("#ways", self._said or (TYPING if self.is_typing else words))
        ways.set_class(bool(self._said), "-said")

    def on_resize(self) -> None:
        super().on_resize()
        self.show("")

    def _say(self, words: str) -> None:
        self._said = words
        self.show("")

    def touched(self) -> None:
        """What was said before is out of date."""
        self._said, self._saved, self._sure, self._leaving = "", (), False, False
        self.show("")

    @property
    def marked_page(self) -> Page | None:
        """The page of the handbook behind the marked reading."""
        return PAGES[self.kind] if self.kind is not None else None

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        if not self.is_mounted or action in ("leave", "quit", "help", "hush", "cautions", "journal"):
            return True
        return None if self.scene is None else True

    def action_filter_tray(self) -> None:
        """The next tray from the top down, and after the last one the whole bin."""
        if (stack := self.stack) is not None:
            around = [*(tray.id for tray in reversed(stack.trays)), None]
            place = around.index(self.tray) + 1 if self.tray in around else 0
            self.tray = around[place % len(around)]
            self.touched()

    def action_put_right(self) -> None:
        go(self.house, "put_right", self.key, self.tray)

    def action_undo(self) -> None:
        super().action_undo()
        self.touched()

    def action_go_on(self) -> None:
        """Save all that was read as one check, and say what was saved and what to do first."""
        self.house.look_again()
        scene = self.scene
        if scene is None or (scene.tray is None and self.tray is not None):
            self._say(GONE if scene is None else NO_TRAY)
            return
        hindered = obstacle(self.draft, self.draft.doubts(scene))
        if hindered is None or (hindered.may_insist and self._sure):
            self._save(scene)
            return
        self._sure = hindered.may_insist
        if hindered.kind is not None:
            self.readings.marked = [row.key for row in self.readings.rows].index(hindered.kind)
        self._say(hindered.words)

    def _save(self, scene: Scene) -> None:
        if self.house.save(self.key, [entry_of(self.draft, scene, self.house.now)]):
            told = saved_words(self.draft, scene)
            del self.drafts[self.tray]
            self.touched()
            self.house.say("Check saved. u takes it back")
            self._saved = told
            self.show("")

    def action_leave(self) -> None:
        if self.is_typing:
            self.action_stop_typing()
        elif self._may_go():
            self.house.pop_screen()

    def action_quit(self) -> None:
        if self._may_go():
            self.house.exit()

    def _may_go(self) -> bool:
        """What was read is not thrown away by one slip of a finger."""
        if self._leaving or all(draft.empty for draft in self.drafts.values()):
            return True
        self._leaving = True
        self._say(UNSAVED)
        return False


def _called(tray: str | None) -> str:
    return f"tray {tray}" if tray else "the whole bin"
