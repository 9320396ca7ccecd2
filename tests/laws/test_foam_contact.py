"""Where water meets bubbles and how air lifts it, whatever the numbers."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tidestead.physics.foam import contact
from tidestead.physics.foam.contact import Heights


@given(st.floats(0.0, 2.0), st.floats(0.0, 2.0), st.floats(0.0, 2.0))
def test_water_and_bubbles_meet_only_between_the_ports_and_above_the_diffuser(
    feed: float, outlet: float, diffuser: float
) -> None:
    """Counted in slices: one counts where it lies between the ports and has air under it."""
    found = contact.contact_height(Heights(feed, outlet, diffuser))
    middles = (np.arange(2000) + 0.5) * 1e-3
    low, high = min(feed, outlet), max(feed, outlet)
    counted = 1e-3 * np.count_nonzero((middles > low) & (middles < high) & (middles > diffuser))
    assert found == pytest.approx(counted, abs=2e-3)
    assert found == contact.contact_height(Heights(outlet, feed, diffuser))


@given(st.floats(0.5, 2.0), st.floats(0.0, 2.5), st.floats(0.0, 0.35))
def test_air_only_lifts_and_a_foot_above_the_water_does_nothing(
    clear: float, foot: float, holdup: float
) -> None:
    level = contact.lifted_level(clear, foot, holdup)
    assert level >= clear
    assert contact.lifted_level(clear, foot, holdup + 0.01) >= level
    if foot >= clear:
        assert level == clear
