"""The trouble finder: from signs and the bin's own journal to ranked causes, remedies and a follow-up.

Its rules are data (`signs`, `causes`), each with its source; the questions to the journal (`asks_*`) and the
amounts of the remedies (`amounts`) are small pure functions that the data names.
"""
