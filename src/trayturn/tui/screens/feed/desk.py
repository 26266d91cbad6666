"""The meal that a feeding screen holds in its hands: what it began as, what it is now, and how it changes."""

from __future__ import annotations

from dataclasses import replace

from trayturn.advice.composing.composed import Composed, compose
from trayturn.advice.composing.draft import ALONE, Draft, Line
from trayturn.advice.composing.ground import Goals, ground_of, tray_to_feed, trays_to_feed
from trayturn.advice.composing.larder import Larder
from trayturn.advice.composing.offers import Offer, offers
from trayturn.advice.composing.recent import History
from trayturn.advice.pantry import Pantry
from trayturn.domain.stack import Stack

HANDFUL = "handful"
UNFINISHED, MINE = "unfinished", "as you had it"


class Desk:
    """One meal. `made` is None while there is no tray to feed; `said` tells where the meal is from."""

    def __init__(self, tray: str | None) -> None:
        self.made: Composed | None = None
        self.larder: Larder | None = None
        self.stack: Stack | None = None
        self.said = ""
        self._marked_tray = tray
        self._offers: list[Offer] = []
        self._begun: Draft | None = None
        self._mine: Draft | None = None

    @property
    def touched(self) -> bool:
        """Whether the keeper has changed something that is not written down."""
        return self.made is not None and self.made.draft != self._begun

    def lay(
        self, stack: Stack, pantry: Pantry, history: History, goals: Goals | None, unfinished: Draft | None
    ) -> None:
        """Lay the meal on the bin as it stands now: the draft stays, what waits in the caddy follows it."""
        before, self.stack = self.stack, stack
        draft = self.made.draft if self.made is not None else unfinished
        tray = draft.tray if draft is not None else tray_to_feed(stack, self._marked_tray)
        ground = ground_of(stack, tray, pantry, goals) if tray else None
        if ground is None:
            self.made = None
            return
        self.larder, self._offers = Larder(pantry, history), offers(ground, history)
        if draft is None:
            self._begin(self._offers[0], compose(self._offers[0].draft, ground))
            return
        if self._begun is None:
            self._begun, self.said = Draft(draft.tray), UNFINISHED
        if before is not None and before.caddy_kg != stack.caddy_kg:
            draft = draft.with_caddy(before.caddy_kg, stack.caddy_kg)
        self.made = compose(draft, ground)

    def _begin(self, offer: Offer, made: Composed) -> None:
        self._begun, self.said, self.made = offer.draft, offer.said, made

    def forget(self) -> None:
        """The bin cannot be read: there is nothing to lay a meal on."""
        self.made = self.stack = None

    def change(self, draft: Draft) -> None:
        """The meal is another: all that comes of it follows."""
        if self.made is not None:
            self.made = compose(draft, self.made.ground)

    def tried(self, line: Line | None) -> Composed | None:
        """What would come of the meal with so much more of a thing."""
        if self.made is None or line is None:
            return self.made
        return compose(self.made.draft.plus(line), self.made.ground)

    def add(self, line: Line) -> None:
        """So much more of a thing."""
        if self.made is not None:
            self.change(self.made.draft.plus(line))

    def step(self, key: str, by: int) -> None:
        """More or less of a line: by its measure where it has one, else by a step of its size."""
        made = self.made
        line = made.draft.at(key) if made is not None else None
        if made is None or line is None:
            return
        weighed = made.ground.measures.weigh(line.measure, line.name) if line.measure else None
        step = made.draft.more if by > 0 else made.draft.less
        self.change(step(key, made.ground.units, weighed.kg if weighed is not None else None))

    def measure(self, key: str, number: int) -> bool:
        """So many handfuls of a line, or of what it was measured by. False where those have no weight."""
        made = self.made
        line = made.draft.at(key) if made is not None else None
        if made is None or line is None:
            return True
        word = line.measure or HANDFUL
        weighed = made.ground.measures.weigh(word, line.name) if line.part not in ALONE else None
        if weighed is None:
            return False
        self.change(made.draft.set(line.part, line.name, number * weighed.kg, word))
        return True

    def next_meal(self) -> None:
        """Another meal to begin with. One that was changed by hand stays in the round."""
        made = self.made
        if made is None:
            return
        if self.touched:
            self._mine = made.draft
        mine = [Offer(MINE, self._mine)] if self._mine is not None else []
        offered = [*self._offers, *mine]
        place = next((n for n, offer in enumerate(offered) if offer.said == self.said), len(offered) - 1)
        offer = offered[(place + 1) % len(offered)]
        draft = replace(offer.draft, tray=made.draft.tray)
        self._begin(Offer(offer.said, draft), compose(draft, made.ground))

    def next_tray(self) -> None:
        """Another tray for the same meal, from the top down. It is to be laid anew."""
        made, stack = self.made, self.stack
        if made is None or stack is None:
            return
        trays = trays_to_feed(stack)
        place = trays.index(made.draft.tray) if made.draft.tray in trays else -1
        tray = trays[(place + 1) % len(trays)]
        if not self.touched and self._begun is not None:
            self._begun = replace(self._begun, tray=tray)
        self.made = replace(made, draft=replace(made.draft, tray=tray))
