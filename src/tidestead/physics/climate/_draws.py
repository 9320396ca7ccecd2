"""Chance numbers by counting: the same for the same seed, year and place in the year, in any order, compiled or not.

Philox with four words of 32 bits and ten rounds. Products of two words wrap in a compiled 64-bit number and do not in
plain Python; the bits taken from them are the same.
Source: Salmon, Moraes, Dror and Shaw, Parallel random numbers: as easy as 1, 2, 3 (2011).
"""

from __future__ import annotations

import math

_WORD = 0xFFFFFFFF
_M0, _M1 = 0xD2511F53, 0xCD9E8D57
_W0, _W1 = 0x9E3779B9, 0xBB67AE85
_ROUNDS = 10
_SIZE = 4294967296.0


def philox(a: int, b: int, c: int, d: int, key0: int, key1: int) -> tuple[int, int, int, int]:
    """Four words of chance for a counter of four words and a key of two."""
    k, m = key0, key1
    for _ in range(_ROUNDS):
        one, two = a * _M0, c * _M1
        a, b, c, d = (
            ((two >> 32) & _WORD) ^ b ^ k,
            two & _WORD,
            ((one >> 32) & _WORD) ^ d ^ m,
            one & _WORD,
        )
        k, m = (k + _W0) & _WORD, (m + _W1) & _WORD
    return a, b, c, d


def bell_pair(first: int, second: int) -> tuple[float, float]:
    """Two independent numbers of the normal distribution from two words, by Box and Muller (1958)."""
    far = math.sqrt(-2.0 * math.log((first + 0.5) / _SIZE))
    turn = 2.0 * math.pi * ((second + 0.5) / _SIZE)
    return far * math.cos(turn), far * math.sin(turn)
