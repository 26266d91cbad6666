"""Putting right: tick what is seen, read the causes in order, take one."""
