"""Samples put into such an order that their ranks go together as asked, each keeping its own values."""

from __future__ import annotations

import numpy as np

from tidestead.core.dims import Array
from tidestead.core.errors import ImpossibleInput


def blocks(groups: tuple[str, ...], within: float, across: float) -> Array:
    """The correlations (k, k) of k things: `within` a group, `across` groups, one with itself.

    Raises ImpossibleInput unless 0 <= across <= within < 1, which is what such a matrix needs to be one.
    """
    if not 0.0 <= across <= within < 1.0:
        raise ImpossibleInput(
            f"correlations within {within:g} and across {across:g} do not rise from 0 to below 1"
        )
    names = np.asarray(groups)
    found = np.where(names[:, None] == names[None, :], within, across)
    np.fill_diagonal(found, 1.0)
    return found


def in_order(samples: Array, wanted: Array, seed: int) -> Array:
    """Samples (n, k) with each column put in another order, so that rank correlations come near those wanted (k, k).

    Normal scores of the ranks are given the wanted correlation, after what they have by chance is taken off; then each
    column is sorted as its scores are. The values of a column stay the same, so that its spread is untouched.

    Source: R. Iman, W. Conover, Communications in Statistics B 11 (1982) 311-334, from memory.
    Raises ImpossibleInput where the wanted matrix is no correlation matrix of full rank.
    """
    from scipy.special import ndtri  # noqa: PLC0415 - half a second that only this needs

    count, columns = samples.shape
    if wanted.shape != (columns, columns):
        raise ImpossibleInput(f"{columns} columns need correlations of {columns} by {columns}")
    try:
        aim = np.linalg.cholesky(wanted)
        random = np.random.default_rng(seed)
        scores = random.permuted(
            np.tile(ndtri(np.arange(1, count + 1) / (count + 1.0)), (columns, 1)), axis=1
        ).T
        chance = np.linalg.cholesky(scores.T @ scores / float((scores[:, 0] ** 2).sum()))
    except np.linalg.LinAlgError as fault:
        raise ImpossibleInput("the wanted correlations cannot all hold at once") from fault
    turned = np.linalg.solve(chance, scores.T).T @ aim.T
    ranks = np.argsort(np.argsort(turned, axis=0, kind="stable"), axis=0, kind="stable")
    return np.take_along_axis(np.sort(samples, axis=0), ranks, axis=0)
