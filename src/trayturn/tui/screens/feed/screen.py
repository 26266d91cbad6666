"""The meal for the tray that is due: put together, seen through, and written down with one key."""

from __future__ import annotations

from dataclasses import replace

from textual import on, work
from textual.binding import Binding

from trayturn.advice.asking import must_read
from trayturn.advice.composing.composed import Composed
from trayturn.advice.composing.draft import Line, Part
from trayturn.advice.composing.minding import Mind
from trayturn.advice.composing.rationing import ration_out
from trayturn.advice.composing.telling import Figure
from trayturn.advice.composing.writing import NOTHING, entries
from trayturn.advice.pages import Page
from trayturn.domain.units import show_mass
from trayturn.domain.words import clean
from trayturn.procedure.turn_day import moment_on
from trayturn.tui.commands import FEED, bindings
from trayturn.tui.screens.cautions.sheet import CautionsSheet
from trayturn.tui.screens.feed import menu
from trayturn.tui.screens.feed.adding import AddPanel
from trayturn.tui.screens.feed.meal import MealFrame
from trayturn.tui.screens.feed.rows import ADD, MORE, PROPOSED, SHARE
from trayturn.tui.screens.stack import acts
from trayturn.tui.widgets.line_list import LineList
from trayturn.tui.widgets.reason import ReasonScreen

UNSAVED = "Not written down yet: Space does it. q once more leaves all the same."
MEANWHILE = "It was fed in another window meanwhile. Look again, then Space."
UNWEIGHED = "Handfuls of it have no weight yet: Enter types one."


class FeedScreen(MealFrame):
    """The meal on the left in feeding order, what comes of it on the right; Space writes it down."""

    PLACE = FEED
    BINDINGS = [
        *bindings(FEED),
        *(Binding(str(n), f"measured({n})", str(n), show=False) for n in range(1, 10)),
    ]

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        if not self.is_mounted or action in ("leave", "quit", "help", "hush", "cautions"):
            return True
        return None if self.made is None else True

    def action_more(self) -> None:
        self._step(1)

    def action_less(self) -> None:
        self._step(-1)

    def _step(self, by: int) -> None:
        key = self.meal.marked_key
        self.desk.step(key, by)
        self.changed(key)

    def action_measured(self, number: int) -> None:
        """So many handfuls of the marked line, or of what it was measured by."""
        key = self.meal.marked_key
        if self.desk.measure(key, number):
            self.changed(key)
        else:
            self.say(UNWEIGHED)

    def action_archive(self) -> None:
        """Take the marked line out."""
        if self.made is not None:
            self.change(self.made.draft.out(self.meal.marked_key))

    def action_filter_kind(self) -> None:
        """Another meal to begin with."""
        self.desk.next_meal()
        self.changed(self.first)

    def action_filter_tray(self) -> None:
        """Another tray to feed."""
        self.desk.next_tray()
        self.lay_anew()

    async def action_start(self) -> None:
        """Add an ingredient."""
        if self.made is not None and self.desk.larder is not None:
            # Made when it is first needed: a meal of last time's scraps is opened without it.
            if not self.query(AddPanel):
                await self.query_one("#meal-side").mount(AddPanel(id="adding"))
            self.add_class("-adding")
            self.query_one(AddPanel).begin(self.made.ground, self.desk.larder)

    @on(AddPanel.Tried)
    def _tried(self, event: AddPanel.Tried) -> None:
        """The figures as they would be with it."""
        self.draw_figures(self.desk.tried(event.line))

    @on(AddPanel.Added)
    def _added(self, event: AddPanel.Added) -> None:
        self.desk.add(event.line)
        self.changed(event.line.key)
        if self.made is not None and self.desk.larder is not None:
            told = f"{clean(event.line.name, 16)} {show_mass(event.line.kg, self.made.ground.units)}"
            self.query_one(AddPanel).begin(self.made.ground, self.desk.larder, f"{told} is in. What else?")

    @on(AddPanel.Left)
    def _leave_adding(self) -> None:
        self.remove_class("-adding")
        self.meal.focus()
        self.draw()

    @on(LineList.Opened)
    async def action_open(self) -> None:
        """Enter: why, on the figures; else what the marked row is for."""
        made, key = self.made, self.meal.marked_key
        if made is None or self.has_class("-adding"):
            return
        if self.focused is self.query_one("#figures"):
            self._tell_why(made)
        elif key == ADD:
            await self.action_start()
        elif key == MORE:
            self._ask_more(made)
        elif key == PROPOSED:
            self.change(made.proposal.draft)
        elif key == SHARE:
            self._share(made)
        elif self.line is not None:
            self._type_amount(made, self.line)

    def _share(self, made: Composed) -> None:
        """What spoils first goes in now, the rest waits."""
        found = ration_out(made.draft, made.ground)
        self.change(found.draft)
        self.app.push_screen(ReasonScreen("Now and later", menu.shared(found, made.ground), Page.MEALS))

    def _tell_why(self, made: Composed) -> None:
        match self.marked_figure:
            case Mind() as one:
                self.app.push_screen(
                    ReasonScreen(one.what, [one.why, "", f"Source: {one.source}."], one.page)
                )
            case Figure() as one:
                title = f"{one.label}: {', '.join(filter(None, one.words))}"
                self.app.push_screen(ReasonScreen(title, made.why(one.code), one.page))

    @work
    async def _ask_more(self, made: Composed) -> None:
        await menu.ask(self, made)

    @work
    async def _type_amount(self, made: Composed, line: Line) -> None:
        await menu.type_amount(self, made, line)

    @work
    async def action_note(self) -> None:
        """Words to keep with this meal."""
        if self.made is not None:
            await menu.note_down(self, self.made)

    def with_note(self, text: str) -> None:
        """The meal with a note."""
        if self.made is not None:
            self.change(replace(self.made.draft, note=text))
            self.say("Your note is kept with the meal once Space records it." if text else "No note.")

    def action_feed_by_form(self) -> None:
        """The typed form in the place of this screen, for a past day or for clean hands."""
        tray = self.made.draft.tray if self.made is not None else None
        self.action_leave()
        acts.feed_by_form(self.house, self.key, tray)

    def action_go_on(self) -> None:
        """Write the meal down, and the caddy where it is another than before."""
        made, stack = self.made, self.desk.stack
        if made is None or stack is None or self._fed_meanwhile():
            return
        written = entries(made.draft, stack.caddy_kg, moment_on(stack, self.house.now))
        if not written:
            self.say(NOTHING)
        elif made.draft.kg(Part.GRIT) and must_read(stack, "grit", self.house.now):
            self.house.push_screen(CautionsSheet(self.key, "grit"), self._after_cautions)
        elif self.house.save(self.key, written):
            self.house.left_off.pop((FEED, self.key), None)
            self.house.pop_screen()
            self.house.say("What waits is saved." if made.draft.empty else "Feeding saved. u takes it back")

    def _after_cautions(self, done: bool | None) -> None:
        if done:
            self.action_go_on()

    def _fed_meanwhile(self) -> bool:
        """Whether another window has fed this bin since this was drawn."""
        before = self.desk.stack
        self.house.look_again()
        if self.stack is not None and before is not None and self.stack.last_fed_at == before.last_fed_at:
            return False
        self.show("")
        self.say(MEANWHILE)
        return True

    def action_leave(self) -> None:
        """An unfinished meal is kept until the program is left."""
        if self.has_class("-adding"):
            if not self.query_one(AddPanel).back():
                self._leave_adding()
            return
        kept = self.leave_off()
        self.house.pop_screen()
        if kept:
            self.house.say("Not written down. f goes on with this meal")

    def action_quit(self) -> None:
        """What is not written down is not thrown away by one slip of a finger."""
        if self.desk.touched and not self.warned:
            self.warned = True
            self.say(UNSAVED)
        else:
            super().action_quit()
