"""A tray of the usual bin being separated, move by move, from its first skim on."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta

from tests.builders import a_profile, a_usual_bin, entry, moment
from trayturn.domain.entries import (
    Amount,
    Contaminant,
    Entry,
    LotStage,
    Piece,
    Step,
)
from trayturn.domain.profile import Profile
from trayturn.domain.replay import replay, standing
from trayturn.domain.stack import Separation, Stack
from trayturn.procedure import separation as moves
from trayturn.procedure.separation import NewLot, Settling, Skim, Thing

NOW = moment(120)
STONES = Piece(what="avocado stone", count=2, size_cm=4.0)
COB = Piece(what="corn cob")
STICKERS = Thing(Contaminant.STICKER, 3, "banana")
SETTLING = Settling(
    2.5,
    "tray B",
    "tray B",
    "tray B",
    (STONES, COB),
    "B",
    (Thing(Contaminant.TAPE),),
    NewLot("A1", LotStage.HATCHING, "hatch tub"),
)


class Bench:
    """Tray A of the usual bin at its first skim, or further on."""

    def __init__(self) -> None:
        self.profile: Profile = a_profile(*a_usual_bin(), entry("worms_added", 1, worms_kg=1.0))
        self.now = NOW
        self.write(moves.begin("A", self.now))
        self.write(moves.ready(self.sep, self.profile.bin, self.now, 6.0, []))
        self.write(moves.loosened(self.sep, self.profile.bin, self.now))
        self.write(moves.rested(self.sep, self.now))

    def write(self, entries: Sequence[Entry], minutes: float = 1) -> None:
        self.profile = self.profile.with_entries(entries)
        self.now += timedelta(minutes=minutes)

    @property
    def stack(self) -> Stack:
        return replay(self.profile, self.now)

    @property
    def sep(self) -> Separation:
        found = self.stack.separation("A")
        assert found is not None
        return found

    @property
    def step(self) -> Step | None:
        return self.sep.step.step if self.sep.step else None

    @property
    def standing(self) -> list[Entry]:
        return [entry for _, entry in standing(self.profile.journal)]

    def settling(self) -> Bench:
        """One pass with two stones and three stickers, and no more of them."""
        skim = Skim(Amount.FEW, 1.0, pieces=(STONES,), found=(STICKERS,), note="damp")
        self.write(moves.skimmed(self.sep, skim, self.now))
        self.write(moves.stop(self.sep, self.now))
        return self

    def settled(self, settling: Settling = SETTLING) -> Bench:
        self.write(moves.settle(self.settling().sep, settling, self.now))
        return self

    def finished(self, settling: Settling = SETTLING) -> Separation:
        self.write(moves.finish(self.settled(settling).sep, self.now))
        return self.stack.past_separations[-1]


def kinds(entries: Sequence[Entry]) -> list[type[Entry]]:
    return [type(one) for one in entries]
