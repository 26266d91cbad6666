"""Every command: its name, its words of help, its arguments, and where its function lives.

Standard library only: a command's own module is imported when that command is run.
"""

from __future__ import annotations

from argparse import REMAINDER, ArgumentParser, Namespace
from collections.abc import Callable
from dataclasses import dataclass
from importlib import import_module

from trayturn.cli import arguments, arguments_bins, arguments_numbers
from trayturn.cli.kinds import kinds_listing
from trayturn.cli.parsing import Parser, add_globals, add_json, add_reading
from trayturn.clock import Clock

ABOUT_JSON = """\
With --json the answer is one object; a list stands under a key of its own.
Masses are kg, volumes litres, temperatures degrees Celsius, times RFC 3339,
ages days as numbers. What is not known is null.
"""


@dataclass(frozen=True)
class Command:
    """One command. `calls` names its function as `module:function` of this package."""

    name: str
    summary: str
    calls: str
    arguments: Callable[[ArgumentParser], None]
    epilog: str = ""

    def parser(self) -> Parser:
        """The parser of what follows the command's name."""
        parser = Parser(f"trayturn {self.name}".rstrip(), self.summary, self.epilog)
        self.arguments(parser)
        add_globals(parser)
        return parser

    def function(self) -> Callable[[Namespace, Clock], int]:
        """The function that carries the command out and returns its exit status."""
        module, name = self.calls.split(":")
        found: Callable[[Namespace, Clock], int] = getattr(import_module(f"trayturn.cli.{module}"), name)
        return found


def _screens(parser: ArgumentParser) -> None:
    parser.add_argument("bin", metavar="BIN", nargs="?", help=arguments.BIN)


def _log(parser: ArgumentParser) -> None:
    arguments.one(parser)
    parser.add_argument(
        "what", metavar="KIND ...", nargs=REMAINDER, help="what happened, and what that kind needs"
    )
    parser.usage = "trayturn log BIN KIND ..."
    parser.epilog = kinds_listing()


def _cautions(parser: ArgumentParser) -> None:
    parser.add_argument("--work", metavar="W", help="only those for one kind of work, such as separation")
    add_json(parser)


def _verify(parser: ArgumentParser) -> None:
    parser.add_argument("files", metavar="FILE", nargs="+", help="the path of a profile, or its short name")
    add_json(parser)


def _demo(parser: ArgumentParser) -> None:
    parser.add_argument("--plain", action="store_true", help="print the tour as text, without the screens")
    parser.add_argument("--clock-rate", metavar="N", default="1", help="run the clock N times as fast")
    parser.add_argument(
        "--keep", metavar="DIR", help="put the sample profiles in this new folder and leave them"
    )


OPEN = Command("", "Open the screens, on one bin or on all of them.", "screens:open_screens", _screens)
_ALL = (
    Command("new", "Make a profile for a bin.", "making:new", arguments_bins.new),
    Command("change", "Other figures of a bin: places, days, rests.", "making:change", arguments_bins.change),
    Command(
        "begin",
        "What a new bin begins with, step by step.",
        "beginning:begin",
        arguments_bins.begin,
        ABOUT_JSON,
    ),
    Command(
        "bins", "List the bins and the next thing to do in each.", "across:bins", add_reading, ABOUT_JSON
    ),
    Command("today", "What is due across all bins, and why.", "across:today", add_reading, ABOUT_JSON),
    Command(
        "next",
        "Which bin, which tray, what next; and which bins rest until when.",
        "next_bin:next_bin",
        add_reading,
        ABOUT_JSON,
    ),
    Command(
        "stack",
        "How one bin stands: its trays, what to feed next, its next turn.",
        "stack:stack",
        arguments.one_read,
        ABOUT_JSON,
    ),
    Command(
        "day",
        "Turn day: its plan with lifts and time, or where it stands.",
        "day:day",
        arguments_bins.day,
        ABOUT_JSON,
    ),
    Command(
        "separation",
        "Where the separations of one bin are.",
        "separation:separation",
        arguments.one_read,
        ABOUT_JSON,
    ),
    Command(
        "timeline",
        "Several separations, one pair of hands: what now, what next.",
        "timeline:timeline",
        arguments_bins.timeline,
        ABOUT_JSON,
    ),
    Command(
        "castings",
        "Castings in tubs and jars, what comes next, and potting mixes.",
        "castings:castings",
        arguments_bins.castings,
        ABOUT_JSON,
    ),
    Command(
        "readings",
        "What was read, against its range and its history, and what to do.",
        "readings:readings",
        arguments_bins.readings,
        ABOUT_JSON,
    ),
    Command(
        "journal",
        "The entries of one bin, newest first.",
        "journal:journal",
        arguments_bins.journal,
        ABOUT_JSON,
    ),
    Command(
        "supplies",
        "What is in stock, how long it lasts, what to gather.",
        "supplies:supplies",
        arguments.any_read,
        ABOUT_JSON,
    ),
    Command(
        "past",
        "The past year, week by week, and what came of it.",
        "past:past",
        arguments.any_read,
        ABOUT_JSON,
    ),
    Command(
        "outlook",
        "What a bin will give, need and weigh, with bands; and what if.",
        "outlook:outlook_of",
        arguments_bins.outlook,
        ABOUT_JSON,
    ),
    Command(
        "compare",
        "How many trays, how often to turn: ways side by side.",
        "compare:compared",
        arguments_bins.compare,
        ABOUT_JSON,
    ),
    Command(
        "score",
        "Past forecasts of the outlook against what came.",
        "outlook:score",
        arguments.one_read,
        ABOUT_JSON,
    ),
    Command(
        "ledger",
        "Castings made against what went in, turn by turn.",
        "ledger:ledger",
        arguments_bins.ledger,
        ABOUT_JSON,
    ),
    Command(
        "found",
        "Pieces that go round again, and what does not belong.",
        "found:found",
        arguments.any_read,
        ABOUT_JSON,
    ),
    Command("log", "Add an entry without the screens.", "writing:log", _log),
    Command(
        "split",
        "Move worms to another bin, in both journals at once.",
        "splitting:split",
        arguments_bins.split,
    ),
    Command(
        "cautions",
        "What to mind before the work, with reasons and sources.",
        "cautions:cautions",
        _cautions,
        ABOUT_JSON,
    ),
    Command(
        "trouble",
        "What may be wrong, from what you see, and what to do about it.",
        "trouble:trouble",
        arguments_bins.trouble,
        ABOUT_JSON,
    ),
    Command(
        "verify",
        "Check profiles: exit 0 when sound, 1 when something is wrong.",
        "verifying:verify",
        _verify,
        ABOUT_JSON,
    ),
    Command(
        "feed",
        "What a meal does to its tray; with --record it is written down.",
        "feeding:feed",
        arguments_bins.feed,
        ABOUT_JSON,
    ),
    Command("mix", "What a mix comes to, and what brings it to a goal.", "mix:mix", arguments_numbers.mix),
    Command(
        "moisture",
        "How moist a sample was, weighed wet and dried.",
        "drying:moisture",
        arguments_numbers.moisture,
    ),
    Command(
        "ration", "What so many worms can take a day, as a band.", "worms:ration", arguments_numbers.ration
    ),
    Command(
        "ingredients", "The table of scraps and beddings.", "table:ingredients", arguments_numbers.ingredients
    ),
    Command("hatch", "When cocoons laid today hatch.", "worms:hatch", arguments_numbers.hatch),
    Command("gone", "When the soft part of something is gone.", "worms:gone", arguments_numbers.gone),
    Command(
        "count",
        "How many worms there are, from picking or from samples.",
        "counting:count",
        arguments_numbers.count,
    ),
    Command(
        "lift",
        "What a tray may weigh to be lifted from here to there.",
        "lifting:lift",
        arguments_numbers.lift,
    ),
    Command(
        "handbook",
        "Published ranges and methods, with their sources.",
        "handbook:handbook",
        arguments_numbers.handbook,
    ),
    Command("demo", "Try it on sample bins, away from your own.", "demo:demo", _demo),
)
COMMANDS = {command.name: command for command in _ALL}
