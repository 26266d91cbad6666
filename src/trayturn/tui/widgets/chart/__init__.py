"""Charts of what may come: a band in time with readings on it, and bands beside each other."""
