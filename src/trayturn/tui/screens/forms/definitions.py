"""Every form, in one place to import from."""

from trayturn.tui.screens.forms.bin_forms import NewBin, change_form, copy_form, new_bin_form
from trayturn.tui.screens.forms.entry_forms import (
    check_form,
    feed_form,
    last_feeding,
    note_form,
)
from trayturn.tui.screens.forms.form import Form
from trayturn.tui.screens.forms.found_form import found_form
from trayturn.tui.screens.forms.store_forms import supplies_form
from trayturn.tui.screens.forms.tray_form import start_form
from trayturn.tui.screens.forms.worms_form import Moving, worms_form

__all__ = [
    "Form",
    "Moving",
    "NewBin",
    "change_form",
    "check_form",
    "copy_form",
    "feed_form",
    "found_form",
    "last_feeding",
    "new_bin_form",
    "note_form",
    "start_form",
    "supplies_form",
    "worms_form",
]
