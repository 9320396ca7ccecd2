"""Bow, moments and edge forces of a rectangular window or sheet under water: the front door of the plates.

    panel = Panel(width, height, thickness, modulus, poisson, Edges("simple", "simple", "simple", "free"))
    state = solve_panel(panel, WaterLoad(head, weight))

`solve_panel` takes a simple edge as held both ways; `solve_push_only` lets it push but not pull.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property, lru_cache

import numpy as np

from tidestead.core.dims import (
    Array,
    Count,
    Metre,
    Newton,
    NewtonMetrePerMetre,
    NewtonPerMetre,
    NewtonPerMetre2,
    Ratio,
)
from tidestead.core.errors import ImpossibleInput
from tidestead.physics.structure.plate_contact import KEPT_PLATES, Contact, contact, on_seats, push_only_bow
from tidestead.physics.structure.plate_fields import (
    Fields,
    GridFields,
    PeakBow,
    PeakMoment,
    Surface,
    field_peaks,
)
from tidestead.physics.structure.plate_panel import (
    EDGE_NAMES,
    Edges,
    EdgeSprings,
    Metres,
    Moments,
    Panel,
    Support,
    WaterLoad,
)
from tidestead.physics.structure.plate_reactions import (
    CornerForces,
    EdgeReaction,
    EdgeReactions,
    EdgeRotations,
    edge_forces,
    edge_rotations,
)
from tidestead.physics.structure.plate_ritz import Factored, RitzPlate, factored, low_strip, ritz_plate

__all__ = [
    "Contact",
    "CornerForces",
    "EdgeReaction",
    "EdgeReactions",
    "EdgeRotations",
    "EdgeSprings",
    "Edges",
    "GridFields",
    "Panel",
    "PanelState",
    "PeakBow",
    "PeakMoment",
    "Support",
    "WaterLoad",
    "solve_panel",
    "solve_push_only",
]

DEFAULT_SEAT: NewtonPerMetre2 = 1e9
"""A hard seat, in force per metre of edge for each metre of bow; a soft gasket has about 1e7. Assumed."""
SLACK: Ratio = 1e-9
"""How far outside the panel, as a share of its side, a point may lie through rounding."""


@dataclass(frozen=True, eq=False)
class PanelState:
    """A solved panel. Positions in metres from the bottom left corner, bow positive towards the dry side.

    Moments are positive where they stretch the dry face. `contact` is there only for seats that push.
    """

    panel: Panel
    load: WaterLoad
    plate: RitzPlate
    table: Array
    contact: Contact | None = None

    @cached_property
    def _surface(self) -> Surface:
        plate = self.plate
        return Surface(plate.along, plate.up, self.table, self.panel.rigidity, self.panel.poisson)

    def bow(self, x: Metres | Metre, y: Metres | Metre) -> Metres:
        """Bow at points; `x` and `y` broadcast. Points outside the panel raise ImpossibleInput."""
        fields, shape = self._at(x, y)
        return fields.bow.reshape(shape)

    def moments(self, x: Metres | Metre, y: Metres | Metre) -> tuple[Moments, Moments, Moments]:
        """Moments mx (bends along the width), my (along the height) and mxy (twist) at points."""
        fields, shape = self._at(x, y)
        return fields.mx.reshape(shape), fields.my.reshape(shape), fields.mxy.reshape(shape)

    def grid(self, nx: Count, ny: Count) -> GridFields:
        """All fields on an even grid that includes the edges, for drawing; arrays are indexed [x, y]."""
        x = np.linspace(0.0, self.panel.width, nx)
        y = np.linspace(0.0, self.panel.height, ny)
        found = self._surface.on_lines(self.plate.along.jets(x), self.plate.up.jets(y))
        return GridFields(x, y, found.bow, found.mx, found.my, found.mxy, found.air_side, found.water_side)

    @property
    def peak_bow(self) -> PeakBow:
        """Greatest bow (m) towards the dry side, and where."""
        return self._peaks[0]

    @property
    def max_bow(self) -> Metre:
        """Greatest bow towards the dry side."""
        return self._peaks[0].value

    @property
    def peak_air(self) -> PeakMoment:
        """Greatest moment (N m/m) that stretches the dry face, over all points and directions, and where."""
        return self._peaks[1]

    @property
    def peak_water(self) -> PeakMoment:
        """Greatest moment (N m/m), as a positive number, that stretches the wet face, and where."""
        return self._peaks[2]

    @property
    def peak_moment(self) -> NewtonMetrePerMetre:
        """The greater of the two peaks: it governs where both faces are allowed the same stress."""
        return max(self._peaks[1].value, self._peaks[2].value)

    @cached_property
    def free_edge_bow(self) -> Metre:
        """Greatest bow, either way, along the free edges and leaning ones; zero if there are none."""
        found = []
        for name in EDGE_NAMES:
            if self.panel.edges.of(name) == "free":
                line, amounts = self.plate.edge_line(name, self.table)
                found.append(line.greatest(amounts))
        return max(found, default=0.0)

    @property
    def edge_reactions(self) -> EdgeReactions:
        """Seat force along each edge."""
        return self._forces[0]

    @property
    def corner_forces(self) -> CornerForces:
        """Single forces at the corners; negative must be held down."""
        return self._forces[1]

    @property
    def total_reaction(self) -> Newton:
        """All edges and corners together."""
        return self._forces[0].total + self._forces[1].total

    @property
    def total_load(self) -> Newton:
        """The whole push of the water and of the even pressure."""
        return self.panel.width * self.load.push(self.panel.height)

    @cached_property
    def edge_rotations(self) -> EdgeRotations:
        """Greatest turn across each edge, for the strain of a seal."""
        return edge_rotations(self.plate, self.table)

    @property
    def contact_share(self) -> Ratio:
        """Share of the seats' length the panel presses on; one where the edges are held."""
        return 1.0 if self.contact is None else self.contact.share

    @property
    def corner_lift(self) -> Metre:
        """Greatest gap between panel and seat; zero where the edges are held."""
        return 0.0 if self.contact is None else self.contact.lift

    @property
    def peak_seat_load(self) -> NewtonPerMetre:
        """Greatest push on a metre of seat, over all edges."""
        reactions = self.edge_reactions
        return max(reactions.left.peak, reactions.right.peak, reactions.bottom.peak, reactions.top.peak)

    @cached_property
    def _peaks(self) -> tuple[PeakBow, PeakMoment, PeakMoment]:
        return field_peaks(self._surface, self.plate.panel)

    @cached_property
    def _forces(self) -> tuple[EdgeReactions, CornerForces]:
        work = self.plate.push(self.load)
        return edge_forces(self.plate, self.table, work, one_way=self.contact is not None)

    def _at(self, x: Metres | Metre, y: Metres | Metre) -> tuple[Fields, tuple[int, ...]]:
        wide, high = np.broadcast_arrays(np.asarray(x, dtype=float), np.asarray(y, dtype=float))
        for name, points, side in (("x", wide, self.panel.width), ("y", high, self.panel.height)):
            if not ((points >= -SLACK * side) & (points <= (1.0 + SLACK) * side)).all():
                raise ImpossibleInput(f"{name}: a point outside the panel (0 to {side} m) was asked for.")
        return self._surface.at(wide.ravel(), high.ravel()), wide.shape


def solve_panel(panel: Panel, load: WaterLoad, extra_degree: Count = 0) -> PanelState:
    """Bow, moments and edge forces of a panel whose supported edges are held both ways.

        least over w of  D/2 integral[ wxx**2 + wyy**2 + 2 nu wxx wyy + 2 (1 - nu) wxy**2 ] - integral[ p w ]
        p = weight * (head - y) below the water line, plus the even pressure

    `extra_degree` adds degrees to every strip, to see that the answer no longer moves.
    Raises SolverError where the edges leave a mechanism.
    Source: Kirchhoff plate energy (Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells), by Ritz.
    Valid:  even isotropic sheet, thickness under a tenth of the shorter side, bow under half the thickness
    (see large_bow), sides up to 30 times each other. Bow and peak moments within 0.2 %; within 1 % where water
    stands under a tenth of the height, or the peak within a tenth of the shorter side of a corner of a clamped
    and a free edge. Round such a corner 2 % of the shorter side is left out of the search.
    """
    panel.check_held()
    plate, whole = _held_plate(panel, low_strip(panel, load.head), extra_degree)
    kept = whole.solve(plate.reduced(plate.push(load)))
    return PanelState(panel, load, plate, plate.spread(kept))


def solve_push_only(
    panel: Panel,
    load: WaterLoad,
    seat_stiffness: NewtonPerMetre2 = DEFAULT_SEAT,
    extra_degree: Count = 0,
) -> PanelState:
    """The same where simple edges are seats that push but cannot pull, so that corners may lift.

        seat force on a metre of edge = seat_stiffness * bow where the panel presses, nothing where it lifts

    Clamped edges stay clamped, free edges free; a free edge with a spring leans on it and may lift off it.
    Raises SolverError where the seats cannot balance the water.
    Source: Kirchhoff plate energy as solve_panel; seat as a row of springs that only push (own, active set).
    Valid:  as solve_panel; no friction; the panel's own weight and seal not counted.
    """
    panel.check_held()
    plate = _seat_plate(on_seats(panel, seat_stiffness), low_strip(panel, load.head), extra_degree)
    if not plate.panel.leaning():
        return solve_panel(panel, load, extra_degree)
    table, rounds = push_only_bow(plate, load)
    return PanelState(panel, load, plate, table, contact(plate, table, rounds))


@lru_cache(maxsize=KEPT_PLATES)
def _seat_plate(panel: Panel, low: Metre, extra_degree: Count) -> RitzPlate:
    """The same plate for the same panel, so that what was worked out of it can be kept."""
    return ritz_plate(panel, low, all_edges=True, extra_degree=extra_degree)


@lru_cache(maxsize=KEPT_PLATES)
def _held_plate(panel: Panel, low: Metre, extra_degree: Count) -> tuple[RitzPlate, Factored]:
    """Functions and factored stiffness of a panel, kept since one panel is asked about at many levels."""
    plate = ritz_plate(panel, low, extra_degree=extra_degree)
    return plate, factored(plate.stiffness())
