"""The run: hour by hour what is held even, step by step the flows, then what the waters hold. Compiled."""

from __future__ import annotations

from tidestead.core.compiled import joined, kernel
from tidestead.core.dims import Array
from tidestead.physics.transient import _laws
from tidestead.physics.transient._flows import settle_flows
from tidestead.physics.transient._rates import parts_of_step, rates
from tidestead.physics.transient._tables import (
    AREA,
    BACTERIA_COURSE,
    BEFORE,
    BEFORE_C,
    BUBBLE_COURSE,
    BUBBLES,
    BUBBLES_NOW,
    CEILING,
    CEILING_NOW,
    CHANGE,
    CLEARANCE,
    CLEARED_NOW,
    COURSE,
    EVAPORATION,
    EVEN,
    EXCHANGE,
    EXCRETED,
    EXCRETED_NOW,
    EXCRETION,
    EXCRETION_COURSE,
    FIXED,
    FIXED_COURSE,
    FIXED_NOW,
    FLOW,
    FROM,
    GAIN,
    GAINS,
    GIVEN_HEAT,
    GIVEN_OXYGEN,
    GIVEN_SALT,
    GIVEN_WATER,
    HEAT,
    HEAT_IN,
    HIGH,
    HOLE,
    I_BODY,
    I_COURSE,
    I_FLOW,
    I_OXYGEN,
    I_SAL,
    I_TEMP,
    INTEGRATED,
    INTO_AIR,
    KIND,
    LEAK,
    LEVEL,
    LOSS,
    LOSSES,
    LOW,
    M_OXYGEN,
    M_SAL,
    M_TEMP,
    MASSES,
    MOST,
    MOVED,
    ONTO_FLOOR,
    ORGANIC,
    OVERFLOW,
    OXYGEN,
    OXYGEN_IN,
    PARTS,
    PUMP,
    SALT,
    SALT_IN,
    SHOWN,
    SHOWN_OF_BODY,
    SPILL,
    STEP,
    STOCK,
    SURFACE,
    SURFACE_COURSE,
    SURFACE_NOW,
    TAN,
    TO,
    TO_AIR,
    TO_FLOOR,
    TOP_OFF,
    VOLUME,
    W_COURSE,
    W_NOW,
    W_POWER,
    WARM,
    WARM_FROM,
    Tables,
)

hole_flow = joined(_laws.hole_flow)
_FRESH = _laws.FRESH


@kernel
def run_steps(tables: Tables, out: Array, per_hour: int) -> None:
    """Fill the rows of `out` after the first; row 0 is the beginning."""
    show(tables, out[0])
    begin_hour(tables.bodies, tables.heaters, tables.courses, tables.surroundings, 0)
    guess_before(tables)
    for row in range(1, out.shape[0]):
        hour = (row - 1) // per_hour
        if (row - 1) % per_hour == 0:
            begin_hour(tables.bodies, tables.heaters, tables.courses, tables.surroundings, hour)
            tables.run[PARTS] = 0.0
        begin_step(tables, hour)
        settle_flows(tables.bodies, tables.moves, tables.solve, tables.run[STEP])
        share_flows(tables)
        integrate(tables)
        end_step(tables)
        show(tables, out[row])


@kernel
def guess_before(tables: Tables) -> None:
    """Volumes a step before the first, as if it had gone on alike: holes ask what else a body gains."""
    begin_step(tables, 0)
    settle_flows(tables.bodies, tables.moves, tables.solve, tables.run[STEP])
    for body in range(tables.bodies.shape[0]):
        gained = tables.solve[body, tables.bodies.shape[0] + 1]
        for at in range(tables.moves.shape[0]):
            if int(tables.moves[at, FROM]) == body:
                gained -= tables.moves[at, FLOW]
            if int(tables.moves[at, TO]) == body:
                gained += tables.moves[at, FLOW]
        tables.bodies[body, BEFORE] = tables.bodies[body, VOLUME] - gained * tables.run[STEP]


@kernel
def begin_hour(bodies: Array, heaters: Array, courses: Array, surroundings: Array, hour: int) -> None:
    """What an hour holds even."""
    for body in range(bodies.shape[0]):
        one = bodies[body]
        one[SURFACE_NOW] = one[SURFACE] * one[EXCHANGE] * courses[int(one[SURFACE_COURSE]), hour]
        one[BUBBLES_NOW] = one[BUBBLES] * courses[int(one[BUBBLE_COURSE]), hour]
        one[FIXED_NOW] = one[FIXED] * courses[int(one[FIXED_COURSE]), hour]
        one[EXCRETED_NOW] = one[EXCRETION] * courses[int(one[EXCRETION_COURSE]), hour]
        alive = courses[int(one[BACTERIA_COURSE]), hour]
        one[CLEARED_NOW] = one[CLEARANCE] * alive
        one[CEILING_NOW] = one[CEILING] * alive if alive > 0.0 else 0.0
        one[GAIN], one[LOSS] = surroundings[GAINS, body, hour], surroundings[LOSSES, body, hour]
    for row in range(heaters.shape[0]):
        heaters[row, W_NOW] = heaters[row, W_POWER] * courses[int(heaters[row, W_COURSE]), hour]


@kernel
def begin_step(tables: Tables, hour: int) -> None:
    """Inflows, and the bounds of every move in this step."""
    bodies, moves, solve = tables.bodies, tables.moves, tables.solve
    given = bodies.shape[0] + 1
    for body in range(bodies.shape[0]):
        solve[body, given] = 0.0
        bodies[body, SALT_IN] = bodies[body, HEAT_IN] = bodies[body, OXYGEN_IN] = 0.0
    for row in range(tables.inflows.shape[0]):
        one = tables.inflows[row]
        flow = one[I_FLOW] * tables.courses[int(one[I_COURSE]), hour]
        body = int(one[I_BODY])
        solve[body, given] += flow
        bodies[body, SALT_IN] += flow * one[I_SAL]
        bodies[body, HEAT_IN] += flow * one[I_TEMP]
        bodies[body, OXYGEN_IN] += flow * one[I_OXYGEN]
    for at in range(moves.shape[0]):
        bound(tables, moves[at], bodies[int(moves[at, FROM])], hour)
    for body in range(bodies.shape[0]):
        bodies[body, BEFORE_C] = tables.masses[body, HEAT] / bodies[body, VOLUME]


@kernel
def bound(tables: Tables, move: Array, body: Array, hour: int) -> None:
    """The least and the most of a move in this step, m3/s."""
    step, kind = tables.run[STEP], move[KIND]
    most = move[MOST]
    if kind == EVAPORATION:
        at = int(move[FROM])
        temp = tables.masses[at, HEAT] / body[VOLUME]
        temp += 0.5 * (temp - body[BEFORE_C])
        driven = tables.surroundings[WARM, at, hour] * (temp - tables.run[WARM_FROM])
        most = max(tables.surroundings[EVEN, at, hour] + driven, 0.0) / _FRESH
    elif kind == LEAK and move[HOLE] > 0.0:
        net = (body[VOLUME] - body[BEFORE]) / step + move[FLOW]
        head = max((body[VOLUME] - move[LEVEL]) / body[AREA], 0.0)
        most = hole_flow(head, body[AREA], move[HOLE], net, step)
    elif kind in (PUMP, OVERFLOW):
        share = tables.courses[int(move[COURSE]), hour]
        most = most * share if share > 0.0 else 0.0
    if kind == TOP_OFF:
        move[LOW], move[HIGH] = -min(most, move[STOCK] / step), 0.0
    else:
        move[LOW], move[HIGH] = 0.0, most


@kernel
def share_flows(tables: Tables) -> None:
    """Flows of the moves put where the rates look for them; what they change of the volumes."""
    bodies, moves, flows, step = tables.bodies, tables.moves, tables.flows, tables.run[STEP]
    count = bodies.shape[0]
    for body in range(count):
        bodies[body, TO_FLOOR] = bodies[body, TO_AIR] = 0.0
        bodies[body, CHANGE] = tables.solve[body, count + 1] * step
        tables.given[body, GIVEN_WATER] += tables.solve[body, count + 1] * step
        for other in range(count):
            flows[body, other] = 0.0
    for at in range(moves.shape[0]):
        flow, source, to = moves[at, FLOW], int(moves[at, FROM]), int(moves[at, TO])
        moves[at, MOVED] += flow * step
        bodies[source, CHANGE] -= flow * step
        if to >= 0:
            flows[source, to] += flow
            bodies[to, CHANGE] += flow * step
        elif to == ONTO_FLOOR:
            bodies[source, TO_FLOOR] += flow
        elif to == INTO_AIR:
            bodies[source, TO_AIR] += flow
        else:
            moves[at, STOCK] = max(moves[at, STOCK] + flow * step, 0.0)
            bodies[source, SALT_IN] -= flow * moves[at, M_SAL]
            bodies[source, HEAT_IN] -= flow * moves[at, M_TEMP]
            bodies[source, OXYGEN_IN] -= flow * moves[at, M_OXYGEN]


@kernel
def integrate(tables: Tables) -> None:
    """The classic rule of Runge and Kutta over a step, cut into parts where something goes fast."""
    run, bodies, masses, trial = tables.run, tables.bodies, tables.masses, tables.trial
    parts = parts_of_step(run, bodies, tables.heaters, tables.flows, masses)
    part = run[STEP] / parts
    for one in range(parts):
        from_ = one / parts
        tables.total[:] = 0.0
        for stage in range(4):
            reach = 0.5 if stage in (1, 2) else stage / 3.0
            for body in range(bodies.shape[0]):
                for kind in range(MASSES):
                    trial[body, kind] = masses[body, kind] + (
                        reach * part * tables.slope[body, kind] if stage else 0.0
                    )
            rates(tables, from_ + reach / parts)
            weight = part / 3.0 if stage in (1, 2) else part / 6.0
            for body in range(bodies.shape[0]):
                for kind in range(INTEGRATED):
                    tables.total[body, kind] += weight * tables.slope[body, kind]
        for body in range(bodies.shape[0]):
            for kind in range(INTEGRATED):
                masses[body, kind] += tables.total[body, kind]


@kernel
def end_step(tables: Tables) -> None:
    """Volumes at the end of the step, and what came in evenly."""
    bodies, step, given = tables.bodies, tables.run[STEP], tables.given
    for body in range(bodies.shape[0]):
        one = bodies[body]
        given[body, GIVEN_SALT] += one[SALT_IN] * step
        given[body, GIVEN_HEAT] += one[HEAT_IN] * step
        given[body, GIVEN_OXYGEN] += one[OXYGEN_IN] * step
        given[body, EXCRETED] += one[EXCRETED_NOW] * step
        one[BEFORE] = one[VOLUME]
        one[VOLUME] += one[CHANGE]


@kernel
def show(tables: Tables, row: Array) -> None:
    """The state as a row of output."""
    bodies, moves = tables.bodies, tables.moves
    count = bodies.shape[0]
    for body in range(count):
        volume, first = bodies[body, VOLUME], body * SHOWN_OF_BODY
        row[first] = volume
        row[first + 1] = tables.masses[body, HEAT] / volume
        row[first + 2] = tables.masses[body, SALT] / volume
        row[first + 3] = tables.masses[body, OXYGEN] / volume
        row[first + 4] = tables.masses[body, TAN] / volume
        row[first + 5] = tables.masses[body, ORGANIC]
    flood = 0.0
    for at in range(moves.shape[0]):
        shown = int(moves[at, SHOWN])
        if moves[at, TO] == ONTO_FLOOR:
            flood += moves[at, MOVED]
        if moves[at, KIND] == SPILL:
            row[int(moves[at, FROM]) * SHOWN_OF_BODY + 6] = moves[at, MOVED]
        elif moves[at, KIND] == PUMP:
            row[shown] = moves[at, FLOW]
        elif moves[at, KIND] == TOP_OFF:
            row[shown] = moves[at, STOCK]
    row[count * SHOWN_OF_BODY] = flood
