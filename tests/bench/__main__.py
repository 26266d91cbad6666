"""Measure everything, or the parts named: `python -m tests.bench start idle`."""

from __future__ import annotations

import os
import sys
import tempfile
from pathlib import Path

from tests.bench import blends, commands, composer, files, idle, keys, lists, memory, outlook, start
from tests.bench.figures import HEADINGS, Figure

PARTS = {
    part.__name__.rpartition(".")[2]: part
    for part in (start, memory, commands, keys, composer, lists, files, idle, blends, outlook)
}


def main() -> None:
    # Without compiled files every start would be four times as slow as on a keeper's machine.
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
    print(HEADINGS, flush=True)
    for name in sys.argv[1:] or PARTS:
        with tempfile.TemporaryDirectory() as folder:
            for figure in PARTS[name].figures(Path(folder)):
                _print(figure)


def _print(figure: Figure) -> None:
    print(figure, flush=True)


if __name__ == "__main__":
    main()
