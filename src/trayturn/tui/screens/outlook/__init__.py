"""The outlook: what the bin will do, as bands and in sentences; and what if something were otherwise."""
