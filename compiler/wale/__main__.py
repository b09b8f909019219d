"""Run the command line by `python -m wale`."""

import sys

from wale.cli import main

sys.exit(main())
