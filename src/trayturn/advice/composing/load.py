"""How much a meal asks of the worms: it and what is uneaten, against what they take until the next one."""

from __future__ import annotations

from dataclasses import dataclass

from trayturn.advice.bands import Band
from trayturn.advice.composing.draft import Draft
from trayturn.advice.composing.ground import Ground

WORDS = (
    (0.05, "next to nothing for them"),
    (0.18, "little of what they take"),
    (0.38, "a quarter of what they take"),
    (0.63, "about half of what they take"),
    (0.88, "most of what they take"),
    (1.13, "about what they take"),
    (1.38, "somewhat more than they take"),
    (1.75, "1.5 times what they take"),
    (2.5, "twice what they take"),
)
"""Up to which share the words hold."""
MORE = 1.13
"""From this share on it is more than they take, as the words have it."""


@dataclass(frozen=True, slots=True)
class Load:
    """Masses in kg. `takes` is what the worms take until the next feeding, by the household norm.

    `share` is what there is to eat against that; None where the worms take nothing. `level` is 0 while
    they can take it, 1 where only the upper end of the norm does, 2 beyond that.
    """

    meal_kg: float
    uneaten_kg: Band
    takes_kg: Band
    share: Band | None
    level: int

    @property
    def kg(self) -> float:
        """All there is to eat."""
        return self.meal_kg + self.uneaten_kg.mid

    @property
    def room_kg(self) -> float:
        """What still fits beside what is uneaten."""
        return max(0.0, self.takes_kg.mid - self.uneaten_kg.mid)

    @property
    def words(self) -> str:
        """`about half of what they take`, in at most 30 letters."""
        if self.share is None:
            return "they take nothing now"
        times = self.share.mid
        more = f"{times:.0f} times what they take" if times < 100 else "far more than they take"
        return next((words for most, words in WORDS if times < most), more)


def load_of(draft: Draft, ground: Ground) -> Load:
    """The load of a meal. What is uneaten counts with its band; the meal as it is."""
    meal = sum(line.kg for line in ground.food(draft))
    uneaten = ground.contents.uneaten_kg
    takes = takes_of(ground)
    if takes.mid <= 0:
        return Load(meal, uneaten, takes, None, 2 if meal > 0 else 0)
    share = Band(
        (meal + uneaten.low) / takes.high,
        (meal + uneaten.mid) / takes.mid,
        (meal + uneaten.high) / takes.low if takes.low > 0 else float("inf"),
    )
    beyond = (meal + uneaten.mid) > takes.high
    return Load(meal, uneaten, takes, share, 2 if beyond else int(share.mid >= MORE))


def takes_of(ground: Ground) -> Band:
    """What the worms take until the next feeding, kg: the household norm, and its middle."""
    low, high = ground.ration.norm
    return Band(low, (low + high) / 2, high).times(ground.days)
