"""Arguments that several commands share. Standard library only."""

from __future__ import annotations

from argparse import ArgumentParser

from trayturn.cli.parsing import add_json, add_reading

BIN = "a profile's short name, the path of its file, or its shown name"


def one(parser: ArgumentParser) -> None:
    """A bin that has to be named."""
    parser.add_argument("bin", metavar="BIN", help=BIN)


def one_read(parser: ArgumentParser) -> None:
    """One bin to read."""
    one(parser)
    add_reading(parser)


def any_read(parser: ArgumentParser) -> None:
    """One bin, or all of them where none is named."""
    parser.add_argument("bin", metavar="BIN", nargs="?", help=f"{BIN}; none for all bins")
    add_reading(parser)


def table(parser: ArgumentParser) -> None:
    """A table to look in."""
    parser.add_argument("--bin", metavar="BIN", help="look among this bin's own ingredients first")
    add_json(parser)


def temperature(parser: ArgumentParser) -> None:
    """A temperature that has to be given."""
    parser.add_argument("--temperature", metavar="T", required=True, help="Celsius, such as 18, or 65F")
