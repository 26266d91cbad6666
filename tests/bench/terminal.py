"""A program in a real terminal of 120 by 40, and the moments at which it draws something.

`tests.terminal` reads whole screens; here only the time counts, so nothing is drawn and nothing waits.
"""

from __future__ import annotations

import fcntl
import os
import pty
import re
import select
import struct
import sys
import termios
import time
from pathlib import Path

TRAYTURN = "from trayturn.cli.main import main; raise SystemExit(main())"
FLOORS = "import sys; from tests.bench import floors; getattr(floors, sys.argv[1])(*sys.argv[2:])"
ROOT = Path(__file__).parents[2]
# Escape as terminals write it that tell it from the start of another key: else Textual waits 0.1 s to see.
KEYS = {"up": "\x1b[A", "down": "\x1b[B", "escape": "\x1b[27u", "enter": "\r"}
CONTROL = re.compile(rb"\x1b\[[0-9;?<>=$]*[A-Za-z]|\x1b\][^\x07]*\x07")


def environment(home: Path) -> dict[str, str]:
    """The environment of a keeper's terminal."""
    ours = ("TEXTUAL", "TRAYTURN")
    return {
        **{name: value for name, value in os.environ.items() if not name.startswith(ours)},
        "TERM": "xterm-256color",
        "COLORTERM": "truecolor",
        "PYTHONPATH": os.pathsep.join((str(ROOT / "src"), str(ROOT))),
        "TRAYTURN_HOME": str(home),
    }


class Run:
    """One run, from its first moment on. Times are of `time.perf_counter`, in seconds."""

    def __init__(self, code: str, *words: str, home: Path) -> None:
        self.began = time.perf_counter()
        self.pid, self._terminal = pty.fork()
        if self.pid == 0:
            fcntl.ioctl(0, termios.TIOCSWINSZ, struct.pack("HHHH", 40, 120, 0, 0))
            os.execve(sys.executable, [sys.executable, "-c", code, *words], environment(home))
        self._seen, self._from = bytearray(), 0

    @property
    def drawn(self) -> bytes:
        """What was drawn since the last key was pressed, without colours and moves."""
        return CONTROL.sub(b"", bytes(self._seen[self._from :]))

    @property
    def ever_drawn(self) -> bytes:
        """What was drawn since the run began."""
        return CONTROL.sub(b"", bytes(self._seen))

    def shown(self, words: str, within: float = 60) -> float:
        """Read until these words are drawn, and give the moment they were."""
        wanted = words.encode()
        end = time.perf_counter() + within
        while wanted not in self.drawn:
            if not self._read(end - time.perf_counter()):
                raise TimeoutError(f"{words!r} was never drawn: {self.drawn[-500:]!r}")
        return time.perf_counter()

    def changed(self) -> float:
        """Read until anything is drawn, and give the moment."""
        self._read(20)
        return time.perf_counter()

    def press(self, key: str, quiet: float = 0.03) -> float:
        """Press a key once nothing has been drawn for `quiet` seconds, and give the moment."""
        self.settle(quiet)
        self._from = len(self._seen)
        began = time.perf_counter()
        os.write(self._terminal, KEYS.get(key, key).encode())
        return began

    def settle(self, quiet: float) -> None:
        """Read until nothing has been drawn for so many seconds."""
        while self._read(quiet):
            pass

    def _read(self, within: float) -> bool:
        if within < 0 or not select.select([self._terminal], [], [], within)[0]:
            return False
        self._seen += os.read(self._terminal, 65536)
        return True

    def leave(self) -> float:
        """Press `q`, and give how long the program took to end, in seconds."""
        began = self.press("q")
        try:
            while self._read(20):
                pass
        except OSError:  # the terminal is closed: the program has ended
            pass
        os.waitpid(self.pid, 0)
        os.close(self._terminal)
        return time.perf_counter() - began

    def resident_mb(self) -> float:
        """The memory it holds, MB."""
        pages = int(Path(f"/proc/{self.pid}/statm").read_text().split()[1])
        return pages * os.sysconf("SC_PAGE_SIZE") / 1e6

    def busy_seconds(self) -> float:
        """How long it has been at work on any core since it began."""
        threads = Path(f"/proc/{self.pid}/task").iterdir()
        return sum(int((thread / "schedstat").read_text().split()[0]) for thread in threads) / 1e9
