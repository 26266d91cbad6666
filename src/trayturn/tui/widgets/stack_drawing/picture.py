"""What the drawing shows, as plain data: it knows nothing of journals or dates."""

from __future__ import annotations

from dataclasses import dataclass

from trayturn.advice.reading import Texture


@dataclass(frozen=True, slots=True)
class TrayPicture:
    """One tray. `fill` and `moisture` are fractions from 0 to 1; moisture is None where nobody has felt it.

    `worms` is a loose count of ticks, not of worms. `caption` is a second line inside a tall tray.
    """

    id: str
    stage_word: str
    texture: Texture
    age_days: float
    fill: float
    moisture: float | None = None
    moisture_words: str = ""
    worms: int = 0
    feed_next: bool = False
    separating: bool = False
    lifted: bool = False
    caption: str = ""

    @property
    def raised(self) -> bool:
        """Drawn with a gap under it: being separated on top of the stack, or in the keeper's hands."""
        return self.lifted or self.separating


@dataclass(frozen=True, slots=True)
class StackPicture:
    """A bin from the side. `trays` run from the bottom up.

    `sump_fill` is a fraction from 0 to 1, None if nobody has looked.
    """

    trays: tuple[TrayPicture, ...] = ()
    sump_fill: float | None = None
    sump_words: str = ""
    has_lid: bool = True
    has_sheet: bool = True

    def tray(self, tray_id: str | None) -> TrayPicture | None:
        return next((tray for tray in self.trays if tray.id == tray_id), None)

    @property
    def top_first(self) -> tuple[TrayPicture, ...]:
        """The trays as the eye meets them: those in hand, those being separated, then the stack downward."""
        downward = self.trays[::-1]
        return (
            *(tray for tray in downward if tray.lifted),
            *(tray for tray in downward if tray.separating and not tray.lifted),
            *(tray for tray in downward if not tray.raised),
        )
