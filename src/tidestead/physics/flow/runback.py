"""What runs back to the sump when the power stops, with every guard working and with one or both failed.

Water goes by any way that is full or spills: over weirs, through drains, back through pumps that stand, and from
branch to branch where lines meet. A check valve shuts a way; a siphon break ends it at the break's level. Neither is
trusted alone: `runback_cases` gives the volume for each of them failed.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import inf

from tidestead.core.dims import CubicMetre, Metre, Ratio
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse
from tidestead.physics.flow.draining import Basin, level_of, volume_at


@dataclass(frozen=True)
class Guards:
    """Which guards do their work."""

    checks_hold: bool = True
    breaks_work: bool = True


@dataclass(frozen=True)
class Way:
    """A way from one place (a vessel, or a junction of pipes) to another, by name.

    Water goes while its head at the start stands above `needs`: the crest it spills over, the lower edge of a mouth
    that would draw air, or of one that it has to come out of. `break_at` is the level of a siphon break on it, None
    where there is none. A `check_valve` lets nothing go this way while it holds.
    """

    start: str
    end: str
    needs: Metre
    break_at: Metre | None = None
    check_valve: bool = False


@dataclass(frozen=True)
class Standing:
    """A vessel and its level while pumps run."""

    basin: Basin
    level: Metre


@dataclass(frozen=True)
class HeldWater:
    """Water in a pipe or an apparatus that is full while pumps run, between its lowest and highest level.

    It can run on to `end`, and back to `start` unless a `check_valve` holds; an empty name is no place.
    """

    volume: CubicMetre
    low: Metre
    high: Metre
    start: str
    end: str
    check_valve: bool = False


@dataclass(frozen=True)
class PowerStop:
    """Every vessel, the ways between them with no pump running, what pipes hold, and which vessel is the sump."""

    vessels: Mapping[str, Standing]
    ways: tuple[Way, ...]
    held: tuple[HeldWater, ...]
    sump: str


@dataclass(frozen=True)
class Runback:
    """What comes down, where each vessel comes to rest, and what it does to the sump.

    `spare` is the sump's free volume less what comes: below nothing, it spills.
    """

    from_vessels: CubicMetre
    from_pipes: CubicMetre
    total: CubicMetre
    rests: Mapping[str, Metre]
    sump_level: Metre
    spare: CubicMetre


@dataclass(frozen=True)
class RunbackCases:
    """The same power stop with all guards working, with one sort of them failed, and with both."""

    working: Runback
    break_blocked: Runback
    check_failed: Runback
    both_failed: Runback


def way_needs(way: Way, guards: Guards) -> Metre:
    """Head above which water goes a way.

        check valve holds: none is enough;  break works: the break, where it is higher;  else: what the way needs

    A break that lies lower than the mouth does nothing: the mouth draws air first.
    Source: a siphon runs until air reaches it.
    Valid:  pumps that stand let water through, as centrifugal ones do.
    """
    if way.check_valve and guards.checks_hold:
        return inf
    if way.break_at is not None and guards.breaks_work:
        return max(way.needs, way.break_at)
    return way.needs


def lowest_heads(ways: Sequence[Way], sump: str, level: Metre, guards: Guards) -> Mapping[str, Metre]:
    """Head above which the water of each place can go on to the sump, over any places between.

        least, over all ways out, of the larger of what the way needs and the head of the place it leads to

    Places from which nothing leads to the sump are left out.
    Source: each way runs until it is bare; the lowest decides, and on a chain of ways the highest of them.
    Valid:  given hours, every siphon taken to start again when water covers it. So it is the most that can come:
            what stays on the way in another vessel is counted as coming too.
    """
    heads = {sump: level}
    needs = [(way.start, way.end, way_needs(way, guards)) for way in ways]
    for _ in range(len(needs) + 1):
        lower: dict[str, Metre] = {}
        for start, end, need in needs:
            head = max(need, heads.get(end, inf))
            if head < min(heads.get(start, inf), lower.get(start, inf)):
                lower[start] = head
        if not lower:
            break
        heads |= lower
    return heads


def share_above(low: Metre, high: Metre, level: Metre) -> Ratio:
    """Share of an evenly rising pipe that lies above a level.

        (high - level)/(high - low), from none to all; a level pipe at the level counts as above it

    Source: geometry.
    Valid:  low <= high.
    """
    _refuse.negative(rise=high - low)
    if level <= low:
        return 1.0
    return 0.0 if level >= high else (high - level) / (high - low)


def free_volume(basin: Basin, level: Metre) -> CubicMetre:
    """Room left in a vessel up to its brim.

        V(brim) - V(level)

    Source: geometry.
    Valid:  level at or below the brim; take the highest level it runs at, after a top-off.
    """
    return volume_at(basin, basin.brim) - volume_at(basin, level)


def runback(stop: PowerStop, guards: Guards) -> Runback:
    """What comes down to the sump when the power stops. One stop at a time.

        V = sum of V(running) - V(rests) + sum of what pipes hold above where it can run to

    Pipes are counted above the level the sump has before, so a little too much where it rises past them.
    Source: continuity.
    Valid:  as `lowest_heads`; a weir takes minutes to run out, a long thin siphon longer (`levels.level_course`).
    """
    sump = stop.vessels[stop.sump]
    heads = lowest_heads(stop.ways, stop.sump, sump.level, guards)
    rests = {
        key: max(min(one.level, heads.get(key, inf)), min(one.basin.floor, one.level))
        for key, one in stop.vessels.items()
        if key != stop.sump
    }
    sunk = sum(
        float(volume_at(one.basin, one.level) - volume_at(one.basin, rests[key]))
        for key, one in stop.vessels.items()
        if key in rests
    )
    held = sum(_runs_out(one, heads, guards) for one in stop.held)
    total = sunk + held
    return Runback(
        from_vessels=sunk,
        from_pipes=held,
        total=total,
        rests=rests,
        sump_level=float(level_of(sump.basin, volume_at(sump.basin, sump.level) + total)),
        spare=float(free_volume(sump.basin, sump.level) - total),
    )


def runback_cases(stop: PowerStop) -> RunbackCases:
    """The power stop with all guards working, every break blocked, every check valve failed, and both.

        as runback

    Judge the sump by the worst single failure. A line without a check valve already leans on its break, so there a
    blocked break is the worst; with a check valve and no break, the failed valve is.
    Source: continuity.
    Valid:  as runback.
    """
    sump = stop.vessels[stop.sump]
    if sump.level > sump.basin.brim:
        raise ImpossibleInput(f"the sump runs at {sump.level} m, above its brim at {sump.basin.brim} m")
    return RunbackCases(
        working=runback(stop, Guards()),
        break_blocked=runback(stop, Guards(breaks_work=False)),
        check_failed=runback(stop, Guards(checks_hold=False)),
        both_failed=runback(stop, Guards(checks_hold=False, breaks_work=False)),
    )


def _runs_out(held: HeldWater, heads: Mapping[str, Metre], guards: Guards) -> CubicMetre:
    """Water of a pipe that stands above the lowest head it can run down to; none where no place leads on."""
    back = inf if held.check_valve and guards.checks_hold else heads.get(held.start, inf)
    lowest = min(back, heads.get(held.end, inf))
    return 0.0 if lowest == inf else held.volume * share_above(held.low, held.high, lowest)
