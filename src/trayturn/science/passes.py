"""What the passes so far tell of the rest of a separation: how many more, and how long the worms need.

Nothing is published on either; both models and all their figures are engineering choices, set so that without
a pass seen they say what common practice says: four or five passes (a trade figure), rests of 15 minutes.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from statistics import NormalDist

from trayturn.science.errors import OutOfRange, within

LITTLE_LEFT = 0.25
"""The share of a tray's contents below which another pass is not worth its rest."""
USUAL_PASSES = 4.5
TAKES = 1 - LITTLE_LEFT ** (1 / USUAL_PASSES)
"""What one pass takes of what is left, where the usual number leaves little: about 27 %."""
TRAYS_DIFFER, PASSES_DIFFER = 0.6, 0.5
"""How far trays lie apart, and the passes of one tray, standard deviations of the log-odds of that share."""
USUAL_REST = 15.0
LEFT_AFTER_REST = 0.05
"""The share of worms still in the layer to be skimmed after a rest that is long enough."""
WORMS_DIFFER = 0.5
"""How far worms' own time lies from the usual, standard deviation of its logarithm."""
NONE_BELOW, MANY_ABOVE, GLANCE = 0.02, 0.15, 0.5
"""Shares of the worms at which a keeper begins to say few, and many; and how far the eye is off, in logs."""
NONE_ABOVE, MANY_BELOW = 0.6, LITTLE_LEFT
"""Shares of the contents still in the tray above which a keeper sees no worms, and below which many."""
CENTRAL_80 = NormalDist().inv_cdf(0.9)
SEEN = ("none", "few", "many")


@dataclass(frozen=True, slots=True)
class Likely:
    """A figure with its band: four times in five it lies between `low` and `high`."""

    low: float
    mid: float
    high: float


def share_taken(shares: Sequence[float], before: Sequence[float] = ()) -> Likely:
    """What a pass takes of what is left, from the passes of this tray and of earlier ones; fractions.

    The log-odds are normal: the trays of a keeper lie around a mean of their own, which starts at the usual
    and is drawn to `before`; the passes of this tray draw it on. Raises `OutOfRange`.
    """
    mean, spread = _drawn(_log_odds(TAKES), TRAYS_DIFFER, before, math.hypot(TRAYS_DIFFER, PASSES_DIFFER))
    mean, spread = _drawn(mean, max(spread, PASSES_DIFFER / 2), shares, PASSES_DIFFER)
    return Likely(*(_share(mean + z * spread) for z in (-CENTRAL_80, 0.0, CENTRAL_80)))


def usual_of(shares: Sequence[float]) -> float:
    """One share for a tray weighed pass by pass: the middle of their log-odds. Raises `OutOfRange`."""
    if not shares:
        raise OutOfRange("There is no pass to tell a share from.")
    odds = [_log_odds(within(share, "The share of a pass", 0, 1)) for share in shares]
    return _share(math.fsum(odds) / len(odds))


def share_in(passes: float) -> float:
    """What one pass takes of what is left where so many leave little. Raises `OutOfRange`."""
    return 1 - math.exp(math.log(LITTLE_LEFT) / within(passes, "The number of passes", 1, 999))


def _drawn(mean: float, spread: float, shares: Sequence[float], each: float) -> tuple[float, float]:
    """A normal mean after so many readings of it: precisions add."""
    known = [_log_odds(within(share, "The share of a pass", 0, 1)) for share in shares]
    precision = 1 / spread**2 + len(known) / each**2
    return (mean / spread**2 + sum(known) / each**2) / precision, precision**-0.5


def _log_odds(share: float) -> float:
    share = min(0.99, max(0.01, share))
    return math.log(share / (1 - share))


def _share(log_odds: float) -> float:
    return 1 / (1 + math.exp(-log_odds))


def share_by_sight(seen: Sequence[str], takes: Likely) -> Likely:
    """What a pass takes of what is left where nothing was weighed, from the worms seen in each pass so far.

    The less is left, the closer the worms are together, and the more come off. `takes` is what is known of
    the share before; each glance counts by how well it fits what that share would have left. Raises
    `OutOfRange`.
    """
    mean, spread = _log_odds(takes.mid), (_log_odds(takes.high) - _log_odds(takes.low)) / 2 / CENTRAL_80
    grid = [mean + spread * (n - 200) / 50 for n in range(401)]
    weights = [
        math.exp(-0.5 * ((odds - mean) / spread) ** 2)
        * math.prod(_crowd(word, n * math.log(1 - _share(odds))) for n, word in enumerate(seen, 1))
        for odds in grid
    ]
    return Likely(*(_share(odds) for odds in _quantiles(grid, weights)))


def _crowd(seen: str, log_left: float) -> float:
    """How likely a keeper is to say so with that share of the contents left, given as its logarithm."""
    eye = NormalDist(log_left, GLANCE)
    return _likely(seen, 1 - eye.cdf(math.log(NONE_ABOVE)), eye.cdf(math.log(MANY_BELOW)))


def passes_after(done: int, takes: Likely) -> Likely:
    """Passes until little is left after so many, where nobody weighed what is left: whole, and none if so."""
    counts = (
        math.log(LITTLE_LEFT) / math.log(1 - share) - done for share in (takes.high, takes.mid, takes.low)
    )
    return Likely(*(float(max(0, math.ceil(count - 1e-9))) for count in counts))


def passes_left(left: float, takes: Likely) -> Likely:
    """Passes until little is left, whole: low where each takes much. None are left where little is.

    `left` is the share of the tray's contents still in it, 0 to 1. Raises `OutOfRange`.
    """
    within(left, "The share left", 0, 1)
    if left <= LITTLE_LEFT:
        return Likely(0, 0, 0)
    counts = (
        math.log(LITTLE_LEFT / left) / math.log(1 - share) for share in (takes.high, takes.mid, takes.low)
    )
    return Likely(*(float(math.ceil(count - 1e-9)) for count in counts))


def rest_needed(passes: Sequence[tuple[float, str]]) -> Likely:
    """Minutes until few enough worms are left in the layer, from rests in minutes and what was seen after.

    Worms leave a loosened layer at a steady rate, exp(-t / tau); tau is log-normal around what makes the
    usual rest long enough, and each glance counts by how well it fits. A pass in which the worms had nowhere
    lower to go tells nothing of the rest: it is to be left out. Raises `OutOfRange`.
    """
    fits = [_fits(within(rest, "The rest", 0.1, 1440, "minutes"), seen) for rest, seen in passes]
    weights = [before * math.prod(each) for before, *each in zip(_TAU_BEFORE, *fits, strict=True)]
    return Likely(*(math.exp(at) * -math.log(LEFT_AFTER_REST) for at in _quantiles(_LOG_TAUS, weights)))


_USUAL_LOG_TAU = math.log(USUAL_REST / -math.log(LEFT_AFTER_REST))
_LOG_TAUS = tuple(_USUAL_LOG_TAU + WORMS_DIFFER * (n - 200) / 50 for n in range(401))
_TAU_BEFORE = tuple(math.exp(-0.5 * ((at - _USUAL_LOG_TAU) / WORMS_DIFFER) ** 2) for at in _LOG_TAUS)


@lru_cache(maxsize=200)
def _fits(rest: float, seen: str) -> tuple[float, ...]:
    """How likely a keeper is to say so after that rest, minutes, for each of `_LOG_TAUS`.

    Kept, as the same few rests are asked about again at every look.
    """
    eyes = [NormalDist(-rest / math.exp(log_tau), GLANCE) for log_tau in _LOG_TAUS]
    none, many = math.log(NONE_BELOW), math.log(MANY_ABOVE)
    return tuple(_likely(seen, eye.cdf(none), 1 - eye.cdf(many)) for eye in eyes)


def _likely(seen: str, none: float, many: float) -> float:
    """How likely that word is, where `none` and `many` are as likely as given."""
    if seen not in SEEN:
        raise OutOfRange(f"{seen!r} is not one of {', '.join(SEEN)}.")
    return max(1e-9, {"none": none, "few": 1 - none - many, "many": many}[seen])


def _quantiles(grid: Sequence[float], weights: Sequence[float]) -> tuple[float, float, float]:
    """The 10th, 50th and 90th of a hundred of a density on an even grid."""
    total, so_far = sum(weights), 0.0
    found: list[float] = []
    wanted = [0.1, 0.5, 0.9]
    for at, weight in zip(grid, weights, strict=True):
        so_far += weight / total
        while len(found) < 3 and so_far >= wanted[len(found)]:
            found.append(at)
    found += [grid[-1]] * (3 - len(found))
    return found[0], found[1], found[2]
