"""Lines of working of heat: balances of days and months that the hours were added up to, and what follows from them."""

from __future__ import annotations

from tidestead.core.answer import Step, Working
from tidestead.core.months import MONTHS
from tidestead.core.source import PRACTICE, Known, Source
from tidestead.studies.checks import given
from tidestead.studies.heat.facts import HeatFacts, SpellFacts, YearFacts
from tidestead.studies.heat.wording import year_words
from tidestead.studies.judged import step

ENGINE = Source(
    "year of heat: balance of every wall, air and water", "implicit steps, hour by hour", Known.COMPUTED
)
NEWTON = Source("Newton's law of cooling", known=Known.COMPUTED)
TEOS = Source("TEOS-10, density and specific heat", known=Known.COMPUTED)
BALANCE = Source("balance of heat", known=Known.COMPUTED)

_SECONDS = 86400.0

SIGNS = {
    "w_sun": ("Q_s", "sun into the water"),
    "w_machines": ("Q_m", "pumps and lamps in the line"),
    "w_lamps": ("Q_l", "lamps over the water"),
    "w_heaters": ("Q_h", "heaters"),
    "w_chillers": ("Q_c", "chillers"),
    "w_evaporation": ("Q_e", "evaporation"),
    "w_air": ("Q_a", "to the air over it"),
    "w_rays": ("Q_r", "rays to glazing and walls"),
    "w_sides": ("Q_w", "through sides and floor"),
    "w_topped_up": ("Q_t", "top-off water warmed"),
}
"""Parts of the water's balance: symbol and words."""


def extreme_steps(years: YearFacts, cold: bool) -> tuple[Step, ...]:
    """The day of the extreme in the year of median energy: what came and went, and what it did."""
    typical = years.typical
    ends = typical.end_c
    day = min(range(len(ends)), key=ends.__getitem__) if cold else max(range(len(ends)), key=ends.__getitem__)
    before = typical.start_c if day == 0 else ends[day - 1]
    parts = {name: typical.balance[name][day] for name in SIGNS}
    net = sum(parts.values())
    stored = typical.balance["w_stored"][day]
    numbers = [given(SIGNS[name][0], value, "W") for name, value in parts.items()]
    rise = ends[day] - before
    capacity = stored * _SECONDS / rise if abs(rise) > 1e-9 else 0.0
    name = f"day {day + 1} of {year_words(typical.label)}"
    found = [
        step("Q", f"heat into all the water, mean of the {'coldest' if cold else 'warmest'} day, {name}",
             "Q = " + " + ".join(symbol for symbol, _ in SIGNS.values()), numbers, (net, "W"), ENGINE),
    ]  # fmt: skip
    if capacity > 0.0:
        found.append(
            step("T", "all the water at the end of that day", "T = T_0 + Q*t/C",
                 (given("T_0", before, "degC"), given("Q", stored, "W"), given("t", _SECONDS, "s"),
                  given("C", capacity, "J/K")), (ends[day], "degC"), ENGINE)
        )  # fmt: skip
    return tuple(found)


def spell_steps(facts: HeatFacts) -> tuple[Step, ...]:
    """What the spell leaves the heaters to do."""
    spell = facts.spell
    if spell is None or not (spell.load.likely > 0.0 and spell.installed > 0.0):
        return ()
    numbers = (given("P", spell.installed, "W"), given("q", spell.load.likely, "W"))
    meaning = "power of the heaters over the mean loss of the spell's hardest day, median of the years"
    return (step("r", meaning, "r = P/q", numbers, (spell.installed / spell.load.likely, "1"), ENGINE),)


def heater_steps(spell: SpellFacts) -> tuple[Step, ...]:
    """The mean loss of the coldest day, with the trade's margin."""
    numbers = (given("m", spell.margin, "1"), given("q", spell.load.likely, "W"))
    return (
        step(
            "P",
            "heaters for the cold spell, median of the years",
            "P = m*q",
            numbers,
            (spell.needed.likely, "W"),
            PRACTICE,
        ),
    )


def stuck_steps(facts: HeatFacts) -> tuple[Step, ...]:
    """How much a day the stuck heater would lift the water if nothing were lost."""
    if facts.stuck is None or facts.capacity <= 0.0:
        return ()
    numbers = (
        given("P", facts.stuck.power, "W"),
        given("t", _SECONDS, "s"),
        given("C", facts.capacity, "J/K"),
    )
    rise = facts.stuck.power * _SECONDS / facts.capacity
    return (step("dT", "rise in a day, if nothing were lost", "dT = P*t/C", numbers, (rise, "K"), BALANCE),)


def humidity_steps(years: YearFacts) -> tuple[Step, ...]:
    """How far the dampest month is spread over the years."""
    month = max(range(12), key=years.humidity.high.__getitem__)
    high, low = years.humidity.high[month], years.humidity.low[month]
    numbers = (given("phi_90", high, "1"), given("phi_10", low, "1"))
    meaning = f"spread of the mean humidity of {MONTHS[month]} over the years, P10 to P90"
    return (step("s", meaning, "s = phi_90 - phi_10", numbers, (high - low, "1"), ENGINE),)


def evaporation_steps(years: YearFacts) -> tuple[Step, ...]:
    """From heat to litres in the month with most."""
    month = max(range(12), key=years.evaporation.likely.__getitem__)
    rate = years.evaporation.likely[month]
    numbers = (given("m", rate, "kg/s"), given("rho", 1000.0, "kg/m3"))
    meaning = f"fresh water that leaves in {MONTHS[month]}, median of the years"
    return (step("V", meaning, "V = m/rho", numbers, (rate / 1000.0, "m3/s", "day"), ENGINE),)


def shared_workings(facts: HeatFacts) -> list[Working]:
    """The store, the back of the envelope, and the power cut."""
    found = [_store(facts)]
    winter, cut = facts.winter, facts.cut
    if winter is not None and winter.idle < 1e9:
        line = step("UA", "loss, water to outdoors, up to which heaters would be idle on average",
                    "UA = Q/(T_set - T_out)",
                    (given("Q", winter.gain, "W"), given("T_set", winter.wanted_c, "degC"),
                     given("T_out", winter.outdoors_c, "degC")), (winter.idle, "W/K"), BALANCE)  # fmt: skip
        found.append(Working(f"The back of the envelope, {winter.month}", (line,)))
    if cut is not None and cut.loss > 0.0:
        store = given("C", facts.capacity, "J/K")
        first = step("tau", "time of fading", "tau = C/UA", (store, given("UA", cut.loss, "W/K")),
                     (cut.fading, "s"), NEWTON)  # fmt: skip
        second = step("T", "water two days into a power cut", "T = T_rest + (T_0 - T_rest)*exp(-t/tau)",
                      (given("T_rest", cut.outdoors_c, "degC"), given("T_0", cut.start_c, "degC"),
                       given("t", 48 * 3600.0, "s"), given("tau", cut.fading, "s")),
                      (cut.formula[48], "degC"), NEWTON)  # fmt: skip
        found.append(Working("The power fails in the cold spell", (first, second)))
    return found


def _store(facts: HeatFacts) -> Working:
    per = facts.capacity / facts.volume
    numbers = (given("V", facts.volume, "m3"), given("c", per, "J/(m3 K)"))
    meaning = "heat that warms all the water by a kelvin, c that of a cubic metre"
    line = step("C", meaning, "C = V*c", numbers, (facts.capacity, "J/K"), TEOS)
    return Working("What the water stores", (line,))
