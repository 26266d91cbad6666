"""How arguments are read. Standard library only, so that asking for help costs nothing."""

from __future__ import annotations

import argparse
from datetime import datetime
from typing import NoReturn

from trayturn import __version__

USAGE = 2
EARLIEST, LATEST = 1900, 2999


class Refused(Exception):
    """Something asked for that cannot be done. The message is one or two sentences for the keeper."""

    def __init__(self, message: str, status: int = USAGE) -> None:
        super().__init__(message)
        self.status = status


class Parser(argparse.ArgumentParser):
    """An argument parser that takes no guesses at option names and tells a slip in one sentence."""

    def __init__(self, prog: str, summary: str, epilog: str = "") -> None:
        super().__init__(
            prog=prog,
            description=summary,
            epilog=epilog or None,
            allow_abbrev=False,
            formatter_class=argparse.RawDescriptionHelpFormatter,
        )

    def error(self, message: str) -> NoReturn:
        """Raise `Refused` with the slip and where to look."""
        raise Refused(f"{message[:1].upper()}{message[1:]}. See {self.prog} --help.")


def add_globals(parser: argparse.ArgumentParser) -> None:
    """The options that every command takes, before its name or after it.

    Their defaults are left out, so that a command's parser never takes back what stood before its name.
    """
    group = parser.add_argument_group("everywhere")
    suppress = argparse.SUPPRESS
    group.add_argument(
        "--version", action="version", version=f"trayturn {__version__}", help="show the version"
    )
    group.add_argument("--home", metavar="DIR", default=suppress, help="the folder that holds the profiles")
    group.add_argument(
        "--ascii", action="store_true", default=suppress, help="plain ASCII signs and drawings"
    )
    group.add_argument(
        "--theme", choices=("dark", "light"), default=suppress, help="the colours of the screens"
    )


def add_reading(parser: argparse.ArgumentParser) -> None:
    """The options of a command that only reads."""
    parser.add_argument(
        "--at", metavar="TIME", help="as of a moment: 2026-03-01, 2026-03-01 10:00 or RFC 3339"
    )
    add_json(parser)


def add_json(parser: argparse.ArgumentParser) -> None:
    """The choice of data for a script over text for a person."""
    parser.add_argument("--json", action="store_true", help="print one JSON object")


def read_moment(text: str, option: str = "--at") -> datetime:
    """A moment as typed. Without an offset it is in the machine's zone; a day alone is its first moment.

    Raises `Refused` for anything else, and for years in which no bin is kept.
    """
    try:
        moment = datetime.fromisoformat(text.strip())
        if EARLIEST <= moment.year <= LATEST:
            return moment if moment.tzinfo else moment.astimezone()
    except (ValueError, OverflowError):
        pass
    raise Refused(
        f"{option} {text!r} is not a time; type 2026-03-01, 2026-03-01 10:00 or 2026-03-01T10:00:00+01:00."
    )


def moment_asked(options: argparse.Namespace, now: datetime) -> datetime:
    """The moment that `--at` names, or now."""
    return read_moment(options.at) if options.at else now
