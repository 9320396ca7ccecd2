"""The catalogue: every figure has its source, unit and SI value; the user's rows join it and shadow nothing."""

from __future__ import annotations

import math
import re
import tomllib
from pathlib import Path

import pint
import pytest

import tidestead.catalog
from tests.published.case import PSI
from tidestead.catalog import YOURS_MARK, Row, Table, table
from tidestead.catalog.demands import DEMANDS
from tidestead.catalog.rows import TABLES, missing_keys, read_table, row_names
from tidestead.core.errors import CatalogError
from tidestead.core.source import Known

DATA = Path(tidestead.catalog.__file__).with_name("data")

MADE = """
about = "made up for this test"
[sources.sheet]
work = "A maker's sheet"
place = "page 2"
known = "quoted"
[rows.one]
title = "One"
allowed = true
kind = "soil"
cautions = ["Mind."]
bearing = { value = 250, unit = "psf", source = "sheet" }
lengths = { values = [1, 2.5], unit = "ft", source = "sheet" }
"""


def every_row() -> list[Row]:
    return [row for name in TABLES for row in table(name)]


@pytest.mark.parametrize("name", TABLES)
def test_every_figure_of_every_file_has_a_source_a_unit_and_a_finite_value(name: str) -> None:
    """Counted in the file itself, so that the loader cannot drop one."""
    file = tomllib.loads((DATA / f"{name}.toml").read_text(encoding="utf-8"))
    ours = table(name)
    assert set(ours.names) == set(file["rows"])
    assert ours.about
    for key, entry in file["rows"].items():
        row = ours[key]
        figures = {figure: value for figure, value in entry.items() if isinstance(value, dict)}
        assert set(row.figures) == set(figures)
        for figure, datum in row.figures.items():
            assert datum.source.work == file["sources"][figures[figure]["source"]]["work"]
            assert datum.source.known in Known
            assert datum.printed_unit == figures[figure]["unit"]
            printed = figures[figure].get("values", figures[figure].get("value"))
            assert datum.printed == (tuple(printed) if isinstance(printed, list) else printed)
            assert all(map(math.isfinite, row.several(figure)))


def test_no_file_lies_beside_the_tables_and_no_source_is_idle() -> None:
    assert {path.stem for path in DATA.glob("*.toml")} == set(TABLES) == set(DEMANDS)
    for name in TABLES:
        text = (DATA / f"{name}.toml").read_text(encoding="utf-8")
        used = set(re.findall(r'source = "([^"]+)"', text))
        assert used == set(tomllib.loads(text)["sources"])


def test_no_row_lacks_what_its_table_demands() -> None:
    assert len(every_row()) > 100
    for row in every_row():
        assert missing_keys(row) == []


@pytest.mark.parametrize("name", TABLES)
def test_names_are_found_without_reading_the_rows(name: str) -> None:
    assert row_names(name) == table(name).names


PINT_WORDS = {
    "1": "dimensionless", "psf/ft": "pound_force / foot**3", "pci": "pound_force / inch**3", "mil": "thou",
    "lb/ft": "pound_force / foot", "lb/in": "pound_force / inch", "lb-in/ft": "pound_force * inch / foot",
    "lb-in2/ft": "pound_force * inch**2 / foot", "psf": "pound_force / foot**2", "psi": "pound_force / inch**2",
    "lb/ft3": "pound / foot**3", "%": "percent", "mm2": "mm**2", "in2": "inch**2", "in": "inch", "kg/m3": "kg/m**3",
    "N/m2": "N/m**2", "N/mm3": "N/mm**3", "N/m3": "N/m**3", "MN/m3": "MN/m**3", "J/m2": "J/m**2",
    "W/(m2 K)": "W/m**2/K", "W/(m K)": "W/m/K", "J/(kg K)": "J/kg/K", "kg/m2": "kg/m**2",
    "mol/m2/day": "mol/m**2/day", "umol/m2/s": "umol/m**2/s",
    "m2 K/W": "m**2 * K / W", "psu": "dimensionless", "kg/(m2 year)": "kg/m**2/year", "g/(m2 h)": "g/m**2/hour",
    "meq/L": "millimole/liter", "mol/(m2 day)": "mol/m**2/day",
}  # fmt: skip
"""Units of the files as the referee library spells them, where it would read another thing or nothing."""

NOT_SI = {"mol/(m2 day)": "mol/m**2/day", "umol/(m2 s)": "umol/m**2/s"}
"""Units that figures are kept in though they are no SI: those of light for plants."""


def test_every_figure_is_converted_as_an_independent_library_converts_it() -> None:
    referee: pint.UnitRegistry[float] = pint.UnitRegistry()
    units: set[str] = set()
    for row in every_row():
        for key, datum in row.figures.items():
            units.add(datum.printed_unit)
            if datum.printed_unit == "degC":
                assert datum.value == datum.printed
                continue
            unit = referee.Unit(PINT_WORDS.get(datum.printed_unit, datum.printed_unit))
            printed = datum.printed if isinstance(datum.printed, tuple) else (datum.printed,)
            for number, value in zip(printed, row.several(key), strict=True):
                typed, kept = referee.Quantity(number, unit), NOT_SI.get(datum.unit_si)
                theirs = (typed.to(kept) if kept else typed.to_base_units()).magnitude
                assert value == pytest.approx(theirs, rel=1e-9), (row.table, row.name, key)
    assert len(units) > 15


def test_a_made_table() -> None:
    made = read_table("soils", MADE)
    row = made["one"]
    assert row.si("bearing") == pytest.approx(250 * PSI / 144)
    datum = row.figure("bearing")
    assert (datum.unit_si, datum.printed, datum.printed_unit, datum.dimension) == (
        "Pa",
        250,
        "psf",
        "pressure",
    )
    assert str(datum.source) == "A maker's sheet, page 2 [quoted by another]"
    assert row.several("lengths") == pytest.approx((0.3048, 0.762))
    assert row.tag("cautions") == ("Mind.",)
    assert row.tag("colour", "none") == "none"
    assert row.has("allowed")
    assert not row.has("colour")


@pytest.mark.parametrize(
    ("before", "after", "words"),
    [
        (', source = "sheet" }\nlengths', " }\nlengths", "no source that the file lists"),
        ('source = "sheet" }\nlengths', 'source = "other" }\nlengths', "no source that the file lists"),
        ('unit = "psf", ', "", "has no unit"),
        ('unit = "psf"', 'unit = "quux"', "quux"),
        ("value = 250", 'value = "250"', "not a number"),
        ("value = 250", "value = true", "not a number"),
        ("value = 250", "value = nan", "not a number"),
        ("value = 250", "value = 250, about = 3", "nothing else"),
        ("value = 250", "value = 1, values = [1]", "nothing else"),
        ('bearing = { value = 250, unit = "psf", source = "sheet" }', "", "lacks bearing"),
        (
            'bearing = { value = 250, unit = "psf", source = "sheet" }',
            "bearing = 250",
            "without unit and source",
        ),
        ('known = "quoted"', 'known = "yours"', "known as one of"),
        ('known = "quoted"', "", "known as one of"),
        ("work =", "wrok =", "needs work"),
        ('title = "One"', "", "needs a title"),
        ("about =", "abuot =", "mean nothing"),
        ("[rows.one]", "[rows.one", "is not TOML"),
    ],
)
def test_a_table_that_owes_something_does_not_load(before: str, after: str, words: str) -> None:
    assert before in MADE
    with pytest.raises(CatalogError, match=re.escape(words)):
        read_table("soils", MADE.replace(before, after, 1))


def test_what_is_not_there_is_named_with_the_nearest() -> None:
    with pytest.raises(CatalogError, match=r'clear has no row "acrylic-kast". Did you mean "acrylic-cast"\?'):
        table("clear")["acrylic-kast"]
    with pytest.raises(
        CatalogError, match=r'row "acrylic-cast" has no figure "modulos". Did you mean "modulus"\?'
    ):
        table("clear")["acrylic-cast"].figure("modulos")
    with pytest.raises(CatalogError, match=r"Did you mean lumber\?"):
        table("lumbar")
    with pytest.raises(CatalogError, match="is a list of"):
        table("clear")["acrylic-cast"].si("thicknesses")
    with pytest.raises(CatalogError, match='has no "flavour"'):
        table("clear")["acrylic-cast"].tag("flavour")


def with_clear(**entry: object) -> Table:
    return table("clear").with_yours({"mine": entry})


def test_a_row_of_the_users_own_joins_under_its_mark() -> None:
    own = with_clear(like="acrylic-cast", modulus="465000 psi", source="the maker's sheet")[
        f"{YOURS_MARK}mine"
    ]
    ours = table("clear")["acrylic-cast"]
    assert own.si("modulus") == pytest.approx(465000 * PSI)
    assert own.figure("modulus").source.known is Known.YOURS
    assert str(own.figure("modulus").source) == "the maker's sheet [yours]"
    assert own.figure("poisson") == ours.figure("poisson")
    assert own.tag("kind") == "acrylic"
    assert f"{YOURS_MARK}mine" not in table("clear")


def test_a_row_of_the_users_own_never_shadows_ours() -> None:
    joined = table("clear").with_yours({"acrylic-cast": {"like": "acrylic-cast", "modulus": "1 GPa"}})
    assert joined["acrylic-cast"] == table("clear")["acrylic-cast"]
    assert joined["yours:acrylic-cast"].si("modulus") == 1e9


def test_a_row_may_be_written_out_in_full() -> None:
    own = table("soils").with_yours({"mine": {"allowed": True, "bearing": "120 kPa", "title": "Bank"}})[
        "yours:mine"
    ]
    assert (own.si("bearing"), own.title) == (120e3, "Bank")
    assert own.figure("bearing").source.known is Known.YOURS


@pytest.mark.parametrize(
    ("entry", "words"),
    [
        ({"like": "acrylic-cast", "modulus": "3200"}, 'yours.clear.mine.modulus: "3200" has no unit.'),
        ({"like": "acrylic-cast", "modulus": 3200}, "has no unit"),
        ({"like": "acrylic-cast", "modulus": "3 kg"}, "pressure is wanted here"),
        ({"like": "acrylic-cast", "modulus": ["3 GPa"]}, "must be one quantity"),
        ({"like": "acrylic-cast", "thicknesses": "3 mm"}, "must be a list of quantities"),
        ({"like": "acrylic-cast", "modulos": "3 GPa"}, "Did you mean modulus?"),
        ({"like": "acrylic-kast"}, 'Did you mean "acrylic-cast"?'),
        ({"like": "acrylic-cast", "window": "yes"}, "must be true or false"),
        ({"like": "acrylic-cast", "title": 3}, "must be text in quotes"),
        ({"like": "acrylic-cast", "source": ""}, "must be text in quotes"),
        ({"like": "acrylic-cast", "modulus": True}, "must be a quantity in quotes"),
        ({"modulus": "3 GPa"}, "lacks kind, window, poisson"),
    ],
)
def test_a_row_with_a_fault_is_refused_with_advice(entry: dict[str, object], words: str) -> None:
    with pytest.raises(CatalogError, match=re.escape(words)):
        with_clear(**entry)


def test_every_fault_of_a_row_is_told() -> None:
    with pytest.raises(CatalogError) as raised:
        with_clear(like="acrylic-cast", modulus="3200", poisson="x", densty="3")
    assert len(str(raised.value).split("\n")) == 3
