"""Remedies by the page's twin: sought beside it, told as they come, kept for their text, done with undo."""

from __future__ import annotations

import json
import time
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient

from tests.journeys.page_parts import Still, client_of
from tests.journeys.structure_plans import VAT
from tidestead import desk
from tidestead.core.answer import Check, Estimate, Verdict
from tidestead.core.source import PRACTICE
from tidestead.plan import load
from tidestead.plan.edits import Edit
from tidestead.trials.remedy import Effect, Mended, Move, Priced, Remedy, State, Whole
from tidestead.web.bench import Bench
from tidestead.web.seeker import Quest, Word

CHECK = "structure.made.up"
KEY = "vessels.reef.walls.south.windows.long.thickness"
MOVE = Move("a thicker sheet, 5 in", (Edit(KEY, "5 in"),))


class Told:
    """Searches nothing: what it is to tell is told when a test says so."""

    def __init__(self) -> None:
        self.quests, self.given_up = list[Quest](), 0
        self._hear: Callable[[Word], None] = lambda _: None

    def start(self, hear: Callable[[Word], None]) -> None:
        self._hear = hear

    def ask(self, quest: Quest) -> None:
        self.quests.append(quest)

    def give_up(self) -> None:
        self.given_up += 1

    def tell(self, word: Word) -> None:
        self._hear(word)


def state(verdict: Verdict, use: float, name: str = CHECK, what: str = "bow") -> State:
    return State(name, what, "reef", 0.02, "m", "", use, verdict)


def mended(*, priced: bool = True) -> Mended:
    """One remedy, with one check that gets worse, one that gets better and one that only moves."""
    before, after = state(Verdict.NEAR, 0.9), state(Verdict.SOUND, 0.5)
    worse = Effect(state(Verdict.SOUND, 0.6, "flow.a", "level"), state(Verdict.FAILS, 1.2, "flow.a", "level"))
    better = Effect(state(Verdict.FAILS, 1.5, "heat.b", "cold"), state(Verdict.SOUND, 0.7, "heat.b", "cold"))
    moved = Effect(state(Verdict.SOUND, 0.3, "heat.c", "hot"), state(Verdict.SOUND, 0.4, "heat.c", "hot"))
    price = Priced(Estimate(1180.0, 1234.0, 1521.0, ""), "USD", unpriced=("bed sealant",)) if priced else None
    effects = (better, moved, worse) if priced else ()
    remedy = Remedy(CHECK, MOVE, before, after, ("structure", "flow"), effects, price, 1)
    check = Check(CHECK, "bow", "reef", "m", Estimate.exact(0.018), 0.02, PRACTICE)
    return Mended(check, (remedy,), 7)


@pytest.fixture
def seeker() -> Told:
    return Told()


@pytest.fixture
def page(plan: Path, seeker: Told) -> Any:
    with client_of(Bench(plan, Still(), seeker=seeker)) as client:
        yield client


def base_of(page: TestClient) -> str:
    return str(page.get("/api/plan").json()["digest"])


def find(page: TestClient, check: str = CHECK) -> Any:
    return page.post("/api/remedies/find", json={"check": check, "base": base_of(page)})


def sought(page: TestClient, check: str = CHECK) -> dict[str, Any]:
    return dict(page.get("/api/remedies", params={"check": check}).json())


def open_check(page: TestClient) -> str:
    """The page's made-up check as it must be for remedies to be sought: 20 mm of a sheet thinner than that."""
    text = page.get("/api/plan").json()
    thin = text["text"].replace('thickness = "3 in"', 'thickness = "0.7 in"', 1)
    assert page.post("/api/save/text", json={"text": thin, "base": text["digest"]}).status_code == 200
    return base_of(page)


def test_a_search_is_told_as_it_goes_on_and_kept_for_its_text(page: TestClient, seeker: Told) -> None:
    assert find(page).status_code == 409  # sound: there is nothing to mend
    open_check(page)
    assert sought(page)["state"] == "none"
    assert find(page).status_code == 200
    quest = seeker.quests[-1]
    assert (quest.check, quest.loaded.digest) == (CHECK, base_of(page))
    assert quest.loaded.path is not None
    assert quest.loaded.path.is_absolute()
    seeker.tell(Word(quest.number, "trying", 3, 7))
    assert (sought(page)["state"], sought(page)["words"]) == ("working", "3 of 7 sorts of change tried.")
    seeker.tell(Word(quest.number, "pricing", found=mended(priced=False)))
    assert "being worked out" in page.get("/question/structure").text
    seeker.tell(Word(quest.number, "done", found=mended()))
    found = sought(page)
    assert found["state"] == "done"
    [remedy] = found["mended"]["remedies"]
    assert remedy["edits"] == [{"key": KEY, "value": "5 in"}]
    assert (remedy["price"]["likely"], remedy["price"]["unpriced"]) == (1234.0, ["bed sealant"])
    assert find(page).status_code == 200
    assert len(seeker.quests) == 1  # known already


def test_the_page_tells_price_margin_and_what_gets_worse_first(page: TestClient, seeker: Told) -> None:
    open_check(page)
    find(page)
    seeker.tell(Word(seeker.quests[-1].number, "done", found=mended()))
    text = page.get("/question/structure").text
    panel = text[text.index(f'id="remedies-{CHECK}"') :]
    assert "no total: the price book has no price of bed sealant" in panel
    assert "1,230" not in panel
    assert "margin 50 %" in panel
    assert panel.index("level (reef): sound, 60 % used → fails, 120 % used") < panel.index(
        "cold (reef): fails"
    )
    assert "moves 1 other check to no other verdict" in panel
    assert f'data-do="1" data-of="{CHECK}"' in panel


def test_another_plan_another_quest_and_the_end_give_a_search_up(plan: Path, seeker: Told) -> None:
    with client_of(Bench(plan, Still(), seeker=seeker)) as page:
        first = open_check(page)
        find(page)
        number = seeker.quests[-1].number
        before = seeker.given_up
        thinner = {"edits": [{"key": KEY, "value": "0.6 in"}], "base": first}
        assert page.post("/api/save", json=thinner).status_code == 200
        assert seeker.given_up > before
        seeker.tell(Word(number, "done", found=mended()))  # too late: of a plan that is no more
        assert sought(page)["state"] == "none"
        find(page)
        find(page, "flow.made.up")
        assert sought(page)["state"] == "none"  # given up for the other
        assert sought(page, "flow.made.up")["state"] == "working"
        assert page.post("/api/remedies/stop", json={"check": CHECK}).status_code == 409
        assert page.post("/api/remedies/stop", json={"check": "flow.made.up"}).status_code == 200
        assert sought(page, "flow.made.up")["state"] == "none"
        before = seeker.given_up
    assert seeker.given_up > before


def test_a_remedy_is_done_undone_and_known_again(page: TestClient, seeker: Told, plan: Path) -> None:
    base = open_check(page)
    text = plan.read_bytes()
    find(page)
    seeker.tell(Word(seeker.quests[-1].number, "done", found=mended()))
    wrong = page.post("/api/remedies/write", json={"check": CHECK, "number": 2, "base": base})
    assert wrong.status_code == 422
    assert plan.read_bytes() == text
    done = page.post("/api/remedies/write", json={"check": CHECK, "number": 1, "base": base})
    assert done.json()["words"] == MOVE.words
    assert 'thickness = "5 in"' in plan.read_text("utf-8")
    assert page.get("/api/plan").json()["undoes"] == MOVE.words
    assert sought(page)["state"] == "none"  # what was found was for the former text
    again = page.post("/api/remedies/write", json={"check": CHECK, "number": 1, "base": base})
    assert again.status_code == 409
    page.post("/api/undo", json={"base": base_of(page)})
    assert plan.read_bytes() == text
    assert sought(page)["state"] == "done"


def test_a_check_that_nothing_mends_says_what_was_tried(page: TestClient, seeker: Told) -> None:
    open_check(page)
    find(page)
    best = ("the thickest sheet", state(Verdict.FAILS, 1.1))
    none = Mended(mended().check, (), 12, best)
    seeker.tell(Word(seeker.quests[-1].number, "done", found=none))
    text = page.get("/question/structure").text
    assert "None of 12 changes tried makes it sound." in text
    assert "The nearest was: the thickest sheet, which leaves it at" in text
    assert (
        "Do it"
        not in text[text.index('id="mend"') : text.index('id="working"') if 'id="working"' in text else None]
    )


def test_a_search_that_breaks_says_so_and_may_be_made_again(page: TestClient, seeker: Told) -> None:
    open_check(page)
    find(page)
    seeker.tell(Word(seeker.quests[-1].number, "fault", words="its process ended before it was done"))
    assert sought(page)["words"] == "The search ended: its process ended before it was done"
    assert "Search again" in page.get("/question/structure").text
    find(page)
    assert len(seeker.quests) == 2


def test_the_whole_is_sought_from_the_first_page(page: TestClient, seeker: Told, plan: Path) -> None:
    base = open_check(page)
    assert "Cheapest changes that make everything sound" in page.get("/").text
    find(page, "")
    assert seeker.quests[-1].check == ""
    before = (state(Verdict.FAILS, 1.4), state(Verdict.NEAR, 0.9, "flow.a", "level"))
    whole = Whole((MOVE,), before, (), (), None, None, 40, 3, ("structure",), "No proof over all designs.")
    seeker.tell(Word(seeker.quests[-1].number, "done", found=whole))
    text = page.get("/").text
    assert "Mends 2 of 2 checks that fail or are near" in text
    assert "No proof over all designs." in text
    assert sought(page, "")["whole"]["tried"] == 40
    assert page.post("/api/remedies/write", json={"check": "", "number": 1, "base": base}).status_code == 200
    assert 'thickness = "5 in"' in plan.read_text("utf-8")


def test_a_search_of_the_whole_that_had_no_time_to_end_may_go_on(page: TestClient, seeker: Told) -> None:
    open_check(page)
    find(page, "")
    before = (state(Verdict.FAILS, 1.4),)
    late = Whole((MOVE,), before, before, (), None, None, 9, 1, ("structure",), "Too few minutes.", late=True)
    seeker.tell(Word(seeker.quests[-1].number, "done", found=late))
    assert sought(page, "")["whole"]["late"]
    assert "Go on looking" in page.get("/").text
    find(page, "")
    assert len(seeker.quests) == 2
    assert sought(page, "")["state"] == "working"
    assert "Too few minutes." in page.get("/").text  # what was found stands meanwhile
    assert page.post("/api/remedies/stop", json={"check": ""}).status_code == 200
    assert sought(page, "")["state"] == "done"
    assert "Go on looking" in page.get("/").text
    find(page, "")
    ended = replace(late, left=(), proof="No proof over all designs.", late=False)
    seeker.tell(Word(seeker.quests[-1].number, "done", found=ended))
    text = page.get("/").text
    assert "No proof over all designs." in text
    assert "Go on looking" not in text
    find(page, "")
    assert len(seeker.quests) == 3  # what was found is not sought again


def test_a_real_search_ends_in_a_remedy_whose_preview_is_the_answer_after_it(plan: Path) -> None:
    """In a process of its own: a small vat, one screw at the foot of each stud where two are needed."""
    wanted = "structure.vat.north.studs.foot.force"
    plan.write_text(VAT.replace("count = 3", "count = 1"), "utf-8")
    with client_of(Bench(plan, Still(("structure",)))) as page:
        assert find(page, wanted).status_code == 200
        deadline = time.monotonic() + 120.0
        while (found := sought(page, wanted))["state"] == "working":
            assert time.monotonic() < deadline
            time.sleep(0.1)
        assert found["state"] == "done", found["words"]
        remedy = found["mended"]["remedies"][0]
        asked = {"check": wanted, "number": 1, "base": base_of(page)}
        assert page.post("/api/remedies/write", json=asked).status_code == 200
    checks = {one.id: one for one in desk.answer(load(plan), ["structure"])["structure"].checks}
    after = remedy["after"]
    assert checks[after["id"]].verdict is Verdict.SOUND
    assert checks[after["id"]].use == pytest.approx(after["use"], rel=1e-12)
    for effect in remedy["effects"]:
        if effect["after"] is not None and effect["id"].startswith("structure."):
            assert checks[effect["id"]].use == pytest.approx(effect["after"]["use"], rel=1e-12), json.dumps(
                effect
            )
