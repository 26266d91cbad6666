"""trayturn: a terminal companion for keepers of stacked-tray worm bins."""

__version__ = "0.1.0"
