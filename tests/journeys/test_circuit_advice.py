"""What to write instead, where readers of the messages stumbled: the number kept, in the unit of the place."""

from __future__ import annotations

import pytest

from tests.journeys.flow_plans import SMALL, changed
from tests.journeys.test_circuit_faults import faults_in

VALVED = '[vessels.sump.top_off]\nlevel = "0.40 m"\nflow = "{}"\nstock = "60 L"\n\n[pumps.lift]'
MORE = (
    (
        "a second pump in one line",
        ("[valves.set]", '[pumps.two]\ncurve = ["0 m3/h at 2 m", "10 m3/h at 0 m"]\n\n[valves.set]'),
        ('"pump lift", ', '"pump lift", "pump two", '),
        "circuits.up.route[3]",
        "is the second pump of this circuit, behind pump lift. Give each a circuit of its own",
    ),
    (
        "an open lip under pressure",
        ('"elbow-90 x3"', '"riser 1.0 m", "elbow-90 x3"'),
        ("", ""),
        "circuits.up.route[4]",
        "an open lip in a line that a pump drives",
    ),
    (
        "a flow without a unit",
        ("[pumps.lift]", VALVED.format("0.5")),
        ("", ""),
        "vessels.sump.top_off.flow",
        'Write "0.5 L/min"',
    ),
    (
        "a float valve over the brim",
        ("[pumps.lift]", VALVED.format("2 L/min").replace("0.40 m", "0.95 m")),
        ("", ""),
        "vessels.sump.top_off.level",
        "It would run for ever: the vessel spills at 0.80 m",
    ),
    (
        "a level below nothing without a unit",
        ("[circuits.down]", "[outfalls.gully]\nlevel = -0.3\n\n[circuits.down]"),
        ("", ""),
        "outfalls.gully.level",
        'Write "-0.3 m"',
    ),
    (
        "a head as a pressure",
        ('"8 m3/h at 4 m"', '"8 m3/h at 0.4 bar"'),
        ("", ""),
        "pumps.lift.curve[2]",
        'gives a pressure where a head of water is wanted. Write "8 m3/h at 4.09 m"',
    ),
    (
        "a crest over the brim",
        ('level = "0.80 m", length', 'level = "0.89 m", length'),
        ("", ""),
        "vessels.tank.ports.edge.level",
        "The vessel spills at its brim, 0.88 m",
    ),
    (
        "a count with a fraction",
        ('"elbow-90 x3"', '"elbow-90 x2.5"'),
        ("", ""),
        "circuits.up.route[4]",
        '"elbow-90 x3"',
    ),
    (
        "a check valve with a position",
        ('kind = "gate"\nopen = "100 %"', 'kind = "check-swing-straight"\nopen = "50 %"'),
        ("", ""),
        "valves.set.open",
        "means nothing for a check valve",
    ),
    (
        "a gate that cracks",
        ('kind = "gate"\nopen = "100 %"', 'kind = "gate"\ncracking = "0.1 m"'),
        ("", ""),
        "valves.set.cracking",
        "means nothing for a valve that is not a check valve",
    ),
    (
        "a price without a currency",
        ("[targets]", '[supplies]\ntariff = "0.32"\n\n[targets]'),
        ("", ""),
        "supplies.tariff",
        "EUR/kWh",
    ),
    (
        "a time without a unit",
        ('turnover = "1.0"', 'clean_up = "4"'),
        ("", ""),
        "targets.clean_up",
        '"4 days" or "4 h"',
    ),
)


@pytest.mark.parametrize(("name", "change", "second", "where", "words"), MORE, ids=[one[0] for one in MORE])
def test_what_readers_stumbled_over_is_told_with_what_to_write(
    name: str, change: tuple[str, str], second: tuple[str, str], where: str, words: str
) -> None:
    text = changed(SMALL, change)
    told = faults_in(changed(text, second) if second[0] else text)
    assert any(one.startswith(where) and words in one for one in told), told


def test_a_kind_that_is_not_known_gets_all_the_kinds_and_no_wild_guess() -> None:
    text = changed(SMALL, ("[valves.set]", '[apparatus.one]\nkind = "filter"\n\n[valves.set]'))
    (told,) = faults_in(text)
    assert '"strainer"' in told
    assert 'Write "chiller"' not in told
