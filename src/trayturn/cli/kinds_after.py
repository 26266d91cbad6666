"""The entries of what follows a separation as they are typed. Standard library only."""

from __future__ import annotations

from argparse import ArgumentParser

from trayturn.cli.kind import Kind

LOT = "the lot's code, such as C1"
STAGE = "hatching, drying, curing or ready"


def _lot(parser: ArgumentParser) -> None:
    parser.add_argument("lot", metavar="LOT", help=LOT)


def _overs(parser: ArgumentParser) -> None:
    parser.add_argument("tray", metavar="TRAY", help="the tray they were found in")
    parser.add_argument("pieces", metavar="NAME=NxSIZE", nargs="+", help='such as "avocado stone=2x4cm"')
    parser.add_argument("--to", metavar="TRAY", required=True, help="the tray they go into")


def _found(parser: ArgumentParser) -> None:
    parser.add_argument("what", metavar="WHAT", help="plastic, tape, sticker, staple, glass, metal ...")
    parser.add_argument("--count", metavar="N", type=int, default=1, help="how many; 1 unless you say")
    parser.add_argument("--source", metavar="WORDS", default="", help="what it came in with")
    parser.add_argument("--tray", metavar="TRAY", help="the tray it was found in")


def _source(parser: ArgumentParser) -> None:
    parser.add_argument("source", metavar="WORDS", nargs="+", help="what nothing more comes in with")


def _lot_begun(parser: ArgumentParser) -> None:
    _lot(parser)
    parser.add_argument("--tray", metavar="TRAY", help="the tray they came out of")
    parser.add_argument("--weight", metavar="MASS", help="what they weigh, such as 3kg")
    parser.add_argument("--stage", metavar="S", help=f"{STAGE}; hatching unless you say")
    parser.add_argument("--place", metavar="WORDS", default="", help="where they stand")


def _lot_moved(parser: ArgumentParser) -> None:
    _lot(parser)
    parser.add_argument("stage", metavar="STAGE", help=STAGE)
    parser.add_argument("--weight", metavar="MASS", help="what it weighs now")
    parser.add_argument("--moisture", metavar="PERCENT", help="water as percent of the whole mass")


def _lure(parser: ArgumentParser) -> None:
    _lot(parser)
    parser.add_argument("bait", metavar="WORDS", nargs="*", help="what was laid on, such as melon")


def _hatchlings(parser: ArgumentParser) -> None:
    _lot(parser)
    parser.add_argument("--counted", metavar="N", type=int, help="how many, where they were counted")
    parser.add_argument("--weight", metavar="MASS", help="what they weigh, such as 10g")
    parser.add_argument("--tray", metavar="TRAY", help="the tray they went to")


def _sieved(parser: ArgumentParser) -> None:
    _lot(parser)
    parser.add_argument("--mesh", metavar="MM", required=True, help="the mesh, such as 6mm")
    parser.add_argument("--passed", metavar="MASS", help="what fell through, such as 2.1kg")
    parser.add_argument("--oversize", metavar="MASS", help="what stayed on the mesh")
    parser.add_argument("--to", metavar="WORDS", default="", help="where that went")


def _packed(parser: ArgumentParser) -> None:
    _lot(parser)
    parser.add_argument("label", metavar="LABEL", help="the name of the jar or bag")
    parser.add_argument("amount", metavar="MASS", help="what each holds, such as 1kg")
    parser.add_argument("--count", metavar="N", type=int, default=1, help="how many; 1 unless you say")
    parser.add_argument("--use-by", metavar="DAY", help="the day to use them by, such as 2026-06-01")


def _out(parser: ArgumentParser) -> None:
    _lot(parser)
    parser.add_argument("--amount", metavar="MASS", help="how much, such as 500g")
    parser.add_argument("--label", metavar="LABEL", default="", help="out of which jar or bag")


def _used(parser: ArgumentParser) -> None:
    _out(parser)
    parser.add_argument("--where", metavar="WORDS", default="", help="what for, such as tomatoes")
    parser.add_argument("--share", metavar="PERCENT", help="their share of the mix, by volume")
    parser.add_argument("--despite", action="store_true", help="though it is more than is advised")


def _given(parser: ArgumentParser) -> None:
    _out(parser)
    parser.add_argument("--to", metavar="WORDS", default="", help="who got them")
    parser.add_argument("--sold", action="store_true", help="they were sold")
    parser.add_argument("--rules-read", action="store_true", help="the caution on local rules was read")


AFTER_KINDS = (
    Kind("overs-carried", "pieces carried on to another tray", _overs),
    Kind("contaminant-found", "what does not belong, and what it came with", _found),
    Kind("source-stopped", "nothing more comes in from there", _source),
    Kind("lot-begun", "castings put by, usually in the hatch tub", _lot_begun),
    Kind("lot-moved", "castings gone on to their next stage", _lot_moved),
    Kind("lure-set", "bait laid on the castings", _lure),
    Kind("hatchlings-recovered", "hatchlings lifted out of the castings", _hatchlings),
    Kind("sieved", "castings passed through a mesh", _sieved),
    Kind("packed", "castings filled into jars or bags", _packed),
    Kind("castings-used", "castings used, and for what", _used),
    Kind("castings-given", "castings given away or sold", _given),
    Kind("lot-closed", "nothing is left of a lot", _lot),
)
