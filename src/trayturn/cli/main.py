"""The way in: from the arguments to a command, and from every trouble to one sentence and an exit status."""

from __future__ import annotations

import argparse
import difflib
import os
import sys
from collections.abc import Sequence

from trayturn import clock
from trayturn.cli.commands import COMMANDS, OPEN
from trayturn.cli.parsing import USAGE, Parser, Refused, add_globals
from trayturn.storage.errors import NameRefused, NotFound, StorageError

FINDINGS = 1
INTERRUPTED = 130
READER_LEFT = 141

SUMMARY = """\
A companion for keepers of stacked-tray worm bins. Without a command it opens
the screens.

commands:
"""
EPILOG = """\
A BIN is a profile's short name, the path of its file, or its shown name.
Exit status: 0 done, 1 something was found wrong, 2 what was asked for cannot
be done.
"""


def main(argv: Sequence[str] | None = None) -> int:
    """Carry out one command line and return its exit status. Trouble goes to stderr, never as a traceback."""
    _open_streams()
    try:
        status = run(sys.argv[1:] if argv is None else argv)
        sys.stdout.flush()
        return status
    except SystemExit as stop:
        return int(stop.code or 0)
    except KeyboardInterrupt:
        return INTERRUPTED
    except BrokenPipeError:
        _hush_stdout()
        return READER_LEFT
    except Refused as refused:
        return _tell(str(refused), refused.status)
    except StorageError as trouble:
        return _tell(str(trouble), USAGE if isinstance(trouble, NotFound | NameRefused) else FINDINGS)
    except OSError as trouble:
        _hush_stdout()
        what = f"{trouble.filename} cannot be used" if trouble.filename else "The output could not be written"
        return _tell(f"{what}: {trouble.strerror or trouble}.", FINDINGS)


def run(argv: Sequence[str], now: clock.Clock | None = None) -> int:
    """Find the command and call it. A first word that is no command names a bin for the screens."""
    options = top_parser().parse_args(argv, argparse.Namespace(home=None, ascii=False, theme=None))
    command, rest = COMMANDS.get(options.command), options.rest
    if command is None:
        if any(not word.startswith("-") for word in rest[:1]):
            raise Refused(
                f"{options.command!r} is not a command{_nearest(options.command)} See trayturn --help."
            )
        command, rest = OPEN, ([options.command] if options.command else []) + rest
    command.parser().parse_args(rest, options)
    return command.function()(options, now or _clock())


def _nearest(word: str) -> str:
    close = difflib.get_close_matches(word, COMMANDS, n=1)
    return f", did you mean {close[0]}?" if close else "."


def _clock() -> clock.Clock:
    """The keeper's clock. Raises `Refused` for a clock file that shows no time."""
    chosen = clock.chosen_clock()
    try:
        chosen()
    except (OSError, ValueError) as error:
        raise Refused(f"The clock file that {clock.CLOCK_FILE} names shows no time: {error}.") from None
    return chosen


def top_parser() -> Parser:
    """The parser of what stands before the command's name."""
    width = max(map(len, COMMANDS)) + 2
    listing = "\n".join(f"  {name:{width}}{command.summary}" for name, command in COMMANDS.items())
    parser = Parser("trayturn", SUMMARY + listing, EPILOG)
    parser.usage = "trayturn [options] [BIN]\n       trayturn [options] COMMAND ..."
    parser.add_argument("command", nargs="?", help=argparse.SUPPRESS)
    parser.add_argument("rest", nargs=argparse.REMAINDER, help=argparse.SUPPRESS)
    add_globals(parser)
    return parser


def _open_streams() -> None:
    """A sign that the terminal cannot show becomes a question mark; a closed stream leads nowhere."""
    for name in ("stdin", "stdout", "stderr"):
        if getattr(sys, name) is None:
            setattr(sys, name, open(os.devnull, "r+", encoding="utf-8"))  # noqa: SIM115
    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(errors="replace")


def _hush_stdout() -> None:
    """Send what is still unwritten nowhere: the interpreter flushes once more on its way out."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _tell(message: str, status: int) -> int:
    print(f"trayturn: {message}", file=sys.stderr)
    return status
