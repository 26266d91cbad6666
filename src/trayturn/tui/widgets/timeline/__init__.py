"""The work ahead at several trays as a small timeline."""

from trayturn.tui.widgets.timeline.widget import Timeline

__all__ = ["Timeline"]
