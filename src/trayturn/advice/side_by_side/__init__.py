"""Several separations and one pair of hands: where they are needed now, where next, and when all is done."""

from trayturn.advice.side_by_side.plan import Planned, SideBySide, side_by_side

__all__ = ["Planned", "SideBySide", "side_by_side"]
