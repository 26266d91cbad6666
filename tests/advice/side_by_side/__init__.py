"""Several separations and one pair of hands."""
