"""Judging what stands in when the power fails: its load, the largest start, how long it lasts."""

from __future__ import annotations

import math
from collections.abc import Iterator

from tidestead.core.answer import Estimate
from tidestead.core.source import COMPUTED, YOURS
from tidestead.core.units import System, advised, show
from tidestead.studies.checks import ENOUGH, At, Limit, above, below, unproven
from tidestead.studies.judged import Judged
from tidestead.studies.power import steps
from tidestead.studies.power.backing import battery_wanted
from tidestead.studies.power.facts import BackupFacts, PowerFacts
from tidestead.studies.power.rules import limit_row
from tidestead.studies.power.wording import cautions_of

_STEP = 50.0
_LOAD = "load that it carries for hours"
_START = "power at the largest start"
_LASTS = "time that it carries its load"


def at_backup(backup: BackupFacts) -> At:
    """The place of a battery or a generator."""
    named = backup.key if backup.key == backup.kind else f"{backup.kind} {backup.key}"
    return At(f"backups.{backup.key}", named, "power", f"backups.{backup.key}")


def backup_checks(backup: BackupFacts, facts: PowerFacts, system: System) -> Iterator[Judged]:
    """Load, start, and hours of a battery; a generator runs as long as somebody fills its tank."""
    at = at_backup(backup)
    if not backup.carries:
        why = f"say what hangs on it when the power stops: backups.{backup.key}.carries"
        yield Judged(unproven(at, "power", _LOAD, "W", why, YOURS))
        return
    if backup.power is None or backup.peak is None:
        why = f"say what it gives for as long as it lasts: backups.{backup.key}.power"
        yield Judged(unproven(at, "power", _LOAD, "W", why, YOURS))
        yield Judged(unproven(at, "start", _START, "W", why, YOURS))
    else:
        yield _load(at, backup, backup.power, system)
        yield _start(at, backup, backup.power, backup.peak, system)
    if backup.kind == "battery":
        yield _hours(at, backup, facts, system)


def _load(at: At, backup: BackupFacts, power: float, system: System) -> Judged:
    generator = limit_row("generator-petrol")
    share = generator.si("loaded") if backup.kind == "generator" else 1.0
    source = generator.figure("loaded").source if backup.kind == "generator" else YOURS
    limit = Limit(share * power, source, f"{100.0 * share:.0f} % of its rating, for hours")
    advice = f"less on it, or {_larger(backup, system)}"
    check = below(at, "power", _LOAD, backup.load, "W", limit, advice=advice)
    return Judged(check, steps.backup_load_steps(backup, power, share))


def _start(at: At, backup: BackupFacts, power: float, peak: Estimate, system: System) -> Judged:
    """The hardest start against the least that it may give for one."""
    row = limit_row("generator-petrol" if backup.kind == "generator" else "inverter")
    limit = Limit(peak.low, YOURS if backup.peak_told else row.figure("peak").source, _times(peak, power))
    advice = (
        f"a pump that starts softly; {_larger(backup, system)}; or write backups.{backup.key}.peak where its maker's "
        "sheet has more; try the start before you leave"
    )
    check = below(at, "start", _START, backup.starting, "W", limit, advice=advice, cautions=cautions_of(row))
    return Judged(check, steps.backup_start_steps(backup, power, peak, limit.source))


def _times(peak: Estimate, power: float) -> str:
    """How much more it gives for a moment."""
    low, high = peak.low / power, peak.high / power
    if low == high:
        return f"{low:.3g} times its rating, for a second or two"
    return f"{low:.3g} times its rating, the least of what such sets give for a moment ({high:.3g} at most)"


def _larger(backup: BackupFacts, system: System) -> str:
    """A size that is sound, in whole fifties of watts; always more than there is."""
    power = _STEP * math.ceil(backup.wanted.high / ENOUGH / _STEP)
    power = max(power, _STEP * (math.floor((backup.power or 0.0) / _STEP) + 1.0))
    return f"{'an inverter' if backup.kind == 'battery' else 'a generator'} of {show(power, 'W', system)} or more"


def _longer(backup: BackupFacts, seconds: float, system: System) -> str:
    """A battery that lasts so long; by its hours where what yours holds was seen and not worked out."""
    if backup.energy is None:
        return f"a battery that carries this for {advised(seconds, 's', system, 'up')} or more"
    return f"a battery of {advised(battery_wanted(backup.load, seconds), 'J', system, 'up')} or more"


def _hours(at: At, backup: BackupFacts, facts: PowerFacts, system: System) -> Judged:
    acting = facts.acting
    if backup.hours is None:
        why = f'say what it holds: backups.{backup.key}.energy, such as "5 kWh", or how long it lasts'
        return Judged(unproven(at, "hours", _LASTS, "s", why, YOURS))
    if acting is None:
        why = "say how soon somebody acts: [response] with looks and travel"
        return Judged(unproven(at, "hours", _LASTS, "s", why, YOURS))
    limit = Limit(acting.seconds, COMPUTED, f"until somebody has acted: {acting.words}")
    larger = _longer(backup, acting.seconds / ENOUGH, system)
    advice = f"{larger}, less on it, or an alarm that lives without the mains and calls sooner"
    check = above(at, "hours", _LASTS, backup.hours, "s", limit, advice=advice)
    return Judged(check, steps.hours_steps(backup, backup.energy))
