"""Which face is drawn before which: the farther first, so that the nearer hides it.

Two faces whose outlines overlap are compared where they overlap. Where they pass through one another, one is cut
along the line they share; where some lie over each other in a ring, one is cut along a side of the next.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence

from tidestead.core.scene import Point
from tidestead.core.solids import Spot
from tidestead.report.isometric_faces import HAIR, Face, Look, area_of, shared

SEEN_THROUGH = {"clear", "water", "outline", "ghost", "load"}
"""Stuffs that do not hide what is behind them."""

_MOST_CUTS = 400
"""Cuts after which what is left is drawn as it comes; two hundred bodies of a real tank take a few dozen."""


def ordered(faces: Iterable[Face]) -> list[Face]:
    """The faces from the farthest to the nearest; those wholly hidden by one other are left out."""
    order = _Order()
    waiting = list(faces)
    while waiting:
        waiting += order.put(waiting.pop())
    return order.drawn()


class _Order:
    """Faces that do not pass through one another, and which of them must be drawn before which."""

    def __init__(self) -> None:
        self.faces: dict[int, Face] = {}
        self.boxes: dict[int, tuple[float, float, float, float]] = {}
        self.after: dict[int, set[int]] = defaultdict(set)
        self.before: dict[int, set[int]] = defaultdict(set)
        self.next, self.cuts = 0, 0

    def put(self, face: Face) -> list[Face]:
        """Take a face in. Where it passes through another it is cut instead, and the pieces come back."""
        box, farther, nearer = face.box, [], []
        for number in self._over(box):
            other = self.faces[number]
            place = _placed(face, other)
            if place == "through" and self.cuts < _MOST_CUTS:
                self.cuts += 1
                a, b, c = (mine - its for mine, its in zip(face.plane, other.plane, strict=True))
                pieces = [piece for piece in face.cut((a, b, c)) if piece is not None]
                if len(pieces) > 1:
                    return pieces
            elif place == "hidden":
                return []
            elif place == "hides":
                self._drop(number)
            elif place == "nearer":
                nearer.append(number)
            elif place == "farther":
                farther.append(number)
        self._add(face, box, [n for n in nearer if n in self.faces], [n for n in farther if n in self.faces])
        return []

    def _over(self, box: tuple[float, float, float, float]) -> list[int]:
        """Faces whose boxes overlap one."""
        left, bottom, right, top = box
        return [
            number
            for number, other in self.boxes.items()
            if other[0] < right and left < other[2] and other[1] < top and bottom < other[3]
        ]

    def _add(
        self, face: Face, box: tuple[float, float, float, float], behind: list[int], ahead: list[int]
    ) -> None:
        number, self.next = self.next, self.next + 1
        self.faces[number], self.boxes[number] = face, box
        for other in behind:
            self._say(other, number)
        for other in ahead:
            self._say(number, other)

    def _say(self, first: int, then: int) -> None:
        self.after[first].add(then)
        self.before[then].add(first)

    def _drop(self, number: int) -> None:
        for other in self.after.pop(number, set()):
            self.before[other].discard(number)
        for other in self.before.pop(number, set()):
            self.after[other].discard(number)
        del self.faces[number], self.boxes[number]

    def drawn(self) -> list[Face]:
        """Every face, each after all that lie behind it."""
        found: list[Face] = []
        free: list[int] = []
        while self.faces:
            free = free or sorted((n for n in self.faces if not self.before[n]), reverse=True)
            if not free:
                self._part_a_ring()
                continue
            number = free.pop()
            found.append(self.faces[number])
            freed = [other for other in self.after[number] if self.before[other] == {number}]
            self._drop(number)
            free += sorted(freed, reverse=True)
        return found

    def _part_a_ring(self) -> None:
        """Cut a face of a ring along a side of the one behind it; where no cut helps, draw one by force."""
        ring = self._ring()
        for number, behind in zip(ring, (*ring[1:], ring[0]), strict=True):
            pieces = list(_parted(self.faces[number], self.faces[behind])) if self.cuts < _MOST_CUTS else []
            if pieces:
                self.cuts += 1
                self._drop(number)
                while pieces:
                    pieces += self.put(pieces.pop())
                return
        number = min(ring)
        for other in self.before.pop(number):
            self.after[other].discard(number)

    def _ring(self) -> list[int]:
        """Some faces that lie over each other in a ring, each over the next."""
        way = [next(iter(self.faces))]
        while True:
            behind = min(self.before[way[-1]])
            if behind in way:
                return way[way.index(behind) :]
            way.append(behind)


def _placed(one: Face, other: Face) -> str:
    """How one face lies to another: apart, nearer, farther, through it; or so that one of them is not seen at all."""
    common = shared(one, other)
    if not common:
        return "apart"
    gaps = [one.near(place) - other.near(place) for place in common]
    if max(gaps) > 2.0 * HAIR and min(gaps) < -2.0 * HAIR:
        return "through"
    if abs(max(gaps) + min(gaps)) < HAIR:
        return "apart"
    if max(gaps) + min(gaps) > 0.0:
        return "hides" if _covers(one, other, common) else "nearer"
    return "hidden" if _covers(other, one, common) else "farther"


def _covers(near: Face, far: Face, common: Sequence[Point]) -> bool:
    """Whether the nearer face leaves nothing to see of the farther one."""
    if near.solid.stuff in SEEN_THROUGH:
        return False
    return abs(area_of(common) - far.area) < 1e-9 + 1e-6 * far.area


def _parted(face: Face, other: Face) -> tuple[Face, ...]:
    """A face cut along a side of another that runs through it; nothing where none does."""
    for line in other.lines:
        inside, outside = face.cut(line)
        if inside is not None and outside is not None:
            return inside, outside
    return ()


def seen_pieces(line: tuple[Spot, Spot], faces: Sequence[Face], look: Look) -> Iterator[tuple[Point, Point]]:
    """The pieces of a straight line that no face hides, on the picture."""
    begin, end = (look.flat(spot) for spot in line)
    depths = (look.near(line[0]), look.near(line[1]))
    hidden = sorted(filter(None, (_hidden(begin, end, depths, face) for face in faces)))
    at = 0.0
    for low, high in [*hidden, (1.0, 1.0)]:
        if low - at > 1e-6:
            yield _along(begin, end, at), _along(begin, end, low)
        at = max(at, high)


def _along(begin: Point, end: Point, share: float) -> Point:
    return begin[0] + share * (end[0] - begin[0]), begin[1] + share * (end[1] - begin[1])


def _hidden(begin: Point, end: Point, depths: tuple[float, float], face: Face) -> tuple[float, float] | None:
    """From which to which share of its length a line lies behind a face."""
    if face.solid.stuff in SEEN_THROUGH:
        return None
    low, high = 0.0, 1.0
    ends = [(a * begin[0] + b * begin[1] + c, a * end[0] + b * end[1] + c) for a, b, c in face.lines]
    ends.append((face.near(begin) - depths[0] - HAIR, face.near(end) - depths[1] - HAIR))
    for first, last in ends:
        if first < 0.0 and last < 0.0:
            return None
        if first < 0.0:
            low = max(low, first / (first - last))
        elif last < 0.0:
            high = min(high, first / (first - last))
    return (low, high) if high - low > 1e-6 else None
