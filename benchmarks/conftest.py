"""For every benchmark: small matrices on one thread, as the command line sets it."""

from __future__ import annotations

import os

for name in ("OPENBLAS_NUM_THREADS", "MKL_NUM_THREADS", "OMP_NUM_THREADS"):
    os.environ.setdefault(name, "1")
