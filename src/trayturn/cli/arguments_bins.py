"""Arguments of the commands about one bin. Standard library only."""

from __future__ import annotations

from argparse import ArgumentParser

from trayturn.cli.arguments import BIN, any_read, one
from trayturn.cli.parsing import add_json, add_reading


def journal(parser: ArgumentParser) -> None:
    """Which entries of one bin."""
    one(parser)
    parser.add_argument("--tray", metavar="T", help="only entries about this tray")
    parser.add_argument("--kind", metavar="K", help="only entries of this kind, such as fed")
    parser.add_argument("--last", metavar="N", type=int, help="only the newest N entries")
    add_reading(parser)


def readings(parser: ArgumentParser) -> None:
    """Which readings of one bin."""
    one(parser)
    parser.add_argument("--tray", metavar="T", help="only this tray, and what tells of the whole bin")
    add_reading(parser)


def outlook(parser: ArgumentParser) -> None:
    """How far ahead, with what else, and from which draws."""
    one(parser)
    parser.add_argument("--days", metavar="N", type=int, help="how far ahead (180)")
    parser.add_argument(
        "--what-if",
        metavar="WHAT",
        help="holiday=14, cold=5C:14, heat, double-scraps, half-worms, double-bedding; scraps=1.5",
    )
    parser.add_argument("--seed", metavar="N", type=int, help="another seed gives other draws (1)")
    parser.add_argument("--draws", metavar="N", type=int, help="how many draws, 20 to 5000 (400)")
    add_reading(parser)


def trouble(parser: ArgumentParser) -> None:
    """What is seen in one bin."""
    parser.add_argument("bin", metavar="BIN", nargs="?", help=BIN)
    parser.add_argument(
        "--sign", metavar="CODE", nargs="+", action="extend", default=[], help="what you see; several at once"
    )
    parser.add_argument("--signs", action="store_true", help="list the signs with their codes")
    parser.add_argument("--only", action="store_true", help="leave out what the last checks saw")
    parser.add_argument("--tray", metavar="T", help="ask about this tray by itself")
    parser.add_argument("--cause", metavar="CODE", help="tell this cause in full, not the likeliest")
    add_reading(parser)


def timeline(parser: ArgumentParser) -> None:
    """Which bins."""
    parser.add_argument("bins", metavar="BIN", nargs="*", help="only these bins; all unless you say")
    add_reading(parser)


def castings(parser: ArgumentParser) -> None:
    """One bin, or so much potting mix."""
    one(parser)
    parser.add_argument("--mix", metavar="VOLUME", help="the castings for so much mix, such as 20l")
    parser.add_argument(
        "--share", metavar="PERCENT", help="with --mix: their share by volume; 15 %% as a rule"
    )
    parser.add_argument("--despite", action="store_true", help="with --mix: more than half, all the same")
    add_reading(parser)


def compare(parser: ArgumentParser) -> None:
    """Ways of running one bin."""
    one(parser)
    parser.add_argument("--trays", metavar="N,N", help="how many trays, such as 3,4,5")
    parser.add_argument("--every", metavar="DAYS,DAYS", help="days between turns, such as 45,60,75")
    parser.add_argument("--scraps", metavar="MASS,MASS", help="scraps a week, such as 1kg,2kg")
    parser.add_argument("--seed", metavar="N", type=int, help="the same seed gives the same answer")
    parser.add_argument("--draws", metavar="N", type=int, help="how many draws of the rates; 200 as a rule")
    add_reading(parser)


def ledger(parser: ArgumentParser) -> None:
    """One bin or all, and what had been forecast."""
    any_read(parser)
    parser.add_argument(
        "--forecasts", action="store_true", help="past forecasts beside what came; takes some seconds"
    )


def day(parser: ArgumentParser) -> None:
    """A turn day otherwise than usual."""
    one(parser)
    parser.add_argument("--fewer", action="store_true", help="one tray fewer: no fresh tray comes in")
    parser.add_argument("--no-fresh", action="store_true", help="the same as --fewer")
    parser.add_argument("--more", action="store_true", help="one spare tray more comes in")
    parser.add_argument("--order", metavar="TRAYS", help="by hand, bottom first: C,A=finishing,B=feeding")
    parser.add_argument(
        "--bedding", metavar="NAME=MASS", action="append", default=[], help="what fills a fresh tray"
    )
    add_reading(parser)


def begin(parser: ArgumentParser) -> None:
    """A new bin, made or not yet."""
    parser.add_argument("bin", metavar="BIN", nargs="?", help=BIN)
    parser.add_argument("--worms", metavar="MASS", help="the worms there are, such as 500g")
    parser.add_argument("--area", metavar="AREA", help="without BIN: inside of one tray, such as 0.16m2")
    parser.add_argument("--depth", metavar="LENGTH", help="without BIN: inside of one tray (15cm)")
    parser.add_argument("--species", metavar="S", help="without BIN: eisenia_fetida (the usual), and others")
    parser.add_argument("--us", action="store_true", help="without BIN: pounds and inches")
    add_reading(parser)


def split(parser: ArgumentParser) -> None:
    """From which bin to which, and what."""
    one(parser)
    parser.add_argument("other", metavar="OTHER", nargs="?", help="the bin they go to")
    parser.add_argument("--new", metavar="NAME", help="instead of OTHER: a new bin of that name")
    parser.add_argument("--worms", metavar="MASS", help="the worms that go, by weight, such as 250g")
    parser.add_argument("--count", metavar="N", type=int, help="the worms that go, by number")
    parser.add_argument("--tray", metavar="T", help="a tray that goes along with all that is in it")
    parser.add_argument("--note", metavar="TEXT", default="", help="your own words, for both journals")
    add_reading(parser)


def feed(parser: ArgumentParser) -> None:
    """A meal."""
    one(parser)
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


def new(parser: ArgumentParser) -> None:
    """The setup of a new bin."""
    parser.add_argument("name", metavar="NAME", help="the bin's name as it is shown, in any script")
    parser.add_argument("--trays", metavar="N", type=int, default=4, help="how many trays the set has (4)")
    _figures(parser)
    word = "the profile's short name, where the one made from NAME will not do"
    parser.add_argument("--key", metavar="WORD", help=word)
    add_json(parser)


def change(parser: ArgumentParser) -> None:
    """Other figures of a bin that is there."""
    parser.add_argument("bin", metavar="BIN", help="the bin's short name, shown name, or path")
    parser.add_argument("--name", metavar="NAME", help="another shown name; the short name stays")
    parser.add_argument("--trays", metavar="N", type=int, help="how many trays the set has")
    _figures(parser)
    add_json(parser)


def _figures(parser: ArgumentParser) -> None:
    """What a bin is and how it is kept."""
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
        ("--stands", "LENGTH", "how high over the floor the bin's feet stand (0cm)"),
        ("--places-height", "LENGTH", "how high the places beside it are (75cm)"),
        ("--began", "TIME", "when the bin began; no entry may be older"),
    )
    parser.add_argument("--places", metavar="N", type=int, help="places beside it to put trays down (2)")
    parser.add_argument("--pile", metavar="N", type=int, help="trays that may stand on one such place (2)")
    for option, metavar, words in options:
        parser.add_argument(option, metavar=metavar, help=words)
