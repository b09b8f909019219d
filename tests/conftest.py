"""Lets every test import `support` and the survey's bodies from its own place; none hangs on how long it takes."""

import sys
from pathlib import Path

from hypothesis import settings

HERE = Path(__file__).parent
for folder in (HERE, HERE / "suite" / "tables"):
    if str(folder) not in sys.path:
        sys.path.insert(0, str(folder))

settings.register_profile("untimed", deadline=None)
settings.load_profile("untimed")
