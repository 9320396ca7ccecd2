"""What one wall is given to carry, and what its studs, jambs, sills and rim do under it.

Windows hand their load to the timbers round them: the sides to the jambs, the bottom to the sill, the top to
the rim or to a header. Sill and header hand theirs to the jambs, the jambs to rim and base.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from tidestead.core.errors import SolverError
from tidestead.core.kept import kept
from tidestead.physics.structure.beams import equal_spans
from tidestead.studies.structure.drawings_box import stud_places, window_left
from tidestead.studies.structure.found import WallPlace
from tidestead.studies.structure.patches import POINT, Patch, ends, point, sliced, water_patch
from tidestead.studies.structure.window_facts import WindowFacts

_HAIR = 1e-9


@dataclass(frozen=True)
class JambSide:
    """One jamb: where it stands along the wall, its loads from the floor up, what it hands on."""

    at: float
    patches: tuple[Patch, ...]
    top: float
    bottom: float


@dataclass(frozen=True)
class JambLoads:
    """The timbers round one window: both jambs, and the loads along sill and header from the left jamb.

    `left` and `right` are the sheet's edges, where the jambs are taken to stand: that of a jamb twice as broad as the
    seat is wide, flush with the clear opening, has its middle there. The sheet leans `inset` further in. `reach` is
    how much of the wall beyond each jamb leans on it.
    """

    window: WindowFacts
    left: float
    right: float
    inset: float
    sill: tuple[Patch, ...]
    header: tuple[Patch, ...]
    sides: tuple[JambSide, JambSide]
    kerb: bool
    reach: tuple[float, float]

    @property
    def clear(self) -> float:
        """Span of sill and header, taken as wide as the sheet; they are shorter by the seats at its sides."""
        return self.right - self.left

    @property
    def busier(self) -> JambSide:
        """The jamb that hands on more."""
        return max(self.sides, key=lambda side: side.top + side.bottom)


@dataclass(frozen=True, eq=False)  # what was found is itself: what is judged of it can be kept by it
class WallLoads:
    """One wall under one load case. Depth at the deep end; line loads in N/m, forces in N.

    `rim` and `base` are the patches along them, `rim_even` and `base_even` the line loads where there is no window.
    `busiest` is how much more the busiest stud takes than its bay, since the sheet runs on over several studs.
    """

    place: WallPlace
    weight: float
    depth: float
    span: float
    spacing: float
    busiest: float
    rim_even: float
    base_even: float
    rim: tuple[Patch, ...]
    base: tuple[Patch, ...]
    jambs: tuple[JambLoads, ...]

    @property
    def pressure(self) -> float:
        """Pressure at the floor."""
        return self.weight * self.depth

    @property
    def stud_base(self) -> float:
        """Line load on a stud at the floor, from its own bay."""
        return self.pressure * self.spacing

    @property
    def stud_top(self) -> float:
        """What a stud hands to the rim."""
        return self.rim_even * self.spacing

    @property
    def stud_bottom(self) -> float:
        """What a stud hands to the base."""
        return self.base_even * self.spacing

    @property
    def push(self) -> float:
        """The whole push of the water on the wall."""
        return self.weight * self.depth**2 / 2.0 * self.place.length


@kept(at_most=256)
def wall_loads(
    place: WallPlace, weight: float, level: float, windows: tuple[WindowFacts, ...]
) -> WallLoads | None:
    """Loads of one wall; None where the plan gives no studs to carry them.

    Raises SolverError where rim and base together would not carry the push.
    """
    studs = place.wall.studs
    if studs is None or studs.spacing is None or studs.section is None:
        return None
    depth = level + place.deeper
    span = max(place.height + place.deeper, depth)
    places = stud_places(place)
    spacing = places[1] - places[0] if len(places) > 1 else studs.spacing
    wall = _Wet(place, weight, depth, span, spacing)
    base_even, rim_even = ends(wall.strip(0.0, span, 1.0), span)
    jambs = tuple(_jamb_loads(wall, window, reach) for window, reach in _reaches(wall, windows))
    loads = WallLoads(
        place,
        weight,
        depth,
        span,
        spacing,
        busiest_share(len(places) - 1),
        rim_even,
        base_even,
        _along(wall, jambs, rim_even, _rim_of),
        _along(wall, jambs, base_even, _base_of),
        jambs,
    )
    _check_balance(loads)
    return loads


BALANCE = 0.01
"""Share of the push by which rim and base together may miss it."""


def _check_balance(loads: WallLoads) -> None:
    """A held corner pulls inward, so that the edges press more than the water does: that is left on the timber."""
    carried = sum(patch.force for patch in (*loads.rim, *loads.base))
    expected = loads.push + sum(_held_down(jamb.window) for jamb in loads.jambs)
    expected -= sum(_over_free_edge(loads, jamb.window) for jamb in loads.jambs)
    if abs(carried - expected) > BALANCE * loads.push + 1.0:
        raise SolverError(
            f"{loads.place.name} wall: rim and base carry {carried / 1000:.2f} kN of a push of "
            f"{expected / 1000:.2f} kN{_TOO_NEAR if len(loads.jambs) > 1 else ''}"
        )


_TOO_NEAR = "; windows may stand too near to each other"


def _over_free_edge(loads: WallLoads, window: WindowFacts) -> float:
    """Push of the water that would stand above a free upper edge: it runs over the sheet and presses on nothing."""
    begin = window.sill + window.height
    if window.top_on != "nothing" or begin >= loads.depth:
        return 0.0
    return loads.weight * (loads.depth - begin) ** 2 / 2.0 * window.width


def _held_down(window: WindowFacts) -> float:
    """Pull of a window's corners, where they are held both ways."""
    corners = window.state.corner_forces
    every = (corners.bottom_left, corners.bottom_right, corners.top_left, corners.top_right)
    return sum(max(-corner, 0.0) for corner in every)


def busiest_share(bays: int) -> float:
    """Reaction of the busiest inner prop over what one bay brings: a sheet runs over as many as the wall has."""
    if bays < 2:
        return 1.0
    return max(1.0, float(equal_spans(1.0, 1.0, bays, 1.0).reaction))


@dataclass(frozen=True)
class _Wet:
    """A wall and the water on it."""

    place: WallPlace
    weight: float
    depth: float
    span: float
    spacing: float

    def strip(self, bottom: float, top: float, width: float) -> tuple[Patch, ...]:
        """Line load on an upright between two heights, counted from the lower one."""
        return tuple(
            Patch(patch.start - bottom, patch.end - bottom, patch.at_start, patch.at_end)
            for patch in water_patch(self.weight, self.depth, bottom, top, width)
        )


def _edges_of(wall: _Wet, window: WindowFacts) -> tuple[float, float]:
    """Places of a sheet's edges along the wall."""
    left = window_left(window.window, wall.place.length)
    return left, left + (window.window.width or 0.0)


def _reaches(wall: _Wet, windows: Sequence[WindowFacts]) -> list[tuple[WindowFacts, tuple[float, float]]]:
    """Windows from left to right, each with how much of the wall on either side leans on its jambs.

    That is half a bay, or what there is: up to the corner, or half way to the next window.
    """
    ordered = sorted(windows, key=lambda one: _edges_of(wall, one))
    half, found = wall.spacing / 2.0, []
    for number, window in enumerate(ordered):
        left, right = _edges_of(wall, window)
        before = (left - _edges_of(wall, ordered[number - 1])[1]) / 2.0 if number else left
        last = number == len(ordered) - 1
        after = wall.place.length - right if last else (_edges_of(wall, ordered[number + 1])[0] - right) / 2.0
        found.append((window, (min(half, max(before, 0.0)), min(half, max(after, 0.0)))))
    return found


def _jamb_loads(wall: _Wet, window: WindowFacts, reach: tuple[float, float]) -> JambLoads:
    left, right = _edges_of(wall, window)
    inset = (right - left - window.width) / 2.0
    kerb = window.window.opening.sill_held_by == "base"
    sill, header = _sill_patches(wall, window, inset), _header_patches(wall, window, inset)
    clear = right - left
    sill_ends = (0.0, 0.0) if kerb else ends(sill, clear)
    header_ends = ends(header, clear) if header else (0.0, 0.0)
    edges = (window.reactions.left, window.reactions.right)
    corners = window.state.corner_forces
    low = [max(corner, 0.0) for corner in (corners.bottom_left, corners.bottom_right)]
    high = [max(corner, 0.0) for corner in (corners.top_left, corners.top_right)]
    sides = []
    for number, (at, edge) in enumerate(zip((left, right), edges, strict=True)):
        patches = [*sliced(edge, window.sill)]
        patches += wall.strip(0.0, wall.span, reach[number] + inset)
        patches += _points(window.sill, sill_ends[number] + low[number], wall.span)
        patches += _points(window.sill + window.height, header_ends[number] + high[number], wall.span)
        bottom, top = ends(patches, wall.span)
        sides.append(JambSide(at, tuple(patches), top, bottom))
    return JambLoads(window, left, right, inset, sill, header, (sides[0], sides[1]), kerb, reach)


def _points(at: float, force: float, length: float) -> list[Patch]:
    return [point(at, force, length)] if force > 0.0 else []


def _sill_patches(wall: _Wet, window: WindowFacts, inset: float) -> tuple[Patch, ...]:
    """The window's lower edge, and the heads of the short studs under it."""
    bottom = window.reactions.bottom
    patches = [*sliced(bottom, inset)]
    if window.sill > 0.0:
        head = ends(wall.strip(0.0, window.sill, 1.0), window.sill)[1]
        patches.append(Patch(inset, inset + window.width, head, head))
    return tuple(patches)


def _header_patches(wall: _Wet, window: WindowFacts, inset: float) -> tuple[Patch, ...]:
    """The window's upper edge, and the feet of the short studs over it; nothing where there is no header."""
    if window.top_on != "header":
        return ()
    top, begin = window.reactions.top, window.sill + window.height
    patches = [*sliced(top, inset)]
    above = wall.strip(begin, wall.span, 1.0)
    if above:
        foot = ends(above, wall.span - begin)[0]
        patches.append(Patch(inset, inset + window.width, foot, foot))
    return tuple(patches)


def _along(
    wall: _Wet, jambs: tuple[JambLoads, ...], even: float, of: Callable[[_Wet, JambLoads], list[Patch]]
) -> tuple[Patch, ...]:
    """Loads along rim or base: even where studs stand, and what each window's timbers hand on."""
    patches: list[Patch] = []
    begin = 0.0
    for jamb in jambs:
        if jamb.left - jamb.reach[0] > begin + _HAIR:
            patches.append(Patch(begin, jamb.left - jamb.reach[0], even, even))
        patches += of(wall, jamb)
        begin = max(begin, jamb.right + jamb.reach[1])
    if begin < wall.place.length - _HAIR:
        patches.append(Patch(begin, wall.place.length, even, even))
    return tuple(patches)


def _rim_of(wall: _Wet, jamb: JambLoads) -> list[Patch]:
    """Jamb heads; the window's top where it leans on the rim, or what stands over its header."""
    patches = [point(side.at, side.top, wall.place.length) for side in jamb.sides]
    window, start = jamb.window, jamb.left + jamb.inset
    if window.top_on == "rim":
        top = window.reactions.top
        patches += sliced(top, start)
    begin = window.sill + window.height
    above = wall.strip(begin, wall.span, 1.0) if begin < wall.span else ()
    if above and window.top_on == "header":
        upper = ends(above, wall.span - begin)[1]
        patches.append(Patch(start, start + window.width, upper, upper))
    elif above and window.top_on == "rim":
        whole = sum(patch.force for patch in above)
        patches.append(Patch(start, start + window.width, whole, whole))
    return patches


def _wide(window: WindowFacts) -> float:
    """How wide a jamb stands along the wall: its pieces side by side; nothing where that is not said."""
    jambs = window.window.opening.jambs
    section = None if jambs is None else jambs.section
    return 0.0 if section is None else section.pieces * section.breadth


def _foot(side: JambSide, wide: float, length: float) -> Patch:
    """What a jamb hands to the base, over the width that it stands on there."""
    room = 2.0 * min(side.at, length - side.at)
    wide = min(wide, room)
    if wide <= POINT:
        return point(side.at, side.bottom, length)
    line = side.bottom / wide
    return Patch(side.at - wide / 2.0, side.at + wide / 2.0, line, line)


def _base_of(wall: _Wet, jamb: JambLoads) -> list[Patch]:
    """Jamb feet; the feet of the short studs; the sill where it stands on the base."""
    window, start = jamb.window, jamb.left + jamb.inset
    patches = [_foot(side, _wide(window), wall.place.length) for side in jamb.sides]
    if window.sill > 0.0:
        foot = ends(wall.strip(0.0, window.sill, 1.0), window.sill)[0]
        patches.append(Patch(start, start + window.width, foot, foot))
    if jamb.kerb:
        patches += [
            Patch(jamb.left + one.start, jamb.left + one.end, one.at_start, one.at_end) for one in jamb.sill
        ]
    return patches
