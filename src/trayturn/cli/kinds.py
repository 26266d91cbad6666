"""What can be logged: each kind, its words of help and its arguments. Standard library only."""

from __future__ import annotations

from argparse import ArgumentParser

from trayturn.cli.kind import Kind
from trayturn.cli.kinds_after import AFTER_KINDS
from trayturn.cli.kinds_care import CARE_KINDS

SUPPLY = 'a name and its amount, such as "cardboard=2 kg"'
EXAMPLES = """\
examples:
  trayturn log pantry note "first frost"
  trayturn log pantry fed B "cabbage=500 g" "apple=0.3 kg" --grit 10g
  trayturn log pantry checked B --feel damp --temperature 18C
  trayturn log pantry turned

`trayturn log BIN KIND --help` tells what a kind needs. Trays may be typed in
small letters. The timed steps of a separation are kept by the screens.
"""


def kinds_listing() -> str:
    """The kinds and examples, as `log --help` shows them."""
    return (
        "kinds:\n"
        + "\n".join(f"  {kind.name:22}{kind.summary}" for kind in KINDS.values())
        + f"\n\n{EXAMPLES}"
    )


def _tray(parser: ArgumentParser, optional: bool = False) -> None:
    parser.add_argument(
        "tray", metavar="TRAY", nargs="?" if optional else None, help="the tray's letter or name"
    )


def _bedding(parser: ArgumentParser) -> None:
    parser.add_argument(
        "--bedding", metavar="NAME=MASS", action="append", default=[], help="dry bedding; may be given again"
    )


def _note(parser: ArgumentParser) -> None:
    parser.add_argument(
        "text", metavar="TEXT", nargs="+", help="your own words; put -- before a leading dash"
    )
    parser.add_argument("--tray", metavar="TRAY", help="the tray it is about")


def _started(parser: ArgumentParser) -> None:
    _tray(parser)
    _bedding(parser)
    parser.add_argument("--water", metavar="AMOUNT", help="water put on the bedding, such as 0.5l or 500g")
    parser.add_argument(
        "--level", metavar="N", type=int, help="counted from 1 at the bottom, if not the usual one"
    )
    parser.add_argument("--stage", metavar="S", help="bedding (the usual) or feeding")
    parser.add_argument(
        "--from", dest="came_from", metavar="WORDS", default="", help="the bin it came from as it stood"
    )


def _fed(parser: ArgumentParser) -> None:
    _tray(parser)
    parser.add_argument("items", metavar="NAME=MASS", nargs="*", help='scraps, such as "cabbage=500 g"')
    _bedding(parser)
    parser.add_argument("--grit", metavar="MASS", help="grit, such as 10g")
    parser.add_argument("--water", metavar="AMOUNT", help="water poured on with it, such as 0.2l or 200g")


def _checked(parser: ArgumentParser) -> None:
    _tray(parser, optional=True)
    options = (
        ("--moisture", "PERCENT", "water as percent of the whole mass, such as 70"),
        ("--feel", "F", "the squeeze test: dry, damp, moist or wet"),
        ("--temperature", "T", "such as 18C or 65F"),
        ("--ph", "PH", "such as 7"),
        ("--smell", "WORDS", "such as earthy"),
        ("--sump", "VOLUME", "what stands in the sump, such as 0.5l"),
        ("--strays", "AMOUNT", "worms in the sump or on the lid: none, few or many"),
        ("--weight", "MASS", "the tray with all that is in it, such as 6kg"),
        ("--worms-seen", "AMOUNT", "worms seen at a glance: none, few or many"),
        ("--worms-weigh", "MASS", "all the worms of the bin, weighed or reckoned from a count"),
        ("--food-left", "PERCENT", "how much of the last meals is still to be seen"),
    )
    for option, metavar, words in options:
        parser.add_argument(option, metavar=metavar, help=words)
    parser.add_argument(
        "--pests", metavar="NAME", action="append", default=[], help="such as ants; may be given again"
    )


def _turned(parser: ArgumentParser) -> None:
    parser.add_argument(
        "trays", metavar="TRAY", nargs="*", help="the new order, bottom first; none for the usual turn"
    )
    parser.add_argument(
        "--stage", metavar="TRAY=STAGE", action="append", default=[], help="one tray's stage from now on"
    )
    parser.add_argument(
        "--bedding", metavar="NAME=MASS", action="append", default=[], help="what fills the fresh tray"
    )
    parser.add_argument(
        "--no-fresh", action="store_true", help="no fresh tray comes in: there is no bedding for it"
    )


def _counted(parser: ArgumentParser) -> None:
    parser.add_argument("--counted", metavar="N", type=int, help="how many, where they were counted")


def _worms_added(parser: ArgumentParser) -> None:
    parser.add_argument("amount", metavar="MASS", help="such as 0.5kg")
    parser.add_argument("--tray", metavar="TRAY", help="where they went in")
    parser.add_argument("--source", metavar="WORDS", default="", help="where they came from")
    _counted(parser)


def _worms_removed(parser: ArgumentParser) -> None:
    parser.add_argument("amount", metavar="MASS", help="such as 0.5kg")
    parser.add_argument("--tray", metavar="TRAY", help="where they were taken out")
    parser.add_argument("--to", metavar="WORDS", default="", help="where they went")
    _counted(parser)


def _supplies(parser: ArgumentParser) -> None:
    parser.add_argument("items", metavar="NAME=MASS", nargs="+", help=SUPPLY)


def _pass_done(parser: ArgumentParser) -> None:
    _tray(parser, optional=True)
    parser.add_argument(
        "--worms", metavar="AMOUNT", required=True, help="worms seen in the skim: none, few or many"
    )
    parser.add_argument("--skimmed", metavar="MASS", help="what came off, such as 1.2kg")
    parser.add_argument("--overs", metavar="WORDS", default="", help="pieces to carry on to the next tray")
    parser.add_argument("--contaminants", metavar="WORDS", default="", help="what does not belong there")


def _settled(parser: ArgumentParser) -> None:
    _tray(parser, optional=True)
    parser.add_argument("--castings", metavar="MASS", help="what the castings weigh, such as 3kg")
    parser.add_argument("--worms-to", metavar="WORDS", default="", help="where the worms went")
    parser.add_argument("--rest-to", metavar="WORDS", default="", help="where the rest went")
    parser.add_argument("--overs-to", metavar="WORDS", default="", help="where the pieces went")


def _ended(parser: ArgumentParser) -> None:
    _tray(parser, optional=True)
    parser.add_argument(
        "--put-back", action="store_true", help="the tray went back to its level to finish longer"
    )


def _nothing(parser: ArgumentParser) -> None:
    """Undo takes nothing: it is always the last entry that still stands."""


_ALL = (
    Kind("note", "words of your own", _note),
    Kind("fed", "a feeding", _fed),
    Kind("checked", "readings of a tray, or of the bin", _checked),
    Kind("started", "a tray put on with fresh bedding", _started),
    Kind("turned", "a turn: the new order of the trays", _turned),
    Kind("worms-added", "worms put in, by weight", _worms_added),
    Kind("worms-removed", "worms taken out, by weight", _worms_removed),
    Kind("supplies-added", "bedding, grit and the like bought or gathered", _supplies),
    Kind("supplies-used", "supplies gone other than into a tray", _supplies),
    Kind("supplies-counted", "the stock as it was weighed", _supplies),
    *CARE_KINDS,
    Kind("separation-begun", "a finished tray set on top to be separated", _tray),
    Kind("pass-done", "one loosen, rest and skim round", _pass_done),
    Kind("settled", "where everything went, and what the castings weigh", _settled),
    Kind("separation-ended", "the tray empty, or put back", _ended),
    *AFTER_KINDS,
    Kind("undo", "take the last entry back", _nothing),
)
KINDS = {kind.name: kind for kind in _ALL}
OTHER_NAMES = {
    "tray-started": "started",
    "undone": "undo",
    "begun": "separation-begun",
    "ended": "separation-ended",
}
ON_SCREENS_ONLY = (
    "step-started",
    "step-ended",
    "deadline-moved",
    "cautions-read",
    "turn-day-begun",
    "day-step-done",
    "turn-day-ended",
)
