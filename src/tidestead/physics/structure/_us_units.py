"""Sizes of the inch-pound units in which American timber rules are printed. Private to this subject.

Source: NIST SP 811 (2008), appendix B; all exact by definition.
"""

from __future__ import annotations

from typing import Final

INCH: Final = 0.0254
POUND: Final = 4.4482216152605
PSI: Final = POUND / INCH**2
POUND_PER_INCH: Final = POUND / INCH


def from_fahrenheit(degrees: float) -> float:
    """Celsius degrees of a printed Fahrenheit limit."""
    return (degrees - 32.0) / 1.8
