"""A check judged: each reading against its published range and its own history, and what to do about it."""
