"""Arguments of the commands that reckon without a bin. Standard library only."""

from __future__ import annotations

from argparse import ArgumentParser

from trayturn.cli.arguments import table, temperature
from trayturn.cli.parsing import add_json


def moisture(parser: ArgumentParser) -> None:
    """A sample weighed wet and dry."""
    parser.add_argument("container", metavar="EMPTY", help="the container alone, such as 4g")
    parser.add_argument("wet", metavar="WET", help="the container with the wet sample, such as 14g")
    parser.add_argument("dry", metavar="DRY", help="the same once dried, such as 6.3g")
    add_json(parser)


def mix(parser: ArgumentParser) -> None:
    """What is mixed, and to what goal."""
    words = 'such as "cabbage=500 g", or with its own figures "leaves=10 kg; moisture=35; n=0.75; c=50"'
    parser.add_argument("items", metavar="ITEM", nargs="+", help=words)
    parser.add_argument("--goal-moisture", metavar="PCT", type=float, help="the moisture wanted, percent")
    parser.add_argument("--goal-cn", metavar="R", type=float, help="the carbon to nitrogen ratio wanted")
    parser.add_argument("--add", metavar="NAME", action="append", help="what may be added; again for another")
    parser.add_argument("--area", metavar="AREA", help="what it is spread over, such as 0.16m2")
    parser.add_argument("--us", action="store_true", help="pounds and ounces")
    table(parser)


def ration(parser: ArgumentParser) -> None:
    """How many worms, how warm."""
    parser.add_argument("--worms-kg", metavar="KG", type=float, required=True, help="the mass of worms, kg")
    temperature(parser)
    parser.add_argument("--area", metavar="AREA", help="inside of one tray, such as 0.16m2")
    parser.add_argument("--us", action="store_true", help="answer in pounds")
    add_json(parser)


def ingredients(parser: ArgumentParser) -> None:
    """Part of a name."""
    parser.add_argument("words", metavar="WORDS", nargs="*", help="part of a name")
    table(parser)


def hatch(parser: ArgumentParser) -> None:
    """How warm, and which species."""
    temperature(parser)
    parser.add_argument("--species", metavar="S", default="eisenia_fetida", help="eisenia_fetida, and others")
    add_json(parser)


def gone(parser: ArgumentParser) -> None:
    """What, how warm and how moist."""
    parser.add_argument("words", metavar="ITEM", nargs="+", help='such as "banana peel"')
    temperature(parser)
    parser.add_argument("--moisture", metavar="PCT", type=float, default=75, help="of the tray, percent (75)")
    table(parser)


def count(parser: ArgumentParser) -> None:
    """Picks or samples."""
    parser.add_argument("--picks", metavar="N,N", help="worms found in each pick over the same material")
    parser.add_argument("--method", metavar="M", help="two-pass, ml or carle-strub")
    parser.add_argument("--samples", metavar="N,N,N", help="worms found in each sample of the same mass")
    parser.add_argument("--sample-g", metavar="G", type=float, help="what one sample weighs, grams")
    parser.add_argument("--total-kg", metavar="KG", type=float, help="what all of the material weighs, kg")
    add_json(parser)


def lift(parser: ArgumentParser) -> None:
    """A load and where it is lifted."""
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


def handbook(parser: ArgumentParser) -> None:
    """Words to find a page by."""
    parser.add_argument(
        "words", metavar="WORDS", nargs="*", help="a page's name, or what to look up: smell, flies, too wet"
    )
    parser.add_argument("--us", action="store_true", help="pounds, inches and Fahrenheit")
    add_json(parser)
