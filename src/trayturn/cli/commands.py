"""Every command: its name, its words of help, its arguments, and where its function lives.

Standard library only: a command's own module is imported when that command is run.
"""

from __future__ import annotations

from argparse import REMAINDER, ArgumentParser, Namespace
from collections.abc import Callable
from dataclasses import dataclass
from importlib import import_module

from trayturn.cli.kinds import kinds_listing
from trayturn.cli.parsing import Parser, add_globals, add_json, add_reading
from trayturn.clock import Clock

BIN = "a profile's short name, the path of its file, or its shown name"
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


def _bin(parser: ArgumentParser) -> None:
    parser.add_argument("bin", metavar="BIN", help=BIN)


def _one_bin(parser: ArgumentParser) -> None:
    _bin(parser)
    add_reading(parser)


def _any_bin(parser: ArgumentParser) -> None:
    """One bin, or all of them where none is named."""
    parser.add_argument("bin", metavar="BIN", nargs="?", help=f"{BIN}; none for all bins")
    add_reading(parser)


def _screens(parser: ArgumentParser) -> None:
    parser.add_argument("bin", metavar="BIN", nargs="?", help=BIN)


def _journal(parser: ArgumentParser) -> None:
    _bin(parser)
    parser.add_argument("--tray", metavar="T", help="only entries about this tray")
    parser.add_argument("--kind", metavar="K", help="only entries of this kind, such as fed")
    parser.add_argument("--last", metavar="N", type=int, help="only the newest N entries")
    add_reading(parser)


def _readings(parser: ArgumentParser) -> None:
    _bin(parser)
    parser.add_argument("--tray", metavar="T", help="only this tray, and what tells of the whole bin")
    add_reading(parser)


def _moisture(parser: ArgumentParser) -> None:
    parser.add_argument("container", metavar="EMPTY", help="the container alone, such as 4g")
    parser.add_argument("wet", metavar="WET", help="the container with the wet sample, such as 14g")
    parser.add_argument("dry", metavar="DRY", help="the same once dried, such as 6.3g")
    add_json(parser)


def _log(parser: ArgumentParser) -> None:
    _bin(parser)
    parser.add_argument(
        "what", metavar="KIND ...", nargs=REMAINDER, help="what happened, and what that kind needs"
    )
    parser.usage = "trayturn log BIN KIND ..."
    parser.epilog = kinds_listing()


def _cautions(parser: ArgumentParser) -> None:
    parser.add_argument("--work", metavar="W", help="only those for one kind of work, such as separation")
    add_json(parser)


def _trouble(parser: ArgumentParser) -> None:
    parser.add_argument("bin", metavar="BIN", nargs="?", help=BIN)
    parser.add_argument(
        "--sign", metavar="CODE", nargs="+", action="extend", default=[], help="what you see; several at once"
    )
    parser.add_argument("--signs", action="store_true", help="list the signs with their codes")
    parser.add_argument("--only", action="store_true", help="leave out what the last checks saw")
    parser.add_argument("--tray", metavar="T", help="ask about this tray by itself")
    parser.add_argument("--cause", metavar="CODE", help="tell this cause in full, not the likeliest")
    add_reading(parser)


def _verify(parser: ArgumentParser) -> None:
    parser.add_argument("files", metavar="FILE", nargs="+", help="the path of a profile, or its short name")
    add_json(parser)


def _demo(parser: ArgumentParser) -> None:
    parser.add_argument("--plain", action="store_true", help="print the tour as text, without the screens")
    parser.add_argument("--clock-rate", metavar="N", default="1", help="run the clock N times as fast")
    parser.add_argument(
        "--keep", metavar="DIR", help="put the sample profiles in this new folder and leave them"
    )


def _new(parser: ArgumentParser) -> None:
    options = (
        ("--units", "U", "metric (the usual) or us"),
        ("--species", "S", "eisenia_fetida (the usual), mixed, and others"),
        ("--place", "P", "where the bin stands"),
        ("--pattern", "P", "bedding_below (the usual) or straight_up"),
        ("--area", "AREA", "inside of one tray, such as 0.16m2 or 1.7ft2"),
        ("--depth", "LENGTH", "inside of one tray, such as 15cm or 6in"),
        ("--empty", "MASS", "one empty tray, such as 900g or 2lb"),
        ("--sump", "VOLUME", "what the sump holds, such as 5l"),
        ("--turn-days", "DAYS", "days between turns (60)"),
        ("--feed-days", "DAYS", "days between feedings (12)"),
        ("--check-days", "DAYS", "days between checks (7)"),
        ("--loosen-minutes", "MIN", "how long loosening takes in a separation (3.5)"),
        ("--rest-minutes", "MIN", "how long each rest lasts in a separation (15)"),
        ("--began", "TIME", "when the bin began; no entry may be older"),
        ("--key", "WORD", "the profile's short name, where the one made from NAME will not do"),
    )
    parser.add_argument("name", metavar="NAME", help="the bin's name as it is shown, in any script")
    parser.add_argument("--trays", metavar="N", type=int, default=4, help="how many trays the set has (4)")
    for option, metavar, words in options:
        parser.add_argument(option, metavar=metavar, help=words)
    add_json(parser)


def _begin(parser: ArgumentParser) -> None:
    parser.add_argument("bin", metavar="BIN", nargs="?", help=BIN)
    parser.add_argument("--worms", metavar="MASS", help="the worms there are, such as 500g")
    parser.add_argument("--area", metavar="AREA", help="without BIN: inside of one tray, such as 0.16m2")
    parser.add_argument("--depth", metavar="LENGTH", help="without BIN: inside of one tray (15cm)")
    parser.add_argument("--species", metavar="S", help="without BIN: eisenia_fetida (the usual), and others")
    parser.add_argument("--us", action="store_true", help="without BIN: pounds and inches")
    add_reading(parser)


def _split(parser: ArgumentParser) -> None:
    _bin(parser)
    parser.add_argument("other", metavar="OTHER", nargs="?", help="the bin they go to")
    parser.add_argument("--new", metavar="NAME", help="instead of OTHER: a new bin of that name")
    parser.add_argument("--worms", metavar="MASS", help="the worms that go, by weight, such as 250g")
    parser.add_argument("--count", metavar="N", type=int, help="the worms that go, by number")
    parser.add_argument("--tray", metavar="T", help="a tray that goes along with all that is in it")
    parser.add_argument("--note", metavar="TEXT", default="", help="your own words, for both journals")
    add_reading(parser)


def _feed(parser: ArgumentParser) -> None:
    _bin(parser)
    parser.add_argument("tray", metavar="TRAY", nargs="?", help="the tray, if not the one that is due")
    item = 'such as "cabbage=500 g" or "apple=2 handfuls"; none for what waits in the caddy'
    parser.add_argument("items", metavar="ITEM", nargs="*", help=item)
    again = "may be given again"
    parser.add_argument("--bedding", metavar="NAME=MASS", action="append", default=[], help=f"below; {again}")
    parser.add_argument("--cover", metavar="NAME=MASS", action="append", default=[], help=f"on top; {again}")
    parser.add_argument("--grit", metavar="MASS", help="grit, such as 5g")
    parser.add_argument("--water", metavar="AMOUNT", help="water poured on, such as 0.2l or 200g")
    parser.add_argument("--propose", action="store_true", help="take the bedding, grit and water proposed")
    parser.add_argument("--goal-moisture", metavar="PCT", type=float, help="of the tray after it (75)")
    parser.add_argument("--goal-cn", metavar="R", type=float, help="carbon to nitrogen of the tray (25)")
    parser.add_argument("--share", action="store_true", help="feed what they can take; the rest waits")
    parser.add_argument("--record", action="store_true", help="write it down; else nothing is written")
    parser.add_argument("--note", metavar="TEXT", default="", help="words of your own to keep with it")
    add_reading(parser)


def _mix(parser: ArgumentParser) -> None:
    words = 'such as "cabbage=500 g", or with its own figures "leaves=10 kg; moisture=35; n=0.75; c=50"'
    parser.add_argument("items", metavar="ITEM", nargs="+", help=words)
    parser.add_argument("--goal-moisture", metavar="PCT", type=float, help="the moisture wanted, percent")
    parser.add_argument("--goal-cn", metavar="R", type=float, help="the carbon to nitrogen ratio wanted")
    parser.add_argument("--add", metavar="NAME", action="append", help="what may be added; again for another")
    parser.add_argument("--area", metavar="AREA", help="what it is spread over, such as 0.16m2")
    parser.add_argument("--us", action="store_true", help="pounds and ounces")
    _table(parser)


def _table(parser: ArgumentParser) -> None:
    parser.add_argument("--bin", metavar="BIN", help="look among this bin's own ingredients first")
    add_json(parser)


def _temperature(parser: ArgumentParser) -> None:
    parser.add_argument("--temperature", metavar="T", required=True, help="Celsius, such as 18, or 65F")


def _ration(parser: ArgumentParser) -> None:
    parser.add_argument("--worms-kg", metavar="KG", type=float, required=True, help="the mass of worms, kg")
    _temperature(parser)
    parser.add_argument("--area", metavar="AREA", help="inside of one tray, such as 0.16m2")
    parser.add_argument("--us", action="store_true", help="answer in pounds")
    add_json(parser)


def _ingredients(parser: ArgumentParser) -> None:
    parser.add_argument("words", metavar="WORDS", nargs="*", help="part of a name")
    _table(parser)


def _hatch(parser: ArgumentParser) -> None:
    _temperature(parser)
    parser.add_argument("--species", metavar="S", default="eisenia_fetida", help="eisenia_fetida, and others")
    add_json(parser)


def _gone(parser: ArgumentParser) -> None:
    parser.add_argument("words", metavar="ITEM", nargs="+", help='such as "banana peel"')
    _temperature(parser)
    parser.add_argument("--moisture", metavar="PCT", type=float, default=75, help="of the tray, percent (75)")
    _table(parser)


def _count(parser: ArgumentParser) -> None:
    parser.add_argument("--picks", metavar="N,N", help="worms found in each pick over the same material")
    parser.add_argument("--method", metavar="M", help="two-pass, ml or carle-strub")
    parser.add_argument("--samples", metavar="N,N,N", help="worms found in each sample of the same mass")
    parser.add_argument("--sample-g", metavar="G", type=float, help="what one sample weighs, grams")
    parser.add_argument("--total-kg", metavar="KG", type=float, help="what all of the material weighs, kg")
    add_json(parser)


def _lift(parser: ArgumentParser) -> None:
    parser.add_argument("--kg", "--lb", dest="kg", metavar="W", type=float, required=True, help="the load")
    parser.add_argument("--reach", metavar="CM", type=float, required=True, help="hands to ankles")
    parser.add_argument(
        "--from", dest="start", metavar="CM", type=float, required=True, help="hands at first"
    )
    parser.add_argument("--to", dest="end", metavar="CM", type=float, required=True, help="hands at the end")
    parser.add_argument("--twist", metavar="DEG", type=float, default=0, help="the load off the middle (0)")
    parser.add_argument("--per-minute", metavar="N", type=float, default=0.2, help="lifts a minute (0.2)")
    parser.add_argument("--hours", metavar="H", type=float, default=1, help="how long it goes on (1)")
    parser.add_argument("--grip", metavar="G", default="poor", help="good, fair or poor (poor: gloves)")
    parser.add_argument("--us", action="store_true", help="pounds and inches, and the US form")
    add_json(parser)


def _handbook(parser: ArgumentParser) -> None:
    parser.add_argument(
        "words", metavar="WORDS", nargs="*", help="a page's name, or what to look up: smell, flies, too wet"
    )
    parser.add_argument("--us", action="store_true", help="pounds, inches and Fahrenheit")
    add_json(parser)


OPEN = Command("", "Open the screens, on one bin or on all of them.", "screens:open_screens", _screens)
_ALL = (
    Command("new", "Make a profile for a bin.", "making:new", _new),
    Command("begin", "What a new bin begins with, step by step.", "beginning:begin", _begin, ABOUT_JSON),
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
        _one_bin,
        ABOUT_JSON,
    ),
    Command(
        "separation", "Where the separations of one bin are.", "separation:separation", _one_bin, ABOUT_JSON
    ),
    Command(
        "readings",
        "What was read, against its range and its history, and what to do.",
        "readings:readings",
        _readings,
        ABOUT_JSON,
    ),
    Command("journal", "The entries of one bin, newest first.", "journal:journal", _journal, ABOUT_JSON),
    Command(
        "supplies",
        "What is in stock, how long it lasts, what to gather.",
        "supplies:supplies",
        _any_bin,
        ABOUT_JSON,
    ),
    Command("past", "The past year, week by week, and what came of it.", "past:past", _any_bin, ABOUT_JSON),
    Command("log", "Add an entry without the screens.", "writing:log", _log),
    Command("split", "Move worms to another bin, in both journals at once.", "splitting:split", _split),
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
        _trouble,
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
        _feed,
        ABOUT_JSON,
    ),
    Command("mix", "What a mix comes to, and what brings it to a goal.", "mix:mix", _mix),
    Command("moisture", "How moist a sample was, weighed wet and dried.", "drying:moisture", _moisture),
    Command("ration", "What so many worms can take a day, as a band.", "worms:ration", _ration),
    Command("ingredients", "The table of scraps and beddings.", "table:ingredients", _ingredients),
    Command("hatch", "When cocoons laid today hatch.", "worms:hatch", _hatch),
    Command("gone", "When the soft part of something is gone.", "worms:gone", _gone),
    Command("count", "How many worms there are, from picking or from samples.", "counting:count", _count),
    Command("lift", "What a tray may weigh to be lifted from here to there.", "lifting:lift", _lift),
    Command("handbook", "Published ranges and methods, with their sources.", "handbook:handbook", _handbook),
    Command("demo", "Try it on sample bins, away from your own.", "demo:demo", _demo),
)
COMMANDS = {command.name: command for command in _ALL}
