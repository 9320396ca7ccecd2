"""Fields of the packhouse's forms, typed in to be tried or to be saved."""

from __future__ import annotations

from playwright.sync_api import Locator, Page

from tests.journeys.browser import Served, Watched, until

WINDOW = "vessels.reef.walls.south.windows.long"
THICKNESS, TEMPERATURE = f"{WINDOW}.thickness", f"{WINDOW}.temperature"


def field(page: Page, key: str, part: str = "") -> Locator:
    return page.locator(f'[id="f-{key}{part}"]')


def tried(page: Page, key: str = THICKNESS) -> str:
    """What the field says under it of a trial; nothing where it says nothing."""
    return field(page, key, "-tried").text_content() or ""


def focused(page: Page) -> str:
    return str(page.evaluate("document.activeElement.id"))


def saved(page: Page, packhouse: Served, key: str, words: str) -> None:
    """Type a value to be saved, and wait until the file has it."""
    page.locator('[data-mode] [value="save"]').check()
    field(page, key).fill(words)
    field(page, key).press("Enter")
    until(page, lambda: f'{key.rpartition(".")[2]} = "{words}"' in packhouse.plan.read_text("utf-8"))


def to_try(seen: Watched, packhouse: Served, words: str = "4 in") -> Page:
    """The window's form, with another thickness being tried."""
    page = seen.page
    page.goto(f"{packhouse.address}plan/part/{WINDOW}")
    page.locator('[data-mode] [value="try"]').check()
    field(page, THICKNESS).fill(words)
    field(page, THICKNESS).press("Enter")
    until(page, lambda: words in tried(page))
    page.locator("#trial").wait_for()
    return page
