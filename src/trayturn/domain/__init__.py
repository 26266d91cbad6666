"""What a bin is: its setup, its journal, and the stack that the journal makes."""
