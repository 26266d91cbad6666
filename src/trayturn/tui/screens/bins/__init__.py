"""The bins screen: every profile, what is due in each, and what rests."""
