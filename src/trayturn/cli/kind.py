"""One kind of entry as it is typed after `log BIN`. Standard library only."""

from __future__ import annotations

from argparse import ArgumentParser
from collections.abc import Callable
from dataclasses import dataclass

from trayturn.cli.parsing import Parser, add_globals, add_json


@dataclass(frozen=True)
class Kind:
    """One kind of entry as it is typed."""

    name: str
    summary: str
    arguments: Callable[[ArgumentParser], None]

    def parser(self) -> Parser:
        """The parser of what follows the kind."""
        parser = Parser(f"trayturn log BIN {self.name}", self.summary)
        self.arguments(parser)
        if self.name != "undo":
            parser.add_argument("--at", metavar="TIME", help="when it happened, if not now")
            parser.add_argument(
                "--note", metavar="TEXT", default="", help="words of your own to keep with it"
            )
        add_json(parser)
        add_globals(parser)
        return parser
