"""For every test: small matrices on one thread, as the command line sets it; the same random cases each time.

New random cases are sought with `pytest --hypothesis-profile=random`. What such a run finds becomes an @example.
"""

from __future__ import annotations

import os

from hypothesis import settings

for name in ("OPENBLAS_NUM_THREADS", "MKL_NUM_THREADS", "OMP_NUM_THREADS"):
    os.environ.setdefault(name, "1")

settings.register_profile("same", derandomize=True)
settings.register_profile("random", derandomize=False)
settings.load_profile("same")
