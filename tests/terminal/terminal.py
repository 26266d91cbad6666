"""The program in a real terminal: a pseudo-terminal that runs it, and a screen that reads what it draws."""

from __future__ import annotations

import os
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pexpect
import pyte

KEYS = {
    "Enter": "\r",
    "Space": " ",
    "Escape": "\x1b",
    "Tab": "\t",
    "Up": "\x1b[A",
    "Down": "\x1b[B",
    "Right": "\x1b[C",
}


class Bell(pyte.Screen):
    """A screen that counts how often it was rung."""

    rung = 0

    def bell(self, *_: object) -> None:
        self.rung += 1


class Terminal:
    """One run of the program in a terminal of `columns` by `rows`, with its home and clock in files."""

    def __init__(self, home: Path, clock: Path, *words: str, columns: int = 80, rows: int = 24) -> None:
        self.screen = Bell(columns, rows)
        self.stream = pyte.ByteStream(self.screen)
        environment = {
            **{name: value for name, value in os.environ.items() if not name.startswith("TEXTUAL")},
            "TERM": "xterm-256color",
            "COLUMNS": str(columns),
            "LINES": str(rows),
            "TRAYTURN_HOME": str(home),
            "TRAYTURN_CLOCK": str(clock),
        }
        command = ["-m", "trayturn", *words]
        self.child = pexpect.spawn(
            sys.executable, command, env=environment, dimensions=(rows, columns), timeout=20
        )

    @property
    def text(self) -> str:
        """The screen as it stands, a line a row."""
        return "\n".join(line.rstrip() for line in self.screen.display)

    def wait_for(self, *words: str, seconds: float = 20, gone: str = "") -> str:
        """Read until the screen shows all these words and no longer `gone`; fail with the screen if not."""
        return self.wait_until(
            lambda text: all(word in text for word in words) and not (gone and gone in text),
            f"{words} (without {gone!r})",
            seconds,
        )

    def wait_for_count(self, word: str, times: int) -> str:
        """Read until the screen shows the word that many times."""
        return self.wait_until(lambda text: text.count(word) == times, f"{times} times {word!r}")

    def wait_until(self, holds: Callable[[str], bool], what: str = "a change", seconds: float = 20) -> str:
        """Read until the screen is as wanted; fail with the screen if it never is."""
        end = time.monotonic() + seconds
        while not holds(self.text):
            if time.monotonic() > end:
                raise AssertionError(f"waited for {what}; the screen shows:\n{self.text}")
            self._read()
        return self.text

    def _read(self) -> None:
        try:
            data = self.child.read_nonblocking(65536, timeout=0.05)
        except pexpect.TIMEOUT:
            return
        except pexpect.EOF as ended:
            raise AssertionError(f"the program ended; the screen shows:\n{self.text}") from ended
        self.stream.feed(data)

    def press(self, *keys: str) -> Terminal:
        """Press keys, by name or as text to type."""
        for key in keys:
            self.child.send(KEYS.get(key, key))
        return self

    def resize(self, columns: int, rows: int) -> None:
        """The window is drawn to another size."""
        self.screen.resize(rows, columns)
        self.child.setwinsize(rows, columns)

    def quit(self) -> None:
        """Leave with `q` and wait for the program to end."""
        self.press("q")
        self.child.expect(pexpect.EOF)
        self.child.close()

    def kill(self) -> None:
        """End the program without warning, as a crash or an empty battery would."""
        self.child.kill(9)
        self.child.expect(pexpect.EOF)
        self.child.close()
