"""Where water and bubbles meet in a tower, and how high the air lifts the water. Heights are over one level."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tidestead.core.dims import Metre, Ratio
from tidestead.physics import _refuse


@dataclass(frozen=True)
class Heights:
    """Where water comes in and goes out (the surface, where it falls in or runs over an edge), and where air does."""

    feed: Metre
    outlet: Metre
    diffuser: Metre


def contact_height(heights: Heights) -> Metre:
    """Height along which the water that goes through a column has bubbles in it; nothing where it passes them by.

        L = max(z_in, z_out) - max(min(z_in, z_out), z_air), at least nothing

    With the feed above the outlet water and bubbles go against each other, with the outlet above, side by side.

    Source: geometry: net flow of water is between its two ports only, bubbles are above the diffuser only.
    Valid:  a column wide enough that jets do not reach from port to port, ports level with their middle.
    """
    upper = np.maximum(heights.feed, heights.outlet)
    lower = np.minimum(heights.feed, heights.outlet)
    height: Metre = np.maximum(upper - np.maximum(lower, heights.diffuser), 0.0)
    return height


def lifted_level(clear: Metre, foot: Metre, holdup: Ratio) -> Metre:
    """Surface of bubbly water whose outlet leads to an open riser of clear water.

        L = z + (L0 - z)/(1 - e)          z: `foot`, the higher of diffuser and outlet; L0: `clear`, surface without air

    Above the outlet bubbly water of rho*(1 - e) weighs what clear water does in the riser.

    Source: hydrostatics; with z at the floor it is the expansion of a bed, e = (L - L0)/L, as in W.-D. Deckwer,
            Bubble Column Reactors (1992), known from memory.
    Valid:  one share of air from the foot up: it is less deep down, where air is pressed together by a tenth a metre,
            which is left out and on the safe side. Where the surface runs over an edge nothing is lifted. A feed under
            water feels up to e*(z_in - z) more head than in clear water.
    """
    _refuse.not_a_share(holdup=holdup)
    _refuse.not_positive(share_of_water=np.subtract(1.0, holdup))
    bubbly = np.maximum(np.subtract(clear, foot), 0.0)
    level: Metre = clear + bubbly * holdup / np.subtract(1.0, holdup)
    return level
