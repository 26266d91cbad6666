"""A sheet laid over a screen: a title, a body that scrolls where it must, its keys, and the running rest."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeVar, cast

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Static

from trayturn.domain.words import clean
from trayturn.tui.widgets.rest_bar import RestBar

if TYPE_CHECKING:
    from trayturn.tui.app import TrayturnApp

Result = TypeVar("Result")


class Sheet(ModalScreen[Result]):
    """What every sheet shares. A rest that runs is seen on it too, and its bell can be hushed from it."""

    BINDINGS = [("m", "hush", "Hush")]
    DEFAULT_CSS = """
    Sheet {
        align: center middle;
        #sheet {
            width: 100%;
            max-width: 92;
            height: auto;
            max-height: 100%;
            background: $panel;
        }
        #sheet-title {
            dock: top;
            height: 1;
            padding: 0 2;
            background: $marked;
            text-style: bold;
            text-wrap: nowrap;
            text-overflow: ellipsis;
        }
        #sheet-foot {
            dock: bottom;
            height: auto;
            padding: 1 2 0 2;
        }
        #sheet-keys { height: auto; color: $quiet; }
        RestBar { dock: bottom; margin-bottom: 1; }
        /* The screen beneath is not laid out anew meanwhile, and would show a rest that is gone. */
        RestBar.-gone { display: block; background: $background; }
        #sheet-body {
            height: auto;
            max-height: 100%;
            padding: 1 1 0 2;
            overflow: hidden auto;
            scrollbar-gutter: stable;
            scrollbar-size: 0 1;
            scrollbar-background: $panel;
            scrollbar-color: $quiet;
        }
    }
    """

    def __init__(self, title: str, keys: str) -> None:
        super().__init__()
        self.sheet_title, self.keys = clean(title, 200), keys

    def compose(self) -> ComposeResult:
        with Vertical(id="sheet"):
            yield Static(Content(self.sheet_title), id="sheet-title")
            with Vertical(id="sheet-body"):
                yield from self.compose_body()
            with Vertical(id="sheet-foot"):
                yield from self.compose_foot()
                yield Static(Content(self.keys), id="sheet-keys")
        yield RestBar()

    def compose_body(self) -> ComposeResult:
        """What stands between the title and the keys."""
        yield from ()

    def compose_foot(self) -> ComposeResult:
        """What stands above the keys, and does not scroll."""
        yield from ()

    @property
    def house(self) -> TrayturnApp:
        """The app, by its own type."""
        return cast("TrayturnApp", self.app)

    def on_mount(self) -> None:
        self.tick()

    def tick(self) -> None:
        """One second has passed while something rests: redraw what counts down, and nothing else."""
        self.query_one(RestBar).show(self.house.rests, self.house.now)

    def action_hush(self) -> None:
        self.house.hush()
