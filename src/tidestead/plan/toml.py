"""The values of a plan's text as the library's TOML reader gives them, read once for all who ask."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from copy import deepcopy
from typing import Any

from tidestead.core.kept import kept


@kept(at_most=4)
def values_in(text: str) -> Mapping[str, Any]:
    """The values of a text, for reading only: whoever asks next gets the same ones. Raises TOMLDecodeError."""
    return tomllib.loads(text)


def own_values(text: str) -> dict[str, Any]:
    """The values of a text, to change as one likes. Raises TOMLDecodeError."""
    return deepcopy(dict(values_in(text)))
