"""From a stack as it stands to the picture of it."""

from __future__ import annotations

from trayturn.advice.reading import Texture, fill, moisture_of, texture
from trayturn.domain.entries import Stage
from trayturn.domain.setup import Units
from trayturn.domain.stack import Stack, TrayState
from trayturn.domain.units import show_mass, show_volume
from trayturn.domain.words import count, masses
from trayturn.tui.widgets.stack_drawing.picture import StackPicture, TrayPicture

WORM_TICKS = {Stage.FEEDING: 6, Stage.FINISHING: 2, Stage.SEPARATING: 4}
"""Where worms are drawn: most where food is, few where it is eaten, none in bedding. A hint, not a count."""


def picture_of(stack: Stack, feed_tray: str | None) -> StackPicture:
    """The picture of a stack; `feed_tray` is the id of the tray to mark for feeding."""
    volume = stack.sump.volume_l
    return StackPicture(
        trays=tuple(_tray(tray, stack, tray.id == feed_tray) for tray in stack.trays),
        sump_fill=None if volume is None else min(1.0, volume / stack.setup.sump_capacity_l),
        sump_words="?" if volume is None else show_volume(volume, stack.setup.units),
    )


def _tray(tray: TrayState, stack: Stack, feed_next: bool) -> TrayPicture:
    moisture = moisture_of(tray)
    looks = texture(tray)
    worms = WORM_TICKS.get(tray.stage, 0) if stack.worms_kg is None or stack.worms_kg > 0 else 0
    return TrayPicture(
        id=tray.id,
        stage_word=str(tray.stage),
        texture=looks,
        age_days=tray.days_on_stack,
        fill=fill(tray, stack.setup).fraction,
        moisture=None if moisture.percent is None else moisture.percent / 100,
        moisture_words=moisture.word if moisture.by_feel else _measured(moisture.word, moisture.percent),
        worms=worms if looks is not Texture.DRY_SHREDS else 0,
        feed_next=feed_next,
        separating=tray.stage is Stage.SEPARATING,
        caption=_caption(tray, stack.setup.units),
    )


def _measured(word: str, percent: float | None) -> str:
    return "" if percent is None else f"{word} {percent:.0f} %"


def _caption(tray: TrayState, units: Units) -> str:
    """What is in the tray, in a few words."""
    if tray.feedings:
        return f"{count(tray.feedings, 'feeding')}, {show_mass(tray.fed_kg, units)}"
    return masses(tray.bedding_kg, units, most=1)
