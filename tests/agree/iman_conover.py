"""The whole of Iman and Conover's way to bring samples into an order in which their ranks go together, as a referee.

R. Iman, W. Conover, Communications in Statistics B 11 (1982) 311-334, from memory: normal scores of the ranks are given
the wanted correlation, after what they have by chance is taken off; then each column is sorted as its scores are.
"""

from __future__ import annotations

import numpy as np
from scipy.stats import norm

from tidestead.core.dims import Array


def blocks(groups: tuple[str, ...], within: float, across: float) -> Array:
    """The correlations (k, k) of k things: `within` a group, `across` groups, one with itself."""
    names = np.asarray(groups)
    found = np.where(names[:, None] == names[None, :], within, across)
    np.fill_diagonal(found, 1.0)
    return found


def in_order(samples: Array, wanted: Array, seed: int) -> Array:
    """Samples (n, k), each column in another order, so that rank correlations come near those wanted (k, k)."""
    count, columns = samples.shape
    random = np.random.default_rng(seed)
    normal = norm.ppf(np.arange(1, count + 1) / (count + 1.0))
    scores = np.column_stack([random.permutation(normal) for _ in range(columns)])
    chance = np.linalg.cholesky(np.corrcoef(scores, rowvar=False))
    turned = scores @ np.linalg.inv(chance).T @ np.linalg.cholesky(wanted).T
    ranks = turned.argsort(axis=0).argsort(axis=0)
    return np.take_along_axis(np.sort(samples, axis=0), ranks, axis=0)
