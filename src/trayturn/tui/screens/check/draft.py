"""The readings being taken of one tray until they are saved: believed, doubted, or not to be read."""

from __future__ import annotations

from dataclasses import dataclass, field

from trayturn.advice.checking.kinds import Kind, Value
from trayturn.advice.checking.plausible import Doubt, doubt
from trayturn.advice.checking.scene import Scene
from trayturn.domain.units import UnitError
from trayturn.tui.screens.check import typed


@dataclass
class Draft:
    """`values` are readings that could be read; `texts` what was typed and could not, `faults` why.

    `insisted` are the doubted ones that the keeper keeps.
    """

    values: dict[Kind, Value] = field(default_factory=dict)
    texts: dict[Kind, str] = field(default_factory=dict)
    faults: dict[Kind, str] = field(default_factory=dict)
    insisted: set[Kind] = field(default_factory=set)

    @property
    def empty(self) -> bool:
        return not self.values and not self.texts

    def put(self, kind: Kind, value: Value | None) -> None:
        """A reading, or none: what was typed before in its place goes."""
        self.clear(kind)
        if value is not None:
            self.values[kind] = value

    def clear(self, kind: Kind) -> None:
        """The row is as if it had not been touched."""
        self.values.pop(kind, None)
        self.texts.pop(kind, None)
        self.faults.pop(kind, None)
        self.insisted.discard(kind)

    def type(self, kind: Kind, text: str, scene: Scene) -> None:
        """What is typed: a reading where it can be read, and otherwise kept with what is wrong with it."""
        self.clear(kind)
        try:
            value = typed.read(kind, text, scene.units)
        except UnitError as slip:
            self.texts[kind], self.faults[kind] = text, str(slip)
            return
        if value is not None:
            self.values[kind], self.texts[kind] = value, text

    def doubts(self, scene: Scene) -> dict[Kind, Doubt]:
        """What is wrong with readings that could be read, but for those insisted on."""
        found = ((kind, doubt(kind, value, scene)) for kind, value in self.values.items())
        return {
            kind: one
            for kind, one in found
            if one is not None and (one.impossible or kind not in self.insisted)
        }

    def seen_in(self, scene: Scene) -> Scene:
        """The scene with these readings taken, but for those that are refused or still asked about."""
        doubted = self.doubts(scene)
        return scene.taking({k: v for k, v in self.values.items() if k not in doubted})
