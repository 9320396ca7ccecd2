"""What the year of heat is reckoned for: a room, its walls and windows, bodies of water, and what warms or cools them.

General on purpose: a room without water, a vessel in the open without a room, walls by layers with their own heat
storage, windows by panes, an ideal thermostat on the air or none. A greenhouse over a tank is one case of it.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from tidestead.core.dims import (
    Array,
    Celsius,
    Count,
    CubicMetre,
    JoulePerKelvin,
    JoulePerKgKelvin,
    JoulePerM2Kelvin,
    Kelvin,
    KgPerM3,
    Metre,
    MetrePerSecond,
    PerSecond,
    Radian,
    Ratio,
    SquareMetre,
    SquareMetreKelvinPerWatt,
    Watt,
    WattPerKelvin,
    WattPerM2K,
    WattPerMetreKelvin,
)
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse
from tidestead.physics.heat import _checked

Outside = Literal["weather", "air", "ground", "kept", "nothing"]
"""What the far side of a wall touches: weather: sun, sky, wind; air: outdoor air without sun, sky and wind; ground;
kept: a temperature that never changes; nothing: no heat passes."""


@dataclass(frozen=True)
class Layer:
    """One layer of a wall. Where `resistance` is given it stores nothing and the rest is not read."""

    thickness: Metre = 0.0
    conductivity: WattPerMetreKelvin = 0.0
    density: KgPerM3 = 0.0
    heat: JoulePerKgKelvin = 0.0
    resistance: SquareMetreKelvinPerWatt | None = None

    def __post_init__(self) -> None:
        """Refuse a layer that conducts everything or nothing."""
        if self.resistance is not None:
            _refuse.not_positive(resistance=self.resistance)
        else:
            _refuse.not_positive(thickness=self.thickness, conductivity=self.conductivity)
            _refuse.negative(density=self.density, heat=self.heat)

    @property
    def ohms(self) -> SquareMetreKelvinPerWatt:
        """Thermal resistance of the layer."""
        return self.resistance if self.resistance is not None else self.thickness / self.conductivity


@dataclass(frozen=True)
class Wall:
    """A wall, roof or floor of the room. `layers` from the far side to the room.

    `tilt_rad` is that of its outward normal from straight up: roof 0, wall pi/2, floor pi; `azimuth_rad` from north
    through east. `kept_c` is read where `outside` is kept. `far_film` is the surface coefficient towards outdoor air
    (outside air) or a kept place. `sun_share` is its share of the sun that falls into the room, else by area.
    """

    name: str
    area: SquareMetre
    layers: tuple[Layer, ...]
    outside: Outside = "weather"
    tilt_rad: Radian = 1.5707963267948966
    azimuth_rad: Radian = 0.0
    absorptance: Ratio = 0.6
    emissivity: Ratio = 0.9
    inside_absorptance: Ratio = 0.6
    inside_emissivity: Ratio = 0.9
    kept_c: Celsius = 20.0
    far_film: WattPerM2K = 7.7
    sun_share: Ratio | None = None
    wets: bool = False

    def __post_init__(self) -> None:
        """Refuse what no wall is."""
        _refuse.not_positive(area=self.area, inside_emissivity=self.inside_emissivity)
        _refuse.negative(far_film=self.far_film)
        _refuse.not_a_share(absorptance=self.absorptance, emissivity=self.emissivity)
        _refuse.not_a_share(inside_absorptance=self.inside_absorptance, share_of_sun=self.sun_share or 0.0)
        _refuse.not_a_share(inside_emissivity=self.inside_emissivity)
        if not self.layers:
            raise ImpossibleInput(f"wall {self.name} has no layer")


@dataclass(frozen=True, eq=False)
class Sheet:
    """Clear sheet of one or more panes. `beam` has a row for each degree of incidence from 0 to 90.

    The columns are the share of the sun that passes and the share that each pane takes, outermost first; `diffuse`
    is the same for light from everywhere. `gaps` are the conductances from pane to pane, `stores` what a pane stores.
    """

    beam: Array
    diffuse: Array
    gaps: tuple[WattPerM2K, ...]
    stores: JoulePerM2Kelvin
    emissivity: Ratio = 0.9

    def __post_init__(self) -> None:
        """Refuse tables of another size, and a sheet that makes light."""
        _checked.sheet(self)
        _refuse.not_positive(stores=self.stores, emissivity=self.emissivity)
        _refuse.not_a_share(emissivity=self.emissivity)

    @property
    def panes(self) -> Count:
        """How many panes."""
        return len(self.gaps) + 1


@dataclass(frozen=True)
class Window:
    """Clear sheet in one face of the room; `clean` is what dirt and bars leave of the light. Tilt as of a wall."""

    name: str
    area: SquareMetre
    sheet: Sheet
    tilt_rad: Radian = 1.5707963267948966
    azimuth_rad: Radian = 0.0
    clean: Ratio = 1.0
    wets: bool = True

    def __post_init__(self) -> None:
        """Refuse a window of no size."""
        _refuse.not_positive(area=self.area)
        _refuse.not_a_share(clean=self.clean)


@dataclass(frozen=True)
class Vents:
    """Air changed when the room is warm: from nothing at `opens_c` to all of it `over` warmer.

    `rate` is that of wide open vents; where it is nothing, `area` (half low, half high) and `height` give it by the
    difference of temperature. `powered`: a fan does it, which stands without electricity.
    """

    opens_c: Celsius
    over: Kelvin = 4.0
    rate: PerSecond = 0.0
    area: SquareMetre = 0.0
    height: Metre = 0.0
    powered: bool = False

    def __post_init__(self) -> None:
        """Refuse vents that open at once or less than shut."""
        _refuse.not_positive(over=self.over)
        _refuse.negative(rate=self.rate, area=self.area, height=self.height)


@dataclass(frozen=True, eq=False)
class Shade:
    """Keeps out a share of the sun while the air (or the first water) is warmer than `above_c`.

    `drawn` (8760) is 1 in hours in which it is drawn whatever the warmth. `warms` is the share of what it keeps out
    that stays inside as heat: nothing of a shade outside the glazing.
    """

    share: Ratio
    above_c: Celsius
    by_water: bool = False
    drawn: Array | None = None
    warms: Ratio = 0.0

    def __post_init__(self) -> None:
        """Refuse more shade than sun."""
        _refuse.not_a_share(share=self.share)
        _checked.share_hours(shade_drawn=self.drawn)


@dataclass(frozen=True)
class Thermostat:
    """Ideal heating and cooling of the air: what it may give at most. None where there is none."""

    heat_to_c: Celsius | None = None
    heat_most: Watt = float("inf")
    cool_to_c: Celsius | None = None
    cool_most: Watt = float("inf")

    def __post_init__(self) -> None:
        """Refuse one that would heat and cool at once."""
        _refuse.negative(most_heat=self.heat_most, most_cooling=self.cool_most)
        if self.heat_to_c is not None and self.cool_to_c is not None and self.heat_to_c > self.cool_to_c:
            raise ImpossibleInput(f"heating to {self.heat_to_c} degC works against {self.cool_to_c} degC")


@dataclass(frozen=True, eq=False)
class Room:
    """The air inside. `infiltration` in changes a second; `gains` and `radiant` are heat into air and onto surfaces.

    `lamps` (8760) is what lamps give to the air, by hour; `changes` (8760) air changes a second that a fan makes by the
    clock, beside the rest. `stores_as` multiplies what the air stores.
    """

    volume: CubicMetre
    infiltration: PerSecond
    vents: Vents | None = None
    shade: Shade | None = None
    thermostat: Thermostat = Thermostat()
    gains: Watt = 0.0
    radiant: Watt = 0.0
    stores_as: Ratio = 1.0
    lamps: Array | None = None
    changes: Array | None = None

    def __post_init__(self) -> None:
        """Refuse a room without air."""
        _refuse.not_positive(volume=self.volume, stores_as=self.stores_as)
        _refuse.negative(infiltration=self.infiltration, radiant=self.radiant)
        _checked.hours(lamps=self.lamps, changes=self.changes)


@dataclass(frozen=True)
class Side:
    """A side of a vessel: layers from the water outward. `onto` says what is behind it."""

    area: SquareMetre
    layers: tuple[Layer, ...]
    onto: Literal["room", "weather", "ground"] = "room"
    tilt_rad: Radian = 1.5707963267948966
    azimuth_rad: Radian = 3.141592653589793
    absorptance: Ratio = 0.6

    def __post_init__(self) -> None:
        """Refuse what holds no water."""
        _refuse.not_positive(area=self.area)
        _refuse.not_a_share(absorptance=self.absorptance)
        if not self.layers:
            raise ImpossibleInput("a side of a vessel has no layer")


@dataclass(frozen=True, eq=False)
class Body:
    """A body of water. `stores` is its heat capacity; `activity` how much less vapour salt leaves over it.

    `sun_beam` (8760) and `sun_diffuse` are the shares of the sun on level ground that become heat in it, for each
    square metre of its surface, without cover. `cover` (8760) is the covered share, `cover_passes` what sun a cover
    lets through. `lamps` (8760) and `gains` are heat put into it. `fan_speed` blows above `fan_above_c`.
    `still_speed` is that of the air over it otherwise. `wind_share`: local wind over it in the open.
    """

    name: str
    stores: JoulePerKelvin
    surface: SquareMetre
    sides: tuple[Side, ...] = ()
    activity: Ratio = 1.0
    sun_beam: Array | None = None
    sun_diffuse: Ratio = 0.0
    cover: Array | None = None
    cover_passes: Ratio = 0.0
    cover_resistance: SquareMetreKelvinPerWatt = 0.05
    lamps: Array | None = None
    gains: Watt = 0.0
    fan_speed: MetrePerSecond = 0.0
    fan_above_c: Celsius = 100.0
    still_speed: MetrePerSecond = 0.1
    evaporates: Ratio = 1.0
    tops_up: bool = True

    def __post_init__(self) -> None:
        """Refuse water that stores nothing, and hours of another length."""
        _refuse.not_positive(stores=self.stores, activity=self.activity)
        _refuse.negative(surface=self.surface, fan_speed=self.fan_speed, still_speed=self.still_speed)
        _refuse.negative(cover_resistance=self.cover_resistance, evaporates=self.evaporates)
        _refuse.not_a_share(activity=self.activity, sun=self.sun_diffuse, cover_passes=self.cover_passes)
        _checked.share_hours(cover=self.cover)
        _checked.hours(sun_in_water=self.sun_beam, lamps=self.lamps)


@dataclass(frozen=True)
class Heating:
    """A heater or a chiller (`cools`) with its thermostat in a body of water. On at setpoint less half the band."""

    body: Count
    power: Watt
    setpoint_c: Celsius
    band: Kelvin = 0.5
    cools: bool = False
    heats_room: Watt = 0.0

    def __post_init__(self) -> None:
        """Refuse a heater that cools."""
        _refuse.negative(power=self.power, band=self.band, heat_to_the_room=self.heats_room)


@dataclass(frozen=True)
class Link:
    """Water that goes round between two bodies, as heat carried for each kelvin."""

    one: Count
    other: Count
    carries: WattPerKelvin

    def __post_init__(self) -> None:
        """Refuse a stream that carries heat uphill."""
        _refuse.negative(carries=self.carries)


@dataclass(frozen=True)
class System:
    """All of it. `exposure` is the local wind for that at 10 m, `albedo` of the ground around."""

    room: Room | None = None
    walls: tuple[Wall, ...] = ()
    windows: tuple[Window, ...] = ()
    bodies: tuple[Body, ...] = ()
    heatings: tuple[Heating, ...] = ()
    links: tuple[Link, ...] = ()
    albedo: Ratio = 0.2
    exposure: Ratio = 0.5
    name: str = field(default="")

    def __post_init__(self) -> None:
        """Refuse parts that hang on nothing."""
        _refuse.negative(exposure=self.exposure)
        _refuse.not_a_share(albedo=self.albedo)
        _checked.system(self)
