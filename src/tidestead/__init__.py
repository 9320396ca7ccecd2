"""Tidestead: decide, prove and look after a large self-built seawater aquarium."""

from __future__ import annotations

__version__ = "0.1.0"
