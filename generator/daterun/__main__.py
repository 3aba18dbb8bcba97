"""Lets ``python -m daterun`` do what ``daterun`` does; all else is left to ``command/main.py``."""

import sys

from daterun.command.main import main

if __name__ == "__main__":
    sys.exit(main())
