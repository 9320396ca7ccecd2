"""Salinity as people type what instruments show, against print."""

from __future__ import annotations

import pytest

from tidestead.core.units import parse_salinity

ARTICLE = "article on refractometers that reads the CRC Handbook (57th edition, page D-252)"
UNESCO = "UNESCO Technical Papers in Marine Science 44 (1983), PSS-78"
CRC = "CRC Handbook of Chemistry and Physics (102nd edition), aqueous solutions at 20 degC"
QUAN = "Quan and Fry (1995), line at 20 degC: 1.333004 + 0.0001829*S"

ROWS = [
    ("42.914 mS/cm at 14.9964 degC", 35.0, 1e-4, UNESCO, "C(35, 15, 0), 15 degC on the scale of 1968"),
    ("4.2914 S/m at 14.9964 degC", 35.0, 1e-4, UNESCO, "the same"),
    ("53.071 mS/cm at 25 degC", 35.0, 1e-3, "TEOS-10's library", "C(35, 25, 0)"),
    ("53.071 mS/cm led back to 77 degF", 35.0, 1e-3, "TEOS-10's library", "C(35, 25, 0)"),
    ("52.977 mS/cm at 20 degC led back to 25 degC by 1.91 %/K", 35.0, 1e-3, "by hand", "47.918 mS/cm at 20 degC"),
    ("1.3394 nD at 20 degC", 35.0, 0.3, ARTICLE, "1.3394 is 35; one in the last digit is 0.55"),
    ("3.65 % NaCl refractometer, ATC", 35.0, 0.05, ARTICLE, "3.65 % of sodium chloride refracts like 35"),
    ("36.5 ppt NaCl refractometer at 68 degF", 35.0, 0.05, ARTICLE, "the same"),
    ("31.36 ppt seawater refractometer at 26 degC", 35.0, 0.01, QUAN, "n(35, 26 degC) = 1.338738"),
    ("37.6 ppt seawater refractometer at 15 degC", 35.0, 0.01, QUAN, "n(35, 15 degC) = 1.339881"),
]  # fmt: skip


@pytest.mark.parametrize(("typed", "printed", "within", "source", "place"), ROWS)
def test_what_is_typed_is_what_is_printed(
    typed: str, printed: float, within: float, source: str, place: str
) -> None:
    assert parse_salinity(typed).meant.psu == pytest.approx(printed, abs=within), f"{source}: {place}"


@pytest.mark.parametrize(
    ("salt_ppt", "index"), [(10.0, 1.3347), (20.0, 1.3365), (30.0, 1.3383), (35.0, 1.3391), (40.0, 1.34)]
)
def test_a_scale_for_sodium_chloride_is_the_index_that_is_printed(salt_ppt: float, index: float) -> None:
    """Rows of the CRC Handbook; their last digit is 0.3 of salinity either way."""
    scale = parse_salinity(f"{salt_ppt:g} ppt NaCl refractometer at 20 degC").meant.psu
    assert scale == pytest.approx(parse_salinity(f"{index} nD at 20 degC").meant.psu, abs=0.34), CRC
