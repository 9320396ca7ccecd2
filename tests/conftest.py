"""For every test: small matrices on one thread, as the command line sets it; the same random cases each time.

`pytest --hypothesis-profile=long` tries many more of them, `--hypothesis-profile=random` as many new ones. What such
a run finds becomes an @example.
"""

from __future__ import annotations

from hypothesis import settings

from tests.many import ENOUGH, WHOLE
from tidestead.core.compiled import numba
from tidestead.core.threads import one_for_matrices

one_for_matrices()
numba()  # before any test sets another folder: what one test has compiled is there for all that follow

settings.register_profile("same", derandomize=True, max_examples=ENOUGH)
settings.register_profile("long", derandomize=True, max_examples=WHOLE)
settings.register_profile("random", derandomize=False, max_examples=WHOLE)
settings.load_profile("same")
