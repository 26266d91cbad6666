"""Pieces that go round again, and what does not belong with its sources."""
