"""For every benchmark: small matrices on one thread, as the command line sets it."""

from __future__ import annotations

from tidestead.core.threads import one_for_matrices

one_for_matrices()
