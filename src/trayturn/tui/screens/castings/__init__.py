"""Castings in tubs and jars."""
