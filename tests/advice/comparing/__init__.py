"""Ways of running a bin side by side."""
