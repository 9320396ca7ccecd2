"""Power against print: wire gauges, resistance and drop of copper cables, loads, leakage, batteries, generators."""

from __future__ import annotations

import pytest

from tests.published.case import FOOT, INCH, Case, marked
from tidestead.physics.power import backup, cables, leakage, loads
from tidestead.physics.power.backup import BatteryUse
from tidestead.physics.power.loads import Load

B258 = "ASTM B258, as wire tables print it"
COPPER_TABLE = "copper wire table of a university's physics pages, after an electrician's textbook"
TABLE_8 = "NFPA 70, chapter 9, table 8, copper at 75 degC"
IEC_60228 = "IEC 60228, class 2, plain copper, as makers of cable print it"
BS_7671 = "BS 7671, table 4E4B, conductors of 90 degC, as a seller of cable prints it"
BY_HAND = "worked by hand"
MM2, MM, KFT = 1e-6, 1e-3, 1.0 / (1000.0 * FOOT)
HOUR, KWH, LITRE = 3600.0, 3.6e6, 1e-3
PUMP, HEATER, LAMP = Load(1.2, 7.2), Load(4.35, 4.35), Load(0.8, 1.0)
USE = BatteryUse(depth=0.8, inverter=0.88, aged=0.8, cold=0.8, idle=10.0)


def _drop_case(area: float, two: float, three: float) -> list[Case]:
    hot = float(cables.conductor_resistance(area * MM2, 90.0))
    given = {"current": 1.0, "resistance": hot, "length": 1.0, "power_factor": 1.0}
    digit = {True: 0.05, False: 0.5}
    return [
        Case(f"{area} mm2, two-core: {two} mV/A/m", cables.single_phase_drop, given, two, digit[two < 10.0], BS_7671,
             f"{area} mm2, two-core, single phase", "quoted", unit=1e-3),
        Case(f"{area} mm2, three-core: {three} mV/A/m", cables.three_phase_drop, given, three, digit[three < 10.0],
             BS_7671, f"{area} mm2, three-core, three phase", "quoted", unit=1e-3),
    ]  # fmt: skip


CASES = [
    *[Case(f"gauge {gauge}: {inches} in", cables.awg_diameter, {"gauge": gauge}, inches, to, COPPER_TABLE,
           f"gauge {gauge}", "quoted", unit=INCH)
      for gauge, inches, to in ((8, 0.12849, 5e-6), (12, 0.0808, 5e-5), (14, 0.06408, 5e-6),
                                (20, 0.03196, 5e-6), (24, 0.0201, 5e-5))],
    Case("gauge 10: 0.10189 in", cables.awg_diameter, {"gauge": 10}, 0.10189, 1e-5, COPPER_TABLE, "gauge 10", "quoted",
         unit=INCH, why="0.101897 in, printed cut off"),
    Case("gauge 10: 2.588 mm", cables.awg_diameter, {"gauge": 10}, 2.588, 5e-4, B258, "gauge 10", "quoted", unit=MM),
    Case("gauge 12: 2.053 mm", cables.awg_diameter, {"gauge": 12}, 2.053, 5e-4, B258, "gauge 12", "quoted", unit=MM),
    Case("gauge 4/0: 11.684 mm", cables.awg_diameter, {"gauge": -3}, 11.684, 5e-4, B258, "gauge 0000", "quoted",
         unit=MM),
    *[Case(f"gauge {gauge}: {area} mm2", cables.awg_area, {"gauge": gauge}, area, to, B258, f"gauge {gauge}",
           "recalled", unit=MM2)
      for gauge, area, to in ((6, 13.3, 0.05), (8, 8.366, 5e-4), (10, 5.261, 5e-4), (12, 3.309, 5e-4),
                              (14, 2.081, 5e-4), (-3, 107.2, 0.05))],
    *[Case(f"gauge {gauge} at 20 degC: {ohms} ohm/1000 ft", cables.copper_resistance,
           {"area": cables.awg_area(gauge), "temp_c": 20.0}, ohms, to, COPPER_TABLE, f"gauge {gauge}", "quoted",
           unit=KFT)
      for gauge, ohms, to in ((6, 0.3951, 5e-5), (8, 0.6282, 5e-5), (12, 1.588, 5e-4),
                              (14, 2.525, 5e-4))],
    Case("gauge 10 at 20 degC: 0.9989 ohm/1000 ft", cables.copper_resistance,
         {"area": cables.awg_area(10), "temp_c": 20.0}, 0.9989, 5e-5, COPPER_TABLE, "gauge 10", "quoted", unit=KFT,
         differs="10371 ohm over 10383 circular mils is 0.9988; how the table rounds is not told"),
    *[Case(f"gauge {gauge} at 75 degC: {ohms} ohm/1000 ft", cables.copper_resistance,
           {"area": cables.awg_area(gauge), "temp_c": 75.0}, ohms, to, TABLE_8, f"{gauge} AWG", "quoted", unit=KFT)
      for gauge, ohms, to in ((8, 0.764, 5e-4), (10, 1.21, 5e-3), (12, 1.93, 5e-3), (14, 3.07, 5e-3))],
    *[Case(f"{area} mm2 at 20 degC: {ohms} ohm/km at most", cables.conductor_resistance,
           {"area": area * MM2, "temp_c": 20.0}, ohms, to, IEC_60228, f"{area} mm2", "quoted", unit=1e-3)
      for area, ohms, to in ((0.5, 36.0, 0.05), (0.75, 24.5, 0.05), (1.0, 18.1, 0.05), (1.5, 12.1, 0.05),
                             (2.5, 7.41, 5e-3), (4.0, 4.61, 5e-3), (6.0, 3.08, 5e-3), (10.0, 1.83, 5e-3),
                             (16.0, 1.15, 5e-3), (25.0, 0.727, 5e-4), (35.0, 0.524, 5e-4), (50.0, 0.387, 5e-4),
                             (70.0, 0.268, 5e-4), (95.0, 0.193, 5e-4), (120.0, 0.153, 5e-4))],
    Case("3.309 mm2 at 70 degC: 6.680 ohm/km", cables.conductor_resistance, {"area": 3.309 * MM2, "temp_c": 70.0},
         6.680, 5e-4, BY_HAND, "(18.525 - 0.085*ln(3.309/2.5)/ln(1.6))/3.309*1.1965", "computed", unit=1e-3),
    *[case for row in ((1.5, 31.0, 27.0), (2.5, 19.0, 16.0), (4.0, 12.0, 10.0), (6.0, 7.9, 6.8), (10.0, 4.7, 4.0),
                       (16.0, 2.9, 2.5)) for case in _drop_case(*row)],
    Case("10 A over 30 m of 2.5 mm2 at 70 degC, 0.9", cables.single_phase_drop,
         {"current": 10.0, "resistance": 8.866e-3, "length": 30.0, "power_factor": 0.9}, 4.788, 5e-4, BY_HAND,
         "2*10*8.866e-3*30*0.9", "computed"),
    Case("reactance adds 6.5 % at 25 mm2 and 0.8", cables.reactance_left_out,
         {"resistance": 1.85e-3 / 2.0, "power_factor": 0.8}, 6.49, 5e-3, BS_7671, "r 1.85, x 0.160: x*0.6/(r*0.8)",
         "computed", unit=0.01),
    Case("4.788 V of 230 V: 2.08 %", cables.drop_share, {"drop": 4.788, "supply": 230.0}, 2.08, 5e-3, BY_HAND,
         "4.788/230", "computed", unit=0.01),
    Case("4.788 V below 230 V", cables.far_voltage, {"supply": 230.0, "drop": 4.788}, 225.212, 5e-4, BY_HAND,
         "230 - 4.788", "computed"),
    Case("6.9 V are lost in 38.9 m", cables.longest_run,
         {"current": 10.0, "resistance": 8.866e-3, "power_factor": 1.0, "drop": 6.9}, 38.9, 0.05, BY_HAND,
         "6.9/(2*10*8.866e-3)", "computed"),
    Case("10 A warm 30 m of 2.5 mm2 with 53 W", cables.cable_loss,
         {"current": 10.0, "resistance": 8.866e-3, "length": 30.0}, 53.2, 0.05, BY_HAND, "2*100*8.866e-3*30",
         "computed"),
    Case("three wires of it with 80 W", cables.cable_loss,
         {"current": 10.0, "resistance": 8.866e-3, "length": 30.0, "wires": 3}, 79.8, 0.05, BY_HAND,
         "3*100*8.866e-3*30", "computed"),
    Case("1 kW at 230 V", loads.single_phase_current, {"power": 1000.0, "voltage": 230.0, "power_factor": 1.0}, 4.348,
         5e-4, BY_HAND, "1000/230", "computed"),
    Case("150 W at 120 V, 0.65", loads.single_phase_current,
         {"power": 150.0, "voltage": 120.0, "power_factor": 0.65}, 1.923, 5e-4, BY_HAND, "150/78", "computed"),
    Case("9 kW at 400 V, three phases", loads.three_phase_current,
         {"power": 9000.0, "voltage": 400.0, "power_factor": 1.0}, 12.99, 5e-3, BY_HAND, "9000/692.8", "computed"),
    Case("1.2 A starts with 7.2 A", loads.starting_current, {"running": 1.2, "multiple": 6.0}, 7.2, 0.05, BY_HAND,
         "1.2*6", "computed"),
    Case("pump, heater and lamp run", loads.demand_current, {"loads": (PUMP, HEATER, LAMP)}, 6.35, 5e-3, BY_HAND,
         "1.2 + 4.35 + 0.8", "computed"),
    Case("four fifths of them at once", loads.demand_current, {"loads": (PUMP, HEATER, LAMP), "demand": 0.8}, 5.08,
         5e-3, BY_HAND, "0.8*6.35", "computed"),
    Case("the pump starts last", loads.worst_moment, {"loads": (PUMP, HEATER, LAMP)}, 12.35, 5e-3, BY_HAND,
         "6.35 + 6.0", "computed"),
    Case("the power comes back", loads.all_starting, {"loads": (PUMP, HEATER, LAMP)}, 12.55, 5e-3, BY_HAND,
         "7.2 + 4.35 + 1.0", "computed"),
    Case("12 A fill a 15 A breaker for hours", loads.rating_share, {"current": 12.0, "rating": 15.0, "allowed": 0.8},
         1.0, 5e-3, "NFPA 70, 210.20(A)", "12 A on 15 A, 16 A on 20 A", "recalled"),
    Case("12 A on a device of 16 A", loads.rating_share, {"current": 12.0, "rating": 16.0}, 0.75, 5e-3, BY_HAND,
         "12/16", "computed"),
    Case("three leaks of 5, 0.5 and 1 mA", leakage.standing_leakage, {"leaks": (5e-3, 0.5e-3, 1e-3)}, 6.5, 0.05,
         BY_HAND, "5 + 0.5 + 1", "computed", unit=1e-3),
    *[Case(f"a heater of {watts:g} W may leak {most} mA", leakage.leakage_ceiling,
           {"power": watts, "per_power": 0.75e-6, "least": 0.75e-3, "most": 5e-3}, most, to,
           "IEC 60335-1, clause 13.2, as engineers quote it", "fixed heating appliance of class I", "quoted", unit=1e-3)
      for watts, most, to in ((500.0, 0.75, 5e-3), (2000.0, 1.5, 0.05), (9000.0, 5.0, 0.05))],
    Case("6.5 of 15 mA", leakage.trip_share, {"standing": 6.5e-3, "trip_low": 15e-3}, 0.433, 5e-4, BY_HAND, "6.5/15",
         "computed"),
    Case("8.5 mA are left of 15", leakage.leakage_room, {"standing": 6.5e-3, "trip_low": 15e-3}, 8.5, 0.05, BY_HAND,
         "15 - 6.5", "computed", unit=1e-3),
    Case("20 mA want three devices of 30 mA", leakage.devices_wanted,
         {"standing": 20e-3, "rated": 30e-3, "share": 0.3}, 3, 0.05, BY_HAND, "20/9", "computed"),
    Case("200 W draw 237 W", backup.battery_draw, {"load": 200.0, "use": USE}, 237.27, 5e-3, BY_HAND,
         "200/0.88 + 10", "computed"),
    Case("8 h of 200 W", backup.battery_capacity, {"load": 200.0, "time": 8.0 * HOUR, "use": USE}, 3.707, 5e-4,
         BY_HAND, "237.27*8/0.512", "computed", unit=KWH),
    Case("5 kWh for 200 W", backup.battery_time, {"capacity": 5.0 * KWH, "load": 200.0, "use": USE}, 10.79, 5e-3,
         BY_HAND, "5000*0.512/237.27", "computed", unit=HOUR),
    Case("100 Ah at 1 A with 1.2 give 5 A for 14.5 h", backup.peukert_time,
         {"rated_current": 1.0, "rated_time": 100.0 * HOUR, "current": 5.0, "exponent": 1.2}, 14.5, 0.05,
         "a page of electrical engineers on Peukert's law", "worked example", "quoted", unit=HOUR),
    Case("100 Ah in 20 h with 1.2 give 10 A for 8.7 h", backup.peukert_time,
         {"rated_current": 5.0, "rated_time": 20.0 * HOUR, "current": 10.0, "exponent": 1.2}, 8.706, 5e-4, BY_HAND,
         "20*0.5**1.2", "computed", unit=HOUR),
    Case("at twice the current 87 % of it", backup.peukert_share,
         {"rated_current": 5.0, "current": 10.0, "exponent": 1.2}, 0.8706, 5e-5, BY_HAND, "0.5**0.2", "computed"),
    Case("a start decides", backup.generator_power, {"running": 800.0, "extra": 1380.0, "loaded": 0.75, "left": 0.93},
         2344.0, 0.5, BY_HAND, "2180/0.93", "computed"),
    Case("long running decides", backup.generator_power, {"running": 3000.0, "extra": 500.0, "loaded": 0.75}, 4000.0,
         0.5, BY_HAND, "3000/0.75", "computed"),
    Case("12 kWh at 0.5 L/kWh", backup.fuel_volume, {"energy": 12.0 * KWH, "use": 0.5 * LITRE / KWH}, 6.0, 0.05,
         BY_HAND, "12*0.5", "computed", unit=LITRE),
    Case("15 L carry 800 W for 37.5 h", backup.tank_time,
         {"tank": 15.0 * LITRE, "load": 800.0, "use": 0.5 * LITRE / KWH}, 37.5, 0.05, BY_HAND, "15/(0.5*0.8)",
         "computed", unit=HOUR),
]  # fmt: skip


@pytest.mark.parametrize("case", [marked(case) for case in CASES])
def test_power_holds_to_print(case: Case) -> None:
    assert case.holds(), case.ours()
