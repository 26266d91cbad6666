"""What a tray holds that never becomes castings: pieces that go round again, and what does not belong."""

from trayturn.advice.found.hints import Hint, source_hints
from trayturn.advice.found.overs import Going, Went, going_round, went
from trayturn.advice.found.sources import KindFound, Noted, Source, kinds_found, noted, sources

__all__ = [
    "Going",
    "Hint",
    "KindFound",
    "Noted",
    "Source",
    "Went",
    "going_round",
    "kinds_found",
    "noted",
    "source_hints",
    "sources",
    "went",
]
