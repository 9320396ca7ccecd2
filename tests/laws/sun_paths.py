"""Sun paths by pvlib, for tests of light that need no weather."""

from __future__ import annotations

from functools import cache

import numpy as np
import pandas as pd
import pvlib

from tidestead.core.weather import SunPath


@cache
def sun_path(latitude: float, longitude: float = 0.0) -> SunPath:
    """The sun of 2023 at a place on its own mean time, taken in the middle of every hour."""
    hours = pd.date_range("2023-01-01 00:30", periods=8760, freq="h", tz="UTC") - pd.Timedelta(
        hours=longitude / 15.0
    )
    found = pvlib.solarposition.get_solarposition(hours, latitude, longitude)
    zenith = np.radians(found["zenith"].to_numpy())
    up = (zenith < np.pi / 2.0).astype(float)
    outside = pvlib.irradiance.get_extra_radiation(hours).to_numpy()
    return SunPath(
        zenith, np.radians(found["azimuth"].to_numpy()), up, outside * np.cos(zenith).clip(0.0) * up
    )
