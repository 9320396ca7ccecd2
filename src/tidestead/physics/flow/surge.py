"""What a start and a stop do: water that waits above drains not yet full, a sump drawn low, hammer in pipes."""

from __future__ import annotations

from dataclasses import dataclass

from tidestead.core.dims import (
    CubicMetre,
    CubicMetrePerSecond,
    KgPerM3,
    Metre,
    MetrePerSecond,
    Pascal,
    Second,
    SquareMetre,
)
from tidestead.physics import _refuse
from tidestead.physics.flow.draining import Basin, level_of, volume_at

_PVC: Pascal = 400_000.0 * 6894.757293168361
"""Short-term modulus of PVC-U pipe at 23 degC. Source: ASTM D1784, cell class 12454, from memory; surge tables."""


@dataclass(frozen=True)
class ElasticPipe:
    """A pipe as a pressure wave feels it; the modulus is that of PVC-U unless said."""

    bore: Metre
    wall: Metre
    modulus: Pascal = _PVC

    def __post_init__(self) -> None:
        _refuse.not_positive(bore=self.bore, wall=self.wall, modulus=self.modulus)


@dataclass(frozen=True)
class StartSurge:
    """A start before drains run full: how far water rises over them, how much waits there, how low the sump gets."""

    rise: Metre
    waiting: CubicMetre
    sump_level: Metre


def waiting_rise(
    flow: CubicMetrePerSecond, carried: CubicMetrePerSecond, surface: SquareMetre, delay: Second
) -> Metre:
    """How far the water before a drain rises until the drain runs full.

        rise = (Q - Qc)*t/A      Qc: what it carries meanwhile, t: time it takes to fill

    Source: continuity.
    Valid:  upright walls; at most up to where a standby drain takes the rest, so compare with that lip.
    """
    _refuse.negative(flow=flow, carried_meanwhile=carried, delay=delay)
    _refuse.not_positive(surface=surface)
    return max(flow - carried, 0.0) * delay / surface


def start_surge(rise: Metre, surface: SquareMetre, sump: Basin, running: Metre) -> StartSurge:
    """Level of the sump at its lowest while a start is under way. One sump at a time.

        z = level of (V(running) - rise*A)

    Source: continuity: what waits above drains is missing in the sump.
    Valid:  upright walls before the drain; pipes taken as full. An empty sump is reported as its floor.
    """
    _refuse.negative(rise=rise)
    _refuse.not_positive(surface=surface)
    waiting = rise * surface
    left = max(float(volume_at(sump, running)) - waiting, 0.0)
    return StartSurge(rise, waiting, float(level_of(sump, left)))


def wave_speed(pipe: ElasticPipe, density: KgPerM3, sound_speed: MetrePerSecond) -> MetrePerSecond:
    """Speed of a pressure wave in a full pipe.

        a = c/sqrt(1 + K*D/(E*e))      K = rho*c**2: bulk modulus of the water, e: wall

    Source: Korteweg (1878) and Joukowsky (1898), in any text on water hammer.
    Valid:  thin walls, joints free to move, no air. A little air slows the wave to a fraction: the safe side.
    """
    _refuse.not_positive(density=density, speed_of_sound=sound_speed)
    give = density * sound_speed**2 * pipe.bore / (pipe.modulus * pipe.wall)
    speed: MetrePerSecond = sound_speed / (1.0 + give) ** 0.5
    return speed


def hammer_pressure(density: KgPerM3, wave: MetrePerSecond, change: MetrePerSecond) -> Pascal:
    """Rise of pressure where flow is stopped at once: the bound no stop goes past.

        dp = rho*a*dv

    Source: Joukowsky (1898).
    Valid:  stopped within 2*L/a; comes on top of the pressure before. The same again as suction on the far side.
    """
    _refuse.negative(density=density, wave_speed=wave, change_of_speed=change)
    return density * wave * change


def returning_time(length: Metre, wave: MetrePerSecond) -> Second:
    """Time for a wave to the far end of a pipe and back; a stop slower than this is softened.

        t = 2*L/a

    Source: any text on water hammer.
    Valid:  one bore; the far end an open water.
    """
    _refuse.negative(length=length)
    _refuse.not_positive(wave_speed=wave)
    return 2.0 * length / wave


def slow_stop_pressure(density: KgPerM3, length: Metre, change: MetrePerSecond, time: Second) -> Pascal:
    """Bound on the rise of pressure where flow is stopped slowly.

        dp = 2*rho*L*dv/t

    Source: Michaud (1878), in any text on water hammer.
    Valid:  t longer than 2*L/a, where it meets `hammer_pressure`; valves that shut most of the flow at the last
            stop in far less than the time of the handle.
    """
    _refuse.negative(density=density, length=length, change_of_speed=change)
    _refuse.not_positive(time=time)
    return 2.0 * density * length * change / time
