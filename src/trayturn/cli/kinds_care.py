"""The entries of ordinary weeks as they are typed. Standard library only."""

from __future__ import annotations

from argparse import ArgumentParser

from trayturn.cli.kind import Kind

ITEM = "as `trayturn today --json` names it, such as check or feed:B"
DAY = "a day or a time, such as 2026-03-01"


def _follow_up(parser: ArgumentParser) -> None:
    parser.add_argument("code", metavar="CODE", help="a short name of your own, such as too-wet")
    parser.add_argument("text", metavar="WHAT", nargs="+", help="what is to be looked at")
    parser.add_argument("--by", metavar="TIME", required=True, help=DAY)
    parser.add_argument("--tray", metavar="TRAY", help="the tray it is about")
    parser.add_argument("--why", metavar="WORDS", default="", help="the reason")


def _snoozed(parser: ArgumentParser) -> None:
    parser.add_argument("item", metavar="ITEM", help=ITEM)
    parser.add_argument("--until", metavar="TIME", required=True, help=DAY)


def _done(parser: ArgumentParser) -> None:
    parser.add_argument("item", metavar="ITEM", help=ITEM)


def _measure(parser: ArgumentParser) -> None:
    parser.add_argument("measure", metavar="MEASURE", help="handful, cup, bowl or a word of your own")
    parser.add_argument("amount", metavar="MASS", help="what one of it weighs, such as 60g")
    parser.add_argument("--of", metavar="NAME", default="", help="of what, where it differs from the rest")


def _meal(parser: ArgumentParser) -> None:
    parser.add_argument("name", metavar="NAME", help="the meal's name")
    parser.add_argument("items", metavar="NAME=MASS", nargs="*", help='scraps, such as "cabbage=500 g"')
    parser.add_argument(
        "--bedding", metavar="NAME=MASS", action="append", default=[], help="dry bedding; may be given again"
    )
    parser.add_argument("--grit", metavar="MASS", help="grit, such as 10g")


def _meal_dropped(parser: ArgumentParser) -> None:
    parser.add_argument("name", metavar="NAME", help="the meal's name")


def _put_off(parser: ArgumentParser) -> None:
    parser.add_argument("items", metavar="NAME=MASS", nargs="*", help="what waits; none when nothing does")


CARE_KINDS = (
    Kind("follow-up-set", "something to look at again by a day", _follow_up),
    Kind("snoozed", "a due thing put off", _snoozed),
    Kind("done", "a due thing done", _done),
    Kind("measure-set", "what your handful, cup or bowl weighs", _measure),
    Kind("meal-kept", "a meal kept under a name", _meal),
    Kind("meal-dropped", "a kept meal no longer wanted", _meal_dropped),
    Kind("put-off", "the scraps that wait in the caddy", _put_off),
)
