"""Turn day on screens: its plan, and the day itself."""
