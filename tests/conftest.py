"""Lets every test import `support` and the survey's bodies from its own place."""

import sys
from pathlib import Path

HERE = Path(__file__).parent
for folder in (HERE, HERE / "suite" / "tables"):
    if str(folder) not in sys.path:
        sys.path.insert(0, str(folder))
