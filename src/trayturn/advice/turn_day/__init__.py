"""Turn day: what is planned, what it takes, and where a day under way stands."""
