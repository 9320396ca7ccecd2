"""Every formula is held to print or to a referee, and every printed value to its own last digit."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest

from tests.house.proofs import (
    address,
    called_in,
    cases_of,
    every_case,
    every_formula,
    half_last_digit,
    proven_by_print,
    proven_by_referee,
)
from tests.house.tree import TESTS, modules_in
from tests.published.case import Case
from tidestead.core.source import Known

KNOWN = {kind.name.lower() for kind in Known} - {"yours"}
CASES = every_case()


def test_every_formula_is_proven() -> None:
    proven = proven_by_print().keys() | proven_by_referee()
    without = [address(function) for function in every_formula() if address(function) not in proven]
    assert not without, "No published case and no referee for:\n" + "\n".join(without)


def test_every_list_of_cases_is_used() -> None:
    """A case outside CASES would be printed and never judged."""
    stray = []
    for module in modules_in("published"):
        lists = {
            name: value
            for name, value in vars(module).items()
            if name != "CASES"
            and isinstance(value, (list, tuple))
            and any(isinstance(row, Case) for row in value)
        }
        judged = {id(case) for case in cases_of(module)}
        stray += [
            f"{module.__name__}.{name}"
            for name, rows in lists.items()
            if any(isinstance(row, Case) and id(row) not in judged for row in rows)
        ]
    assert not stray, "Lists of cases that are not part of CASES: " + ", ".join(stray)


def test_a_module_with_cases_judges_them() -> None:
    silent = [
        module.__name__
        for module in modules_in("published")
        if cases_of(module) and ".holds(" not in Path(module.__file__ or "").read_text(encoding="utf-8")
    ]
    assert not silent, "Modules whose CASES are never asked to hold: " + ", ".join(silent)


@pytest.mark.parametrize(("module", "case"), CASES, ids=[f"{module}-{case.name}" for module, case in CASES])
def test_case_says_what_print_it_is_from(module: str, case: Case) -> None:
    assert case.name, module
    assert case.source, case.name
    assert case.place, case.name
    assert case.known in KNOWN, f"{case.name}: known='{case.known}' is none of {sorted(KNOWN)}"
    assert case.to > 0.0, case.name
    assert case.why or case.to <= half_last_digit(case.printed) * (1.0 + 1e-9), (
        f"{case.name}: to={case.to} is more than half the last digit of {case.printed!r} and `why` is empty"
    )


def test_case_names_are_told_apart() -> None:
    twice = [
        f"{module}: {name}" for (module, name), n in Counter((m, c.name) for m, c in CASES).items() if n > 1
    ]
    assert not twice


@pytest.mark.parametrize(
    ("printed", "half"),
    [(141.0, 0.5), (141, 0.5), (860.7, 0.05), (0.113, 0.0005), (4e-05, 0.5e-5), (1177.0, 0.5), (-2.5, 0.05)],
)
def test_half_of_the_last_digit(printed: float, half: float) -> None:
    assert half_last_digit(printed) == pytest.approx(half)


def test_only_a_call_of_an_imported_formula_counts(tmp_path: Path) -> None:
    text = (
        "from tidestead.physics.structure import pressure\n"
        "from tidestead.physics.structure.pressure import thrust_height as height, wall_thrust\n"
        "def test_it():\n    assert pressure.water_pressure(1.0, 1.0) and height(1.0)\n    wall_thrust\n"
    )
    path = tmp_path / "test_madeup.py"
    path.write_text(text, encoding="utf-8")
    home = "tidestead.physics.structure.pressure"
    assert called_in(path) == {f"{home}.water_pressure", f"{home}.thrust_height"}


def test_proofs_are_looked_for_where_they_stand() -> None:
    assert (TESTS / "published").is_dir()
    assert (TESTS / "agree").is_dir()
