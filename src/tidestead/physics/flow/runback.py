"""What runs back to the sump when the power stops, with every guard working and with one or both failed.

Three things come down: the water that stands on weirs, what return lines suck back through their outlets, and
what pipes and small vessels hold. A check valve stops a return line; a siphon break stops it at the break's level.
Neither is trusted alone: `runback_cases` gives the volume for each of them failed.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import pi

from tidestead.core.dims import CubicMetre, Metre, Ratio
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse
from tidestead.physics.flow.draining import Basin, level_of, volume_at


@dataclass(frozen=True)
class ReturnLine:
    """A pumped line into a vessel: its lowest open end under water, its siphon break, its check valve.

    `break_level` is that of the hole or vent where air comes in; None where there is none.
    """

    outlet: Metre
    break_level: Metre | None = None
    check_valve: bool = False


@dataclass(frozen=True)
class Guards:
    """Which guards do their work."""

    checks_hold: bool = True
    breaks_work: bool = True


@dataclass(frozen=True)
class Falling:
    """A vessel that sinks when pumps stop: its level while they run, and where it comes to rest by itself.

    `rests` is the crest of its weir, the lip of its lowest standpipe, or the floor of one that empties by gravity.
    """

    basin: Basin
    running: Metre
    rests: Metre
    lines: tuple[ReturnLine, ...] = ()


@dataclass(frozen=True)
class HeldPipe:
    """A pipe full while pumps run, between its lowest and highest level.

    `returns` says that it hangs on a pump's return, where a check valve (`check_valve`) may hold its water.
    """

    bore: Metre
    length: Metre
    low: Metre
    high: Metre
    returns: bool = False
    check_valve: bool = False


@dataclass(frozen=True)
class PowerStop:
    """Everything above a sump, and the sump with its level while pumps run."""

    vessels: tuple[Falling, ...]
    pipes: tuple[HeldPipe, ...]
    sump: Basin
    sump_level: Metre


@dataclass(frozen=True)
class Runback:
    """What comes down, where each vessel comes to rest, and what it does to the sump.

    `spare` is the sump's free volume less what comes: below nothing, it spills.
    """

    from_vessels: CubicMetre
    from_pipes: CubicMetre
    total: CubicMetre
    rests: tuple[Metre, ...]
    sump_level: Metre
    spare: CubicMetre


@dataclass(frozen=True)
class RunbackCases:
    """The same power stop with all guards working, with one sort of them failed, and with both."""

    working: Runback
    break_blocked: Runback
    check_failed: Runback
    both_failed: Runback


def line_rests(line: ReturnLine, running: Metre, guards: Guards) -> Metre:
    """Level to which a return line can suck a vessel down.

        check valve holds: not at all;  break works: to the break;  else: to the outlet

    A break that lies lower than the outlet does nothing: the outlet draws air first.
    Source: a siphon runs until air reaches it.
    Valid:  the other end of the line lies lower, through a pump that lets water back.
    """
    if line.check_valve and guards.checks_hold:
        return running
    stops = [line.outlet]
    if line.break_level is not None and guards.breaks_work:
        stops.append(line.break_level)
    return min(max(stops), running)


def vessel_rests(vessel: Falling, guards: Guards) -> Metre:
    """Level at which a vessel comes to rest.

        least of where it rests by itself and where its lines leave it

    Source: each way down runs until it is bare; the lowest decides.
    Valid:  branches of one line counted as lines of their own.
    """
    stops = [line_rests(line, vessel.running, guards) for line in vessel.lines]
    return max(min([vessel.running, vessel.rests, *stops]), vessel.basin.floor)


def pipe_volume(bore: Metre, length: Metre) -> CubicMetre:
    """Water in a full pipe.

        V = pi/4*D**2*L

    Source: geometry.
    Valid:  real bore; fittings counted in the length.
    """
    _refuse.negative(bore=bore, length=length)
    return pi / 4.0 * bore**2 * length


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

        V = sum of V(running) - V(rests) + sum of pipe volumes above the sump's running level

    Pipes are counted above the level the sump has before, so a little too much where it rises past them.
    Source: continuity.
    Valid:  given hours: a weir takes minutes to run out, a long thin siphon longer (`levels.level_course`).
    """
    rests = tuple(vessel_rests(vessel, guards) for vessel in stop.vessels)
    sunk = [
        volume_at(vessel.basin, vessel.running) - volume_at(vessel.basin, rest)
        for vessel, rest in zip(stop.vessels, rests, strict=True)
    ]
    held = [_held(pipe, stop.sump_level) for pipe in stop.pipes if _runs_out(pipe, guards)]
    total = float(sum(sunk) + sum(held))
    return Runback(
        from_vessels=float(sum(sunk)),
        from_pipes=float(sum(held)),
        total=total,
        rests=rests,
        sump_level=float(level_of(stop.sump, volume_at(stop.sump, stop.sump_level) + total)),
        spare=float(free_volume(stop.sump, stop.sump_level) - total),
    )


def runback_cases(stop: PowerStop) -> RunbackCases:
    """The power stop with all guards working, every break blocked, every check valve failed, and both.

        as runback

    Judge the sump by the worst single failure. A line without a check valve already leans on its break, so there a
    blocked break is the worst; with a check valve and no break, the failed valve is.
    Source: continuity.
    Valid:  as runback.
    """
    if stop.sump_level > stop.sump.brim:
        raise ImpossibleInput(f"the sump runs at {stop.sump_level} m, above its brim at {stop.sump.brim} m")
    return RunbackCases(
        working=runback(stop, Guards()),
        break_blocked=runback(stop, Guards(breaks_work=False)),
        check_failed=runback(stop, Guards(checks_hold=False)),
        both_failed=runback(stop, Guards(checks_hold=False, breaks_work=False)),
    )


def _runs_out(pipe: HeldPipe, guards: Guards) -> bool:
    return not (pipe.returns and pipe.check_valve and guards.checks_hold)


def _held(pipe: HeldPipe, level: Metre) -> CubicMetre:
    return pipe_volume(pipe.bore, pipe.length) * share_above(pipe.low, pipe.high, level)
