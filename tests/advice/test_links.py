"""Every warning, due thing, tray and entry has its page."""

from __future__ import annotations

import ast
from pathlib import Path

import trayturn
from tests.builders import entry, stack_of, started, turned
from trayturn.advice import links
from trayturn.advice.caution_list import CAUTIONS
from trayturn.advice.due.item import KINDS, PAGES
from trayturn.advice.links import ENTRIES, STAGES, WARNINGS, page_for, page_of_entry, page_of_tray
from trayturn.advice.pages import Page
from trayturn.domain.entries import ENTRY_TYPES, Stage

SOURCE = Path(trayturn.__file__).parent


def warning_codes() -> set[str]:
    """The first word of every `Caution(...)` or `...Warning(...)` that is made anywhere in the program."""
    codes = set()
    for path in SOURCE.rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and _name(node).endswith(("Caution", "Warning")) and node.args:
                assert isinstance(node.args[0], ast.Constant), f"{path}:{node.lineno} makes up its code"
                codes.add(str(node.args[0].value))
    return codes


def _name(node: ast.Call) -> str:
    return node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")


def test_every_warning_in_the_program_has_a_page() -> None:
    codes = warning_codes()
    assert set(WARNINGS) >= {"dry", "wet", "ammonia", "salt", "heating"}
    assert set(links.CAUTIONS) == {caution.code for caution in CAUTIONS}
    assert {code for code in codes if page_for(code) is None} == set()
    assert set(WARNINGS) | set(links.CAUTIONS) == codes
    assert page_for("no such warning") is None


def test_every_kind_of_due_thing_has_a_page() -> None:
    assert set(PAGES) == set(KINDS)


def test_every_kind_of_entry_is_thought_of() -> None:
    assert set(ENTRIES) == set(ENTRY_TYPES)
    assert page_of_entry("fed") is Page.FEEDING
    assert page_of_entry("note") is None


def test_a_tray_has_the_page_of_its_stage_or_of_what_is_wrong_with_it() -> None:
    assert set(STAGES) == set(Stage)
    stack = stack_of(
        started("A", 0),
        started("B", 1),
        turned("BA", 50, A="feeding", B="bedding"),
        entry("checked", 60, tray="B", moisture_pct=95.0),
        as_of=61,
    )
    pages = {tray.id: page_of_tray(tray) for tray in stack.trays}
    assert pages == {"A": Page.FEEDING, "B": Page.MOISTURE}
