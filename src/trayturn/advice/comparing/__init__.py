"""How many trays, and how often to turn: ways of running a bin side by side, by its own fitted rates."""
