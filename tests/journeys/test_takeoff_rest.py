"""Lists of both examples against sums done on paper: sheet, coats, fabric, pipe, parts, house, water, energy."""

from __future__ import annotations

import dataclasses
import math
from types import SimpleNamespace

import pytest

from tests.journeys.flow_plans import changed, example
from tests.journeys.takeoff_plans import NOTHING, likely, plan_of, sums, taken_of, without_weather
from tests.published.case import FOOT, INCH
from tidestead.build.takeoff.machines import ELECTRICIAN
from tidestead.build.takeoff.rest import rest_taken
from tidestead.core.answer import Estimate
from tidestead.plan import loads


def test_the_reef_is_lined_with_one_sheet() -> None:
    """12 x 5 ft, 4 ft 6 in to the top of the wall, 1 ft over it: 12 + 9 + 2 = 23 ft by 5 + 9 + 2 = 16 ft.

    The long window, 7 ft x 3 ft 10 in, is seated on three sides 2 in wide: (84 + 46 + 46) x 2 in2 of strips.
    """
    liner = [line for line in taken_of("packhouse").lines if line.item.sort == "liner"]
    sheet, strips = liner
    assert sheet.item.name == "epdm-45-mil"
    assert likely(sheet) == pytest.approx(23.0 * 16.0 * FOOT**2)
    assert likely(strips) == pytest.approx((84.0 + 46.0 + 46.0) * 2.0 * INCH**2)
    assert sheet.vessel == "reef"
    assert sheet.key == "vessels.reef.lining"
    assert "(assumed)" in sheet.basis
    folds, welded = 4.0 * 5.5**2, 60.0 + 34.0 * 5.5
    assert folds + welded == 23.0 * 16.0
    assert f"{folds:.0f} ft²" in sheet.basis
    assert f"{welded:.0f} ft²" in sheet.basis


def test_the_basin_is_coated_five_times() -> None:
    """Floor 4.0 x 2.2, walls 12.4 m round, to 1.18 + 0.11 m; less the clear openings of both windows.

    The long one is 2.40 x 1.10 m from 0.20 m up, with seats of 50 mm on three sides; it leans on the rim above, so that
    2.30 m from 0.25 to 1.29 m are clear. The other is 1.20 x 0.90 m with 45 mm on all sides.
    6 mil dry at 60 % of solids a coat, nine tenths of it arrives.
    """
    area = 4.0 * 2.2 + 12.4 * 1.29 - 2.3 * 1.04 - 1.11 * 0.81
    each = area * 6.0e-3 * INCH / 0.60
    lines = [
        line for line in taken_of("skerry").lines if line.item.sort == "coating" and line.vessel == "basin"
    ]
    coats, kept = lines[:5], lines[5]
    assert [line.basis.split(":")[0] for line in coats] == [f"coat {number} of 5" for number in range(1, 6)]
    for line in coats:
        assert line.amount is not None
        assert line.amount.low == pytest.approx(each / 0.95)
        assert line.amount.likely == pytest.approx(each / 0.90)
        assert line.amount.high == pytest.approx(each / 0.85)
    assert likely(kept) == pytest.approx(0.05 * 5.0 * each / 0.90)
    assert len(lines) == 6


def test_fabric_lies_in_every_corner_of_the_tower() -> None:
    """Six faces, each 640 mm * tan 30 degrees, and six corners up to 1.36 + 0.15 m, but the wall is 1.50 m."""
    face = 0.640 * math.tan(math.pi / 6.0)
    lines = [
        line for line in taken_of("skerry").lines if line.item.sort == "fabric" and line.vessel == "tower"
    ]
    assert [likely(line) for line in lines] == [pytest.approx(6.0 * face + 6.0 * 1.50)]


def test_fabric_lies_in_every_corner_of_the_basin() -> None:
    """12.4 m round the floor, four corners of 1.18 + 0.11 m. Joints of sheets are listed with the sheets."""
    lines = [
        line for line in taken_of("skerry").lines if line.item.sort == "fabric" and line.vessel == "basin"
    ]
    assert [likely(line) for line in lines] == [pytest.approx(12.4 + 4.0 * 1.29)]


def test_beds_of_windows_and_beads_round_them() -> None:
    """Packhouse: three seated edges of 176 in, a bed of 2 in x 3/8 in; a gap of 1/2 in, 1/4 in deep.

    Skerry: the long window is seated left, right and below, 2 x 1.1 + 2.4 m, and leans on the rim above. Gaps of 8, 6
    and 3 mm are closed 6 mm deep, the least.
    """
    inches = 176.0 * (2.0 * 0.375 + 0.5 * 0.25)
    assert sums(taken_of("packhouse"), "seal") == {"silicone-neutral": pytest.approx(inches * INCH**3)}
    long, end, eye = 4.6 * (0.050 * 0.008), 4.2 * (0.045 * 0.006), 0.68 * (0.015 * 0.004)
    beads = 0.006 * (4.6 * 0.008 + 4.2 * 0.006 + 0.68 * 0.003)
    assert sums(taken_of("skerry"), "seal") == {"silicone-neutral": pytest.approx(long + end + eye + beads)}


def test_flanges_are_clamped_round_every_window() -> None:
    bars = {
        name: amount for name, amount in sums(taken_of("packhouse"), "extra").items() if name == "clamp-bar"
    }
    assert bars == {"clamp-bar": pytest.approx(176.0 * INCH)}
    assert sums(taken_of("skerry"), "extra")["clamp-bar"] == pytest.approx(4.6 + 4.2 + 0.68)


def test_pipe_is_as_long_as_its_route_and_what_sits_in_sockets() -> None:
    """63 mm pipe of skerry: jet 2.4 m in 6 pieces (3 elbows, lamp, valve), outlet 1.4 in 2, spare 1.5 in 3, siphon 1.6
    in 4, each 2 x 37.5 mm longer; the spare's standpipe, 1.45 m, sits in one socket.
    """
    taken = taken_of("skerry")
    deep = 0.5 * 0.063 + 0.006
    ends = 2 * (6 + 2 + 3 + 4) + 1
    assert sums(taken, "pipe")["pvc-63-pn10"] == pytest.approx(2.4 + 1.4 + 1.5 + 1.6 + 1.45 + ends * deep)
    jet = next(piece for piece in taken.pieces if piece.mark == "jet.1")
    assert jet.count == 6
    assert jet.length == pytest.approx(0.4 + 2 * deep)
    assert sums(taken, "pipe")["pvc-90-pn10"] == pytest.approx(0.5 + 1.5 + 0.46 + (2 * 6 + 2 * 3 + 1) * 0.051)


def test_packhouse_parts_of_its_pipes() -> None:
    """Counted in the routes by eye."""
    taken = taken_of("packhouse")
    assert sums(taken, "fitting") == {
        "elbow-90 pvc40-2.5in": 4,
        "elbow-90 dwv-4in": 2 + 2,
        "elbow-90 pvc40-1in": 3,
        "elbow-90 pvc40-1.5in": 2,
        "elbow-90 pvc40-2in": 1 + 2,
        "tee-through pvc40-1.5in": 1,
        "union pvc40-3in": 3,  # beside basket and pump, one between them
        "union pvc40-1.5in": 2,
    }
    assert sums(taken, "valve") == {
        "ball pvc40-3in": 1,
        "check-flapper pvc40-3in": 1,
        "gate pvc40-3in": 1,
        "gate pvc40-1.5in": 1,
    }
    assert sums(taken, "bulkhead") == {"heavy-3": 1, "heavy-1-1-2": 1}
    reducers = {name for name in sums(taken, "extra") if name.startswith("reducer")}
    assert reducers == {
        "reducer pvc40-3in to pvc40-2.5in",
        "reducer pvc40-1.5in to pvc40-1in",
        "reducer pvc40-2in to pvc40-1.5in",
        "reducer dwv-6in to dwv-4in",  # under the wide lip of the reef's spare drain
    }
    missing = {key for key, _ in taken.missing if key.endswith(".bulkhead")}
    assert missing == {
        "vessels.reef.ports.spare.bulkhead",
        "vessels.column.ports.foot.bulkhead",
        "vessels.column.ports.spare.bulkhead",
    }


def test_the_tee_of_the_manifold_is_listed_once() -> None:
    assert sums(taken_of("skerry"), "fitting")["tee-through pvc-75-pn10"] == 1
    assert sums(taken_of("skerry"), "fitting")["tee-through pvc-50-pn10"] == 1


def test_clear_sheet_and_layers_of_the_shed() -> None:
    """Front 30 x 9 ft, 60 % clear; the roof's front slope 30 ft by the root of 8^2 + 4^2. Back wall 1 in of siding."""
    taken = taken_of("packhouse")
    slope = math.hypot(8.0, 4.0)
    assert sums(taken, "glazing") == {"pc-8-twin": pytest.approx((0.6 * 270.0 + 30.0 * slope) * FOOT**2)}
    walls = 0.4 * 270.0 + 270.0 + 2 * 16.0 * 11.0
    assert sums(taken, "layer")["wood-siding"] == pytest.approx(walls * FOOT**2 * INCH)
    assert sums(taken, "layer")["concrete"] == pytest.approx(480.0 * FOOT**2 * 5.0 * INCH)
    assert sums(taken, "cover") == {"panels": pytest.approx(0.9 * 60.0 * FOOT**2)}


def test_machines_are_counted_and_power_is_an_allowance() -> None:
    taken = taken_of("skerry")
    assert sums(taken, "heater") == {"sump": 4}
    assert sums(taken, "pump") == {"return": 1}
    assert sums(taken, "electrics") == {"": 3 + 1}
    assert sums(taken, "adsorber") == {"iron": 1.2}
    assert sums(taken, "adsorber", yearly=True)["iron"] == pytest.approx(1.2 * 365.0 / 28.0)
    assert "licensed electrician" in ELECTRICIAN
    assert all("allowance" in line.basis for line in taken.lines if line.item.sort == "electrics")


def test_salt_and_water_follow_the_study_of_the_water() -> None:
    """365/14 changes of 6 % take that share of the salt of all the water; 30 % of what the membrane is fed."""
    studies = without_weather("skerry")
    taken = rest_taken(plan_of("skerry"), studies)
    assert studies.water is not None
    assert studies.water.matters is not None
    whole = studies.water.matters.salting.whole
    drift = studies.water.matters.evaporating.drift
    assert whole is not None
    assert drift is not None
    assert sums(taken, "salt") == {"": pytest.approx(whole.recipe.mix.likely)}
    changes = 0.06 * 365.0 / 14.0
    yearly = changes * whole.recipe.mix.likely + drift.weekly.likely * 365.0 / 7.0
    assert sums(taken, "salt", yearly=True) == {"": pytest.approx(yearly)}
    assert sums(taken, "water", yearly=True)["osmosis"] == pytest.approx(changes * whole.recipe.source / 0.30)
    soda = 0.250 * 365.0 * 0.100
    assert sums(taken, "reagent", yearly=True)["sodium-carbonate"] == pytest.approx(soda)


def test_energy_of_a_year_comes_with_its_range() -> None:
    """A made-up year: heaters 30 to 50 GJ, chillers take 5 to 7 and draw 700 W for 2000 W."""
    studies = without_weather("packhouse")
    assert studies.heat is not None
    year = SimpleNamespace(
        heater=Estimate(30e9, 40e9, 50e9), chiller=Estimate(5e9, 6e9, 7e9), fan=Estimate.exact(1e9),
        air_heater=Estimate.exact(0.0),
    )  # fmt: skip
    warm = dataclasses.replace(studies.heat, years=year)  # type: ignore[arg-type]  # a stand-in with what is read
    taken = rest_taken(plan_of("packhouse"), dataclasses.replace(studies, heat=warm))
    found = {line.key: line.amount for line in taken.lines if line.item.sort == "energy" and line.yearly}
    assert found["heaters.sump"] == Estimate(30e9, 40e9, 50e9)
    chiller = found["chillers.outside"]
    assert chiller is not None
    assert chiller.low == pytest.approx(0.35 * 5e9)
    assert chiller.high == pytest.approx(0.35 * 7e9)
    column = found["pumps.column"]
    assert column is not None
    assert column.likely == pytest.approx(45.0 * 365.0 * 86400.0)
    assert found["building.vents"] == Estimate.exact(1e9)


def test_what_no_study_tells_is_lacking_and_never_guessed() -> None:
    keys = {key for key, _ in taken_of("packhouse").missing}
    assert {"water", "circuits", "lamps", "heaters"} <= keys
    assert "salt" not in {line.item.sort for line in taken_of("packhouse").lines}


@pytest.mark.parametrize("name", ["skerry", "packhouse"])
def test_every_line_says_where_it_comes_from(name: str) -> None:
    taken = rest_taken(plan_of(name), without_weather(name))
    for line in taken.lines:
        assert line.basis, line.what
        assert line.key.split(".")[0] in type(plan_of(name)).model_fields, line.key
        assert line.amount is not None
        assert line.amount.finite
        assert line.amount.low >= 0.0
    cut = {piece.item: 0.0 for piece in taken.pieces}
    for piece in taken.pieces:
        cut[piece.item] += piece.count * piece.length
    nested = {line.item: 0.0 for line in taken.lines if line.nested}
    for line in taken.lines:
        if line.nested:
            nested[line.item] += likely(line)
    assert nested == {item: pytest.approx(length) for item, length in cut.items()}


def test_cloth_on_epoxy_takes_its_own() -> None:
    """Niederer: 6 oz cloth takes 0.0126 gallons a square foot, wherever it lies."""
    rubber = '[vessels.tower.lining]\nkind = "coating"\nproduct = "liquid-rubber"\ncoats = 5'
    epoxy_on_cloth = rubber.replace("liquid-rubber", "epoxy") + '\ncloth = "6 oz/yd2"'
    text = changed(example("skerry"), (rubber, epoxy_on_cloth))
    taken = rest_taken(loads(text).plan, NOTHING)
    cloth = next(line for line in taken.lines if line.item.name == "glass cloth")
    epoxy = next(line for line in taken.lines if line.what.startswith("epoxy that lays"))
    gallons = likely(cloth) / FOOT**2 * (6.0 * 0.00085 + 0.0075)
    assert likely(epoxy) == pytest.approx(gallons * 231.0 * INCH**3)
