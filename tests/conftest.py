"""For every test: small matrices on one thread, as the command line sets it; the same random cases each time.

New random cases are sought with `pytest --hypothesis-profile=random`. What such a run finds becomes an @example.
"""

from __future__ import annotations

from hypothesis import settings

from tidestead.core.threads import one_for_matrices

one_for_matrices()

settings.register_profile("same", derandomize=True)
settings.register_profile("random", derandomize=False)
settings.load_profile("same")
