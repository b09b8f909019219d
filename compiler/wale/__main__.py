"""Run the command line by `python -m wale`."""

from wale.cli import run

run()
