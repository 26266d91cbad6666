"""Pictures of stacks for the tests of the drawing."""

from __future__ import annotations

from dataclasses import replace

from textual.app import App, ComposeResult

from trayturn.advice.reading import Texture
from trayturn.tui import themes
from trayturn.tui.widgets.stack_drawing import StackDrawing, StackPicture, TrayPicture

FRESH = TrayPicture("D", "bedding", Texture.DRY_SHREDS, 3, 0.9, 0.35, "dry 35 %")
SOAKED = TrayPicture("C", "bedding", Texture.SOAKED, 64, 0.75, 0.6, "damp 60 %")
FINISHING = TrayPicture("B", "finishing", Texture.CASTINGS, 151, 0.5, 0.74, "moist 74 %", worms=2)
FED = TrayPicture(
    "A", "feeding", Texture.FOOD, 96, 0.8, 0.84, "wet 84 %", 6, True, caption="5 feedings, 3 kg"
)
SEPARATING = TrayPicture("E", "separating", Texture.CASTINGS, 188, 0.45, worms=5, separating=True)
IN_HAND = replace(FRESH, id="F", lifted=True)

FOUR = StackPicture((FRESH, SOAKED, FINISHING, FED), 0.4, "1.6 l")
RESTING = StackPicture((FRESH, SOAKED, FINISHING, FED, SEPARATING), 0.4, "1.6 l")
MOVING = StackPicture((IN_HAND, SOAKED, FED, FINISHING), None, "?", has_lid=False, has_sheet=False)


def of(count: int) -> StackPicture:
    """A stack of that many trays, fed on top."""
    trays = (*(replace(SOAKED, id=str(level)) for level in range(1, count)), FED)
    return StackPicture(trays[len(trays) - count :], 0.2, "800 ml")


class DrawingApp(App[None]):
    """An app of one drawing that keeps what the drawing says."""

    def __init__(self, drawing: StackDrawing, theme: str = themes.LOAM.name) -> None:
        super().__init__()
        self.drawing, self.heard, self._wanted = drawing, list[str](), theme
        self.ascii = False

    def get_theme_variable_defaults(self) -> dict[str, str]:
        return themes.drawing_defaults(self.current_theme.dark)

    def compose(self) -> ComposeResult:
        yield self.drawing

    def on_mount(self) -> None:
        themes.register(self)
        self.theme = self._wanted

    def on_stack_drawing_selected(self, message: StackDrawing.Selected) -> None:
        self.heard.append(f"selected {message.tray}")

    def on_stack_drawing_opened(self, message: StackDrawing.Opened) -> None:
        self.heard.append(f"opened {message.tray}")
