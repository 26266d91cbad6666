"""Opening the screens. Nothing here but what the first frame needs."""

from __future__ import annotations

import difflib
import gc
import sys
from argparse import Namespace
from pathlib import Path

from trayturn.cli.commands import COMMANDS
from trayturn.cli.parsing import Refused
from trayturn.clock import Clock
from trayturn.storage.errors import NotFound
from trayturn.storage.home import home_dir, resolve


def open_screens(options: Namespace, clock: Clock) -> int:
    """Open the screens, on one bin where one is named."""
    home = home_dir(options.home)
    bin_path = _bin_path(home, options.bin) if options.bin else None
    need_terminal("What is due is told as text by: trayturn today")
    return show(home, bin_path, clock, options)


def need_terminal(instead: str) -> None:
    """Raise `Refused`, with what to do instead, where there is no terminal to show the screens on."""
    if not (sys.stdin.isatty() and sys.stdout.isatty()):
        raise Refused(f"The screens need a terminal. {instead}")


def show(home: Path, bin_path: Path | None, clock: Clock, options: Namespace) -> int:
    """Hand over to the screens until the keeper leaves them."""
    # What the first frame and the journals need is kept for good: sorting through it for waste takes a
    # fifth of the time. The app turns it on again once all is read.
    gc.disable()
    # A key is answered in many short turns, and while a journal is read it would wait 5 ms for each.
    sys.setswitchinterval(0.0005)
    from trayturn.tui.app import run

    return run(home, bin_path, clock, ascii=options.ascii, theme=options.theme)


def _bin_path(home: Path, words: str) -> Path:
    try:
        return resolve(home, words)
    except NotFound as error:
        close = difflib.get_close_matches(words, COMMANDS, n=1, cutoff=0.7)
        hint = f" Or did you mean the command: trayturn {close[0]}" if close else ""
        raise Refused(f"{error}{hint}") from None
