"""Castings once they are out of the bin."""
