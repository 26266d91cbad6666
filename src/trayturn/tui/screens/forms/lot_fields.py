"""Fields that the forms of lots share."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime

from trayturn.domain.entries import Entry
from trayturn.tui.screens.forms.entry_forms import HEAVIEST_KG, LEAST_KG
from trayturn.tui.screens.forms.fields import Field, Option
from trayturn.tui.screens.forms.form import Values

NO_TRAY = Option("", "none of them")
YES_NO = (Option("", "no"), Option("yes", "yes"))
Parts = tuple[tuple[Field, ...], Callable[[Values, datetime], list[Entry]]]
"""What is asked, and what makes entries of the answers."""


def mass_field(name: str, label: str, hint: str = "such as 2.5 kg; empty if not weighed") -> Field:
    """A mass, kg, that may be left open."""
    return Field(name, label, "mass", hint, least=LEAST_KG, most=HEAVIEST_KG)
