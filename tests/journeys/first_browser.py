"""The first questions in a browser: begun, answered, left and gone on with."""

from __future__ import annotations

import json

from playwright.sync_api import Page

from tests.journeys.browser import Watched
from tidestead.plan.first_questions import asked


def ready(seen: Watched, address: str) -> Page:
    """The page of questions, when it has begun."""
    seen.page.goto(f"{address}start")
    seen.until("document.getElementById('first').dataset.ready")
    return seen.page


def at(seen: Watched, question: str) -> None:
    """Wait until a question is the one that is shown."""
    seen.until(f"document.querySelector('[data-question={question}]:not([hidden])')")


def answered(seen: Watched, address: str, answers: dict[str, str], question: str) -> None:
    """Go on at a question, as one who had answered so far and closed the page."""
    kept = json.dumps({"answers": answers, "at": question, "reached": []})
    page = ready(seen, address)
    page.evaluate(f"(kept) => localStorage.setItem({STORE}, kept)", kept)
    page.goto("about:blank")
    ready(seen, address)
    at(seen, question)


STORE = "'tidestead first ' + document.getElementById('first').dataset.kept"
"""Under which name answers are kept, as a script."""


def shown(page: Page) -> str:
    return page.locator("section.question:not([hidden])").get_attribute("data-question") or ""


def fill(page: Page, question: str, answers: dict[str, str]) -> None:
    """Answer all that a question asks, in its order, as blanks appear."""
    section = page.locator(f"[data-question={question}]")
    for name in asked(answers):
        blank = section.locator(f"[data-blank={name}]")
        if not blank.count():
            continue
        fold = section.locator("details.known", has=page.locator(f"[data-blank={name}]"))
        if fold.count() and fold.get_attribute("open") is None:
            fold.locator("summary").click()
        blank.wait_for(state="visible")
        if blank.locator("input[type=radio]").count():
            blank.locator(f'input[value="{answers[name]}"]').check()
        elif blank.locator("select").count():
            blank.locator(f'option[value="{answers[name]}"]:not([disabled])').wait_for(state="attached")
            blank.locator("select").select_option(answers[name])
        else:
            blank.locator("input").fill(answers[name])
