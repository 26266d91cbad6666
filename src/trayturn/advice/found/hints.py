"""What to do before something goes in, because of what came in with it before."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

from trayturn.advice.found.kinds import REMEDIES, counted
from trayturn.advice.found.sources import A_YEAR, Source, open_sources
from trayturn.domain.entries import Contaminant
from trayturn.domain.stack import Stack
from trayturn.domain.words import clean, listed
from trayturn.science.finding import stems

FILLERS = frozenset(
    stems("from with in on out my our their old dry fresh shredded torn cut chopped raw whole loose waste")
)
"""Words that tell no source from another."""


@dataclass(frozen=True, slots=True)
class Hint:
    """What came in with a source, and what to do about it. `name` is what is about to go in."""

    name: str
    source: Source

    @property
    def what(self) -> str:
        """`3 stickers came in with banana: peel them off before feeding.`"""
        came = listed(counted(self.source.year))
        return f"{came} came in with {clean(self.source.name, 40)}: {self.do}."

    @property
    def do(self) -> str:
        """What to do about each kind, the most found first; each said once."""
        kinds = sorted(self.source.year.items(), key=lambda pair: (-pair[1], pair[0]))
        return "; ".join(dict.fromkeys(REMEDIES[kind].do for kind, _ in kinds))

    @property
    def why(self) -> str:
        """What it rests on."""
        first: Contaminant = max(self.source.year, key=lambda kind: self.source.year[kind])
        return (
            f"Found within the last {A_YEAR.days} days, last on {self.source.last_at:%Y-%m-%d}. "
            f"{REMEDIES[first].why} Say that the source is stopped, and this is not said again."
        )


@lru_cache(maxsize=1000)
def telling_words(name: str) -> frozenset[str]:
    """The words of a name that tell what it is: of `Cardboard from parcels` cardboard and parcel."""
    return frozenset(stems(name)) - FILLERS


def same_thing(name: str, source: str) -> bool:
    """Whether what goes in may be what a source names: all telling words of one are in the other.

    So `banana peel` is meant by `bananas`, and `shredded cardboard` by `cardboard from parcels`; but not
    `potato peel` by `banana peel`.
    """
    one, other = telling_words(name), telling_words(source)
    return bool(one and other) and (one <= other or other <= one)


def source_hints(stack: Stack, names: Iterable[str]) -> list[Hint]:
    """What to mind about what is about to go in: at most one hint for each source, the worst first."""
    named = list(dict.fromkeys(names))
    found = []
    for source in open_sources(stack):
        name = next((one for one in named if same_thing(one, source.name)), None)
        if name is not None:
            found.append(Hint(name, source))
    return found
