"""Lines of working of power: currents, starts, volts lost, leakage, what a battery carries."""

from __future__ import annotations

from tidestead.core.answer import Estimate, Step
from tidestead.core.source import COMPUTED, Known, Source
from tidestead.physics.power.cables import conductor_resistance
from tidestead.physics.power.leakage import trip_share
from tidestead.physics.power.loads import rating_share
from tidestead.studies.checks import given
from tidestead.studies.judged import step
from tidestead.studies.power.backing import RATED_HOURS
from tidestead.studies.power.facts import BackupFacts, CableFacts, CircuitFacts, LeakFacts, SupplyFacts
from tidestead.studies.power.rules import limit_row
from tidestead.studies.power.wording import copper

DEFINED = Source("definition of the power factor", known=Known.COMPUTED)
SUMMED = Source("sum without regard to phase angles, never less than the true one", known=Known.COMPUTED)
OHM = Source("Ohm's law; IEC 60364-5-52, annex G, without its term of reactance", known=Known.RECALLED)
CLASS_2 = Source("IEC 60228, class 2, plain copper", known=Known.QUOTED)
BALANCE = Source("balance of energy", known=Known.COMPUTED)


def load_steps(
    carried: CircuitFacts | SupplyFacts, rating: float, share: float, source: Source
) -> tuple[Step, ...]:
    """From watts to amperes, and the share of what the device carries for hours."""
    now = carried.running.likely
    numbers = (given("I", now, "A"), given("k", share, "1"), given("I_n", rating, "A"))
    used = step(
        "r", "share of what the device may carry for hours", "r = I/(k*I_n)", numbers,
        (float(rating_share(now, rating, share)), "1"),
        source,
    )  # fmt: skip
    return (_current(carried), used)


def _current(carried: CircuitFacts | SupplyFacts) -> Step:
    meaning = (
        "current of all that hangs on it: P its watts, U the voltage, f the power factor of all together"
    )
    numbers = (
        given("P", carried.power, "W"),
        given("U", carried.volts, "V"),
        given("f", carried.factor, "1"),
    )
    return step("I", meaning, "I = P/(U*f)", numbers, (carried.running.likely, "A"), DEFINED)


def start_steps(
    carried: CircuitFacts | SupplyFacts, rating: float, times: float, source: Source
) -> tuple[Step, ...]:
    """The largest start on top of all that runs."""
    now, worst = carried.running.likely, carried.worst.likely
    numbers = (given("I", now, "A"), given("I_e", worst - now, "A"))
    meaning = "all run and the largest start comes last, I_e what it takes on top of its running"
    most = (given("m", times, "1"), given("I_n", rating, "A"))
    return (
        _current(carried),
        step("I_s", meaning, "I_s = I + I_e", numbers, (worst, "A"), SUMMED),
        step(
            "I_m",
            "where it opens at once at the earliest",
            "I_m = m*I_n",
            most,
            (times * rating, "A"),
            source,
        ),
    )


def cable_steps(cable: CableFacts, rating: float) -> tuple[Step, ...]:
    """What the cable bears, and the breaker against it."""
    if cable.row is None or cable.ampacity is None:
        return ()
    source = cable.row.figure("ampacity").source
    numbers = (given("I_t", cable.row.si("ampacity"), "A"), given("c", cable.derated, "1"))
    bears = step(
        "I_z", f"what copper of {copper(cable)} bears, c what a warm house leaves of it", "I_z = c*I_t", numbers,
        (cable.ampacity, "A"), source,
    )  # fmt: skip
    both = (given("I_n", rating, "A"), given("I_z", cable.ampacity, "A"))
    return bears, step(
        "r", "breaker against it", "r = I_n/I_z", both, (rating / cable.ampacity, "1"), COMPUTED
    )


def own_drop_steps(circuit: CircuitFacts) -> tuple[Step, ...]:
    """What the circuit's own cable loses."""
    return (_current(circuit), *_drop(circuit, "c"))


def drop_steps(circuit: CircuitFacts, supply: SupplyFacts) -> tuple[Step, ...]:
    """What the cable to the building and the circuit's own lose together."""
    if circuit.drop is None or supply.drop is None or circuit.drop_share is None:
        return ()
    volts = circuit.volts
    numbers = (
        given("u_c", volts * circuit.drop.likely, "V"),
        given("u_s", volts * supply.drop.likely, "V"),
    )
    lost = volts * circuit.drop_share.likely
    both = step("u", "lost up to the far end", "u = u_c + u_s", numbers, (lost, "V"), OHM)
    return (_current(circuit), *_drop(circuit, "c"), *_drop(supply, "s"), both)


def _drop(carried: CircuitFacts | SupplyFacts, end: str) -> tuple[Step, ...]:
    """Resistance of one cable and the voltage that it loses."""
    cable = carried.cable
    if cable.area is None or cable.length is None or cable.resistance is None or carried.drop is None:
        return ()
    cool = float(conductor_resistance(cable.area, 20.0))
    where = "circuit's cable" if end == "c" else "cable to the building"
    symbol, now, length, factor = (f"{letter}_{end}" for letter in "RILf")
    warm = (given("R_20", cool, "ohm/m"), given("w", cable.resistance.likely / cool, "1"))
    meaning = f"resistance of a metre of the {where}: R_20 in the cool, w what the warm house makes of it"
    resistance = step(
        symbol, meaning, f"{symbol} = R_20*w", warm, (cable.resistance.likely, "ohm/m"), CLASS_2
    )
    numbers = (
        given(now, carried.running.likely, "A"),
        given(symbol, cable.resistance.likely, "ohm/m"),
        given(length, cable.length, "m"),
        given(factor, carried.factor, "1"),
    )
    formula = f"u_{end} = 2*{now}*{symbol}*{length}*{factor}"
    meaning = f"what the {where} loses, out and back, with all that it carries at its far end"
    lost = carried.volts * carried.drop.likely
    return resistance, step(f"u_{end}", meaning, formula, numbers, (lost, "V"), OHM)


def leak_steps(leak: LeakFacts, share: bool) -> tuple[Step, ...]:
    """The sum of what leaks; then the share that may stand, or one of them aged and the earliest trip."""
    names = [(f"n_{at}", f"i_{at}", row, count) for at, (row, count) in enumerate(leak.counted, start=1)]
    if not names:
        return ()
    numbers = tuple(
        one for n, i, row, count in names for one in (given(n, count, "1"), given(i, row.si("likely"), "A"))
    )
    kinds = "; ".join(
        f"{at} {row.title[0].lower()}{row.title[1:]}" for at, (row, _) in enumerate(leak.counted, 1)
    )
    likely = leak.leakage.likely
    total = step(
        "i", f"leakage of all, as new: {kinds}", "i = " + " + ".join(f"{n}*{i}" for n, i, _, _ in names), numbers,
        (likely, "A"), leak.counted[0][0].figure("likely").source,
    )  # fmt: skip
    if share:
        part = (given("k", leak.standing / leak.rated, "1"), given("I_d", leak.rated, "A"))
        allowed = step("i_most", "that may leak for good", "i_most = k*I_d", part, (leak.standing, "A"),
                       leak.row.figure("standing_share").source)  # fmt: skip
        return total, allowed
    return (total, *_aged(leak))


def _aged(leak: LeakFacts) -> tuple[Step, ...]:
    row = leak.oldest
    if row is None:
        return ()
    numbers = (
        given("i", leak.leakage.likely, "A"),
        given("i_o", row.si("high"), "A"),
        given("i_n", row.si("likely"), "A"),
    )
    aged = step(
        "i_worst", f"with one aged: {row.title[0].lower()}{row.title[1:]}, i_n as new, i_o aged",
        "i_worst = i + i_o - i_n", numbers, (leak.leakage.high, "A"), row.figure("high").source,
    )  # fmt: skip
    low = (given("q", leak.trip_low / leak.rated, "1"), given("I_d", leak.rated, "A"))
    trip = step("i_low", "where the device may open at the earliest", "i_low = q*I_d", low, (leak.trip_low, "A"),
                leak.row.figure("trip_low").source)  # fmt: skip
    both = (given("i_worst", leak.leakage.high, "A"), given("i_low", leak.trip_low, "A"))
    share = float(trip_share(leak.leakage.high, leak.trip_low))
    return aged, trip, step("r", "share of that", "r = i_worst/i_low", both, (share, "1"), COMPUTED)


def backup_load_steps(backup: BackupFacts, power: float, share: float) -> tuple[Step, ...]:
    """Its load against what it gives for hours."""
    numbers = (given("P", backup.load, "W"), given("k", share, "1"), given("P_n", power, "W"))
    used = backup.load / (share * power)
    return (step("r", "share of what it gives for hours", "r = P/(k*P_n)", numbers, (used, "1"), COMPUTED),)


def backup_start_steps(backup: BackupFacts, power: float, peak: Estimate, source: Source) -> tuple[Step, ...]:
    """All run and the largest start comes last; and the least that it gives for that."""
    extra = backup.starting.likely - backup.load
    numbers = (given("P", backup.load, "W"), given("P_e", extra, "W"))
    meaning = "all run and the largest start comes last, its volt-amperes P_e counted as watts"
    gives = (given("k", peak.low / power, "1"), given("P_n", power, "W"))
    return (
        step("P_s", meaning, "P_s = P + P_e", numbers, (backup.starting.likely, "W"), SUMMED),
        step("P_g", "least that it gives for a moment", "P_g = k*P_n", gives, (peak.low, "W"), source),
    )


def hours_steps(backup: BackupFacts, energy: float | None) -> tuple[Step, ...]:
    """What reaches the load of a battery's energy, and how long."""
    if backup.hours is None or energy is None or backup.load <= 0.0:
        return ()
    old, inverter = limit_row("lead-acid-flooded"), limit_row("inverter")
    if abs(backup.hours.likely - energy * old.si("depth") * inverter.si("likely") / backup.load) > 1.0:
        return ()
    numbers = (
        given("E", energy, "J"), given("a", old.si("depth"), "1"), given("n", inverter.si("likely"), "1"),
        given("P", backup.load, "W"),
    )  # fmt: skip
    meaning = (
        "time that it carries its load, of a lead-acid battery in good order: a how far it may be emptied, n of the "
        f"inverter; the worst counts age, cold and a load faster than its rating of {RATED_HOURS:g} h"
    )
    return (step("t", meaning, "t = E*a*n/P", numbers, (backup.hours.likely, "s"), BALANCE),)
