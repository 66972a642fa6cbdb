"""`python -m queries.cli` is `weeksheaf`."""

from queries.cli import main

if __name__ == "__main__":
    main(prog_name="weeksheaf")
