"""How far a coating or a sheet can follow a joint that opens.

A lining carries no load. A coating that sticks to both sides of a joint is stretched over almost no width:
its printed elongation counts only over a strip that is free.
"""

from __future__ import annotations

import numpy as np

from tidestead.core.dims import Metre, Ratio
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse


def bridgeable_opening(tested: Metre, tested_film: Metre, film: Metre) -> Metre:
    """How far a joint may open under a coating, from the maker's crack-bridging test.

        u = u_test * min(1, d/d_test)

    A thinner film bridges less in proportion; a thicker one is credited with no more than was tested.
    Source: common practice, no source for the proportion; the test is ASTM C1305 or EN 1062-7.
    Valid:  the product and temperature tested. The tests are dry and short: no proof of years under water.
    """
    _refuse.negative(tested_opening=tested, film=film)
    _refuse.not_positive(tested_film=tested_film)
    bridged: Metre = tested * np.minimum(1.0, np.divide(film, tested_film))
    return bridged


def allowed_strain(elongation: Ratio, safety: Ratio) -> Ratio:
    """Stretch to count on of what a maker prints at break.

        eps = eps_break / n

    Source: common practice, no source; the safety is stated with the answer.
    Valid:  rubber-like linings. Use the aged and, in corners, the two-way elongation.
    """
    _refuse.negative(elongation=elongation)
    if np.any(np.less(safety, 1.0)):
        raise ImpossibleInput(f"a safety below 1 is none, got {safety}")
    return elongation / safety


def free_width_opening(strain: Ratio, free_width: Metre) -> Metre:
    """How far a joint may open under a lining that is free over a strip of this width.

        u = eps * b

    Source: definition of strain.
    Valid:  the strip does not stick: bond-breaker under the fabric of a seam, or a loose sheet.
    """
    _refuse.negative(strain=strain, free_width=free_width)
    return strain * free_width


def bridging_strain(opening: Metre, free_length: Metre) -> Ratio:
    """Stretch of a loose sheet over a joint that opens.

        eps = u / L

    Source: definition of strain.
    Valid:  the sheet slides over the free length; friction under water pressure shortens it: state it small.
    """
    _refuse.negative(opening=opening)
    _refuse.not_positive(free_length=free_length)
    return opening / free_length
