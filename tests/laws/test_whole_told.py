"""A whole design and a search cut short say what was not weighed: by a desk of the test's own."""

from __future__ import annotations

import io
import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from pathlib import Path

import pytest
from rich.console import Console

from tidestead.core.answer import Answer, Check, Estimate, Verdict
from tidestead.core.source import STATICS
from tidestead.core.units import parse
from tidestead.plan import LoadedPlan, load
from tidestead.plan.edits import Edit
from tidestead.report.terminal_remedies import print_remedies, print_whole
from tidestead.trials.mending import Search, checks_to_mend, mended, remedy_of
from tidestead.trials.patience import Patience
from tidestead.trials.remedy import Move, Priced
from tidestead.trials.scratch import Scratch
from tidestead.trials.together import Bench
from tidestead.trials.whole import whole_design

PACKHOUSE = Path(__file__).parents[2] / "examples" / "packhouse.toml"
NO_PRICE = Search(price=lambda _: None, workers=1)


def _check(name: str, use: float) -> Check:
    return Check(name, "share", "here", "1", Estimate.exact(use), 1.0, STATICS)


def _heaters(loaded: LoadedPlan) -> float:
    """What all heaters draw in W, by the plan's text."""
    text = loaded.text.split("[heaters", 1)[1].split("\n[", 1)[0]
    return sum(parse(one, "power") for one in re.findall(r'power = "([^"]+)"', text))


@pytest.fixture(scope="module")
def plan() -> LoadedPlan:
    return load(PACKHOUSE)


def _desk(plan: LoadedPlan, spoils: str) -> Scratch:
    """Heaters of the plan are 5 % too small; one check of another subject fails with any that are larger."""
    now = _heaters(plan)
    assert now > 0.0

    def ask(loaded: LoadedPlan, subjects: Sequence[str]) -> Mapping[str, Answer]:
        found = {}
        for name in subjects:
            larger = _heaters(loaded) / now
            checks = {
                "heat": _check("heat.heaters.size", 1.05 / larger),
                spoils: _check(f"{spoils}.other", 0.5 if larger == 1.0 else 1.5),
            }
            found[name] = Answer(name, "?", "", tuple(one for key, one in checks.items() if key == name))
        return found

    return Scratch(plan, ask)


def test_what_a_whole_design_spoils_elsewhere_is_told(plan: LoadedPlan) -> None:
    """Only the check of heat is asked for: that of power is not weighed, and is told."""
    scratch = _desk(plan, "power")
    checks = checks_to_mend(scratch, ["heat"], ["heat.heaters.size"])
    assert [one.verdict for one in checks] == [Verdict.FAILS]
    whole = whole_design(scratch, checks, replace(NO_PRICE, sorts=1))
    assert whole.moves
    assert not whole.left
    assert [one.id for one in whole.effects if one.worse] == ["power.other"]
    assert whole.proof.endswith(
        "is sound in it; not weighed: it spoils 1 check of subjects without one that was asked for."
    )
    both = _desk(plan, "power")
    quick = whole_design(both, checks, replace(NO_PRICE, sorts=1, fully=False))
    assert quick.proof.endswith("and everything asked for is sound in it.")
    stream = io.StringIO()
    print_whole(whole, "us", Console(file=stream, width=400))
    assert "MAKES WORSE: power.other 50% sound -> 150% fails" in stream.getvalue().replace(" %", "%")


def test_what_was_not_asked_for_want_of_time_is_told_and_stands_behind(
    plan: LoadedPlan, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The time runs out between the search and the side effects."""
    scratch = _desk(plan, "power")
    checks = checks_to_mend(scratch, ["heat"], ["heat.heaters.size"])
    late = replace(NO_PRICE, sorts=1)
    climbed = mended(scratch, checks, replace(late, fully=False))[0].remedies
    assert climbed
    assert not any(one.unasked for one in climbed)
    calls = iter([False])  # for the one ladder
    monkeypatch.setattr(Patience, "over", property(lambda _: next(calls, True)))
    [found] = mended(_desk(plan, "power"), checks, late)
    assert found.remedies
    for one in found.remedies:
        assert set(one.unasked) >= {"power", "water", "faults", "cost"}
        assert not set(one.unasked) & set(one.subjects)
        assert not replace(one, unasked=()).rank > one.rank
    stream = io.StringIO()
    print_remedies([found], "us", Console(file=stream, width=400))
    assert "NOT KNOWN: what it does to" in stream.getvalue()


def test_one_change_without_a_price_hinders_no_exchange_of_the_others(plan: LoadedPlan) -> None:
    """A pipe lacks its price either way: of two heaters that do the same the cheaper is taken all the same."""
    name, *_ = plan.plan.heaters
    dear, cheap = (
        Move(f"{watts} W", (Edit(f"heaters.{name}.power", f"{watts} W"),)) for watts in (9000, 8000)
    )
    bare = Move("80 A", (Edit("supply.amps", "80 A"),))

    def price(loaded: LoadedPlan) -> Priced:
        cash = 100.0 if "9000 W" in loaded.text else 40.0 if "8000 W" in loaded.text else 0.0
        pipe = (("pipe", 2.0),) if '"80 A"' in loaded.text else ()
        return Priced(Estimate.exact(cash), "USD", None, tuple(name for name, _ in pipe), pipe)

    scratch = _desk(plan, "power")
    [check] = checks_to_mend(scratch, ["heat"], ["heat.heaters.size"])
    mends = [remedy_of(scratch, check, move, ("heat",)) for move in (dear, cheap)]
    remedies = [one for one in mends if one is not None]
    assert len(remedies) == 2
    bench = Bench(scratch, (check.id,), price, Patience(), None)
    assert bench.exchanged([bare, dear], remedies) == [bare, cheap]
    assert bench.exchanged([bare, cheap], remedies) == [bare, cheap]
