"""The drawing of a stack of trays from the side."""

from trayturn.tui.widgets.stack_drawing.convert import picture_of
from trayturn.tui.widgets.stack_drawing.picture import StackPicture, TrayPicture
from trayturn.tui.widgets.stack_drawing.widget import StackDrawing

__all__ = ["StackDrawing", "StackPicture", "TrayPicture", "picture_of"]
