"""The handbook: published ranges, methods and tables, each with its source and how sure it is."""

from __future__ import annotations

from trayturn.advice.handbook.book import article, articles
from trayturn.advice.handbook.figures import fill, in_units, reworded
from trayturn.advice.handbook.layout import Line, lay_out
from trayturn.advice.handbook.model import Article
from trayturn.advice.handbook.searching import look_up, named

__all__ = [
    "Article",
    "Line",
    "article",
    "articles",
    "fill",
    "in_units",
    "lay_out",
    "look_up",
    "named",
    "reworded",
]
