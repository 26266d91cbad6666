"""`python -m trayturn`."""

from trayturn.cli.main import main

if __name__ == "__main__":
    raise SystemExit(main())
