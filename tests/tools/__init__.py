"""Scripts that make what the program ships. Each may be run again and gives the same bytes."""
