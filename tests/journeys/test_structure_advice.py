"""What the answer tells a builder to do: it would do, it is not there yet, and it is said in their units."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.journeys.structure_plans import PLAIN, SHEET, TOWER, VAT, asked, changed, checks, use
from tidestead.core.answer import Answer, Verdict

EXAMPLES = Path(__file__).parents[2] / "examples"
LEDGER = 'carried_by = "ledger"\ncapacity = "400 lbf"\nspacing = "1 ft"\n'
TIE = "vat.ties.middle.end_joint.force"


def test_as_many_fasteners_as_are_advised_are_sound_and_one_less_is_not() -> None:
    joint = 'end_joint = { fastener = "screw-no14x4", count = {},'
    few = changed(PLAIN, (joint.replace("{}", "3"), joint.replace("{}", "1")))
    check = checks(few)[TIE]
    assert check.verdict is not Verdict.SOUND
    found = re.match(r"(\d+) of the same fastener for the 1 there", check.advice)
    assert found is not None, check.advice
    needed = int(found.group(1))
    enough = changed(PLAIN, (joint.replace("{}", "3"), joint.replace("{}", str(needed))))
    assert use(enough, TIE) <= 0.8
    fewer = changed(PLAIN, (joint.replace("{}", "3"), joint.replace("{}", str(needed - 1))))
    assert use(fewer, TIE) > 0.8


@pytest.mark.parametrize(
    ("carrier", "absent", "present"),
    [("ledger", "a ledger", "ties under the floor"), ("anchors", "nothing at all", "a ledger")],
)
def test_advice_for_a_base_names_no_carrier_that_is_there(carrier: str, absent: str, present: str) -> None:
    weak = changed(PLAIN, (LEDGER, LEDGER.replace("ledger", carrier).replace("400 lbf", "40 lbf")))
    check = checks(weak)["vat.west.base.push"]
    assert check.verdict is Verdict.FAILS
    assert absent not in check.advice
    assert present in check.advice


def test_fasteners_as_close_as_advised_make_the_base_sound() -> None:
    weak = changed(PLAIN, ('capacity = "400 lbf"', 'capacity = "100 lbf"'))
    found = re.match(
        r"fasteners ([\d.]+) times as close or as strong", checks(weak)["vat.west.base.push"].advice
    )
    assert found is not None
    strong = changed(PLAIN, ('capacity = "400 lbf"', f'capacity = "{100.0 * float(found.group(1))} lbf"'))
    assert checks(strong)["vat.west.base.push"].verdict is Verdict.SOUND


def test_a_rim_over_the_top_is_advised_only_where_the_top_is_free() -> None:
    """Of a sheet on four seats and of one with a free upper edge."""
    seated = [check.advice for ident, check in checks(VAT).items() if ".pane." in ident]
    assert not [words for words in seated if "free upper edge" in words]
    free = [check.advice for ident, check in checks(SHEET).items() if ".sheet." in ident]
    assert [words for words in free if "free upper edge" in words]


def test_a_fastener_that_counts_for_nothing_says_why_and_what_to_write() -> None:
    """The words are in the advice, which the sentence repeats."""
    short = changed(PLAIN, ("end_joint = {", 'end_joint = { through = "4 1/2 in",'))
    check = checks(short)[TIE]
    assert check.limit == 0.0
    assert "does not reach deep enough" in check.advice
    assert "vessels.vat.ties.middle.end_joint.behind" in check.advice
    ended = changed(TOWER, ('into = "side"', 'into = "end"'))
    turned = [one.advice for one in checks(ended).values() if one.limit == 0.0 and "end grain" in one.advice]
    assert turned
    assert all('.into = "side"' in words for words in turned)


def test_a_cracked_tie_is_named_in_a_caution() -> None:
    cracked = changed(PLAIN, ('across = "width"', 'across = "width"\nas_built = { cracked = [2] }'))
    assert [words for words in asked(cracked).cautions if "tie 2 of middle" in words and "west" in words]
    assert not [words for words in asked(PLAIN).cautions if "cracked" in words]


METRIC = re.compile(r"\d ?(mm|cm|m|MPa|kPa|kN|kg|degC|°C)\b|\bmetre")


def told(answer: Answer) -> list[str]:
    words = [answer.sentence, *answer.cautions, *(scene.told for scene in answer.scenes)]
    words += [
        text for check in answer.checks for text in (check.advice, check.missing, check.what, *check.cautions)
    ]
    words += [one.value for one in answer.assumptions]
    return words + [step.meaning for working in answer.working for step in working.steps]


def test_an_answer_in_us_units_speaks_no_metric() -> None:
    """Numbers of both systems side by side, "3 MPa (435 psi)", are no fault."""
    for text in told(asked(VAT)):
        alone = re.sub(r"\d+ ?(MPa|degC|mm) \(\d+ (psi|degF|mil)\)", "", text)
        assert not METRIC.search(alone), text


EVERY = {"plain": PLAIN, "vat": VAT, "tower": TOWER, "sheet": SHEET, "packhouse": "", "skerry": ""}


@pytest.mark.parametrize("name", EVERY)
def test_every_check_that_can_fail_says_what_would_mend_it(name: str) -> None:
    told = asked(EVERY[name] or (EXAMPLES / f"{name}.toml").read_text(encoding="utf-8"))
    judged = [check for check in told.checks if not check.missing]
    assert judged
    assert not [check.id for check in judged if not check.advice]


def test_water_above_a_free_edge_runs_over_and_all_else_is_judged() -> None:
    """With the brim above the sheet's free top the reason is said, and nothing is called undescribed for it."""
    lower = ('height = "3 ft 10 in"\nsill', 'height = "3 ft"\nsill')
    text = (EXAMPLES / "packhouse.toml").read_text(encoding="utf-8")
    found = checks(changed(text, ('brim = "4 ft 5 in"', 'brim = "4 ft 6 in"'), lower))
    edge = found["reef.south.long.freeboard"]
    assert edge.verdict is Verdict.FAILS
    assert edge.estimate is not None
    assert edge.estimate.low == pytest.approx((8 + 3 * 12 - (4 * 12 + 6)) * 0.0254 - 0.25 * 0.0254, abs=1e-9)
    assert [words for words in edge.cautions if "run over it" in words]
    assert found["reef.south.rim.bending"].estimate is not None
    assert not [one for one in found.values() if "too near" in one.missing or "described" in one.missing]
