"""Logs of cleanings as a caretaker would write them on windows whose constants are known."""

from __future__ import annotations

import numpy as np

from tidestead.physics.film import Cleaning, Seen, Setting, set_after


def logged(setting: Setting, count: int, seed: int, eye: float = 0.07) -> list[Cleaning]:
    """Cleanings at one to eight days, every third on a window wiped once before since it was scraped."""
    draws = np.random.default_rng(seed)
    found = []
    for number in range(count):
        age, earlier = float(draws.uniform(1.0, 8.0)), float(draws.uniform(1.0, 4.0))
        before = (earlier,) if number % 3 == 2 else ()
        judged = set_after((*before, age), setting) + eye * float(draws.standard_normal())
        seen: Seen = "clean" if judged < 0.075 else "some" if judged < 0.30 else "many"
        found.append(Cleaning(age, seen, before))
    return found
