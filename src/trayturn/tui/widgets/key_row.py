"""The last line of every screen: its keys, and what they do. A click on one presses it.

Textual's own footer makes a widget of every key; one line of text is drawn in a tenth of the time.
"""

from __future__ import annotations

from textual.binding import Binding
from textual.content import Content
from textual.screen import Screen
from textual.style import Style
from textual.widgets import Static


class KeyRow(Static):
    """The keys that the screen shows, in their order. Those of no use now are dim."""

    ALLOW_SELECT = False
    DEFAULT_CSS = """
    KeyRow {
        height: 1;
        background: $title-ground;
        color: $on-title;
        text-wrap: nowrap;
        text-overflow: ellipsis;
    }
    """

    def on_mount(self) -> None:
        self.screen.bindings_updated_signal.subscribe(self, self.show)

    def show(self, screen: Screen[object]) -> None:
        """Draw the keys anew."""
        shown: dict[str, Content] = {}
        for active in screen.active_bindings.values():
            if active.binding.show and active.binding.action not in shown:
                shown[active.binding.action] = self._key(active.binding, active.enabled)
        keys = Content(" ").join(shown.values())
        self.update(keys, layout=False)

    def _key(self, binding: Binding, enabled: bool) -> Content:
        key = Content.styled(self.app.get_key_display(binding), "bold $footer-key-foreground")
        key = Content.assemble(key, f" {binding.description}")
        if not enabled:
            return key.stylize("dim")
        return key.stylize(Style.from_meta({"@click": f"app.simulate_key({binding.key!r})"}))
