"""What happens in a bin, as numbers: pure functions in SI floats that know nothing of dates, files or
screens."""
