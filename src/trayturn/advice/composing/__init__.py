"""Composing a meal: what goes into the tray that is due, what comes of it, and what waits.

A `Draft` is the meal as it is put together; a `Ground` is what it is laid on, worked out once. From those two
come the figures (`report`), what is worth minding (`minding`), the proposal of bedding, grit and water
(`proposing`), and what to feed first when there is too much (`rationing`). `writing` makes the entries.
"""
