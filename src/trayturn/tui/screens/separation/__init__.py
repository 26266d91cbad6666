"""The separation screen: guided passes with timed rests."""
