"""What is planned for a turn day, and where one under way stands."""
