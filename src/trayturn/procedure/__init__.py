"""Guided work, step by step: pure functions from the stack and the time to what comes next."""
