"""A tray settled with its worms going to another bin: what is written in each of the two journals."""

from __future__ import annotations

from datetime import datetime

from trayturn.domain.entries import Entry, Step
from trayturn.domain.profile import Profile
from trayturn.domain.replay import replay_now
from trayturn.procedure.separation.moves import settle
from trayturn.procedure.separation.told import Settling
from trayturn.procedure.splitting import CannotSplit, Split, split_between

GONE_ON = "This separation has gone on in another window."


def settle_between(
    one: Profile, other: Profile, settling: Settling, worms: Split, now: datetime
) -> tuple[list[Entry], list[Entry]]:
    """The entries of both journals; `worms.tray` is the tray being settled. Raises `CannotSplit`.

    The separation is looked up in the journal as it stands: both files may have been written meanwhile.
    """
    sep = replay_now(one, now).separation(worms.tray or "")
    if sep is None or sep.step is None or sep.step.step is not Step.SETTLE:
        raise CannotSplit("when", GONE_ON)
    out, into = split_between(one, other, worms, now)
    settled, *after = settle(sep, settling, now)
    return [settled, *out, *after], into
