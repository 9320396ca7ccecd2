"""`python -m tidestead` is the command `tidestead`."""

from __future__ import annotations

import sys

from tidestead.cli import main

if __name__ == "__main__":
    sys.exit(main())
