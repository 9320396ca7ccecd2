"""Throws of many things whose ranks go together, each by its own name: what else is thrown moves none of them."""

from __future__ import annotations

from hashlib import blake2b
from math import sqrt

import numpy as np

from tidestead.core.dims import Array
from tidestead.core.errors import ImpossibleInput
from tidestead.core.kept import kept

SEED = 1982
"""The same throws every time, so that two plans are compared on the same luck."""

_ALL = "everything"


def together(name: str, group: str, within: float, across: float, count: int) -> Array:
    """Shares (count,) at which a thing of a group is thrown: each of `count` equal parts of its spread is hit once.

    Their order is that of normal scores, a part of which is common to all things, a part to the group, and the rest
    its own: z = sqrt(across) * all + sqrt(within - across) * group + sqrt(1 - within) * own. Two of a group then have
    a correlation of `within`, two of different groups one of `across`, and a rank correlation of 6 / pi * asin(r / 2).

    Source: that scores order what is thrown and leave each spread as it is: R. Iman, W. Conover, Communications in
    Statistics B 11 (1982) 311-334, from memory. Theirs are turned all at once and so change with every thing that is
    added; scores of common parts do not, and two plans can be told apart throw by throw.
    Raises ImpossibleInput unless 0 <= across <= within < 1.
    """
    if not 0.0 <= across <= within < 1.0:
        raise ImpossibleInput(
            f"correlations within {within:g} and across {across:g} do not rise from 0 to below 1"
        )
    return _together(name, group, within, across, count)


def alone(name: str, count: int) -> Array:
    """Shares (count,) at which a thing is thrown that goes with nothing else."""
    return _together(name, "", 0.0, 0.0, count)


@kept(at_most=256)
def _together(name: str, group: str, within: float, across: float, count: int) -> Array:
    score = sqrt(1.0 - within) * _drawn(f"own {name}", count)
    if within > across:
        score += sqrt(within - across) * _scores(f"group {group}", count)
    if across > 0.0:
        score += sqrt(across) * _scores(_ALL, count)
    shares = np.empty(count)
    shares[np.argsort(score)] = (np.arange(count) + 0.5) / count
    shares.flags.writeable = False
    return shares


@kept(at_most=32)
def _scores(name: str, count: int) -> Array:
    scores = _drawn(name, count)
    scores.flags.writeable = False
    return scores


def _drawn(name: str, count: int) -> Array:
    """Normal scores of a name: the same whatever else is drawn, before or after."""
    seed = int.from_bytes(blake2b(name.encode(), digest_size=8).digest(), "little")
    return np.random.default_rng((SEED, seed)).standard_normal(count)
