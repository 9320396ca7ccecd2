"""How many threads a matrix is worked on with."""

from __future__ import annotations

import os

_READ_BY_LIBRARIES = ("OPENBLAS_NUM_THREADS", "MKL_NUM_THREADS", "OMP_NUM_THREADS")


def one_for_matrices() -> None:
    """Work matrices on one thread, unless the user has set how many; before numpy is imported.

    Matrices here are small: threads that wait for each other cost more than they save, most of all on a busy machine.
    """
    for name in _READ_BY_LIBRARIES:
        os.environ.setdefault(name, "1")
