"""The view in the round in a real browser without a graphics card: drawn, turned, coloured, heard, and missing."""

from __future__ import annotations

import base64
import json
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, ConsoleMessage, Page, Route, ViewportSize

from tests.house.tree import PACKAGE
from tests.journeys.browser import PATIENCE
from tidestead import desk
from tidestead.plan import load
from tidestead.report.isometric import draw
from tidestead.report.round_uses import uses_object, uses_of
from tidestead.report.solids_json import round_object

PACKHOUSE = Path(__file__).parents[2] / "examples" / "packhouse.toml"
STATIC = PACKAGE / "web" / "static"
HOST = "http://round.test"
POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; font-src 'self'; "
    "connect-src 'self'"
)
"""As strict as the door's own: no script and no style in the page itself."""

KINDS = {".js": "text/javascript", ".css": "text/css", ".woff2": "font/woff2"}
DRIVERS_OWN = "ReadPixels"
"""What Chromium says of itself when it is asked for a picture of a drawing in the round."""

SCRIPT = """
import {show} from "/static/round.js";
window.parts = [];
document.addEventListener("part", (event) => window.parts.push(event.detail));
window.view = show(document.querySelector(".round-host"), await (await fetch("/data.json")).json());
if (window.view) document.querySelector(".drawn > svg").classList.add("still");
window.ready = true;
"""


@pytest.fixture(scope="module")
def files() -> dict[str, tuple[str, str]]:
    """A page with the still drawing and an empty host, its data, its script."""
    answer = desk.answer(load(PACKHOUSE), ["structure"])["structure"]
    view, uses = answer.rounds[0], uses_of(answer.rounds[0], answer.checks)
    data = {"round": round_object(view), "uses": uses_object(uses), "by": "use"}
    still = draw(view, "metric", uses=uses, titled=False, themed=False)
    sheets = "".join(f'<link rel="stylesheet" href="/static/{name}.css">' for name in ("site", "round"))
    page = (
        '<!doctype html><html lang="en"><head><meta charset="utf-8"><title>In the round</title>'
        f'<meta name="viewport" content="width=device-width">{sheets}</head><body><main><h1>In the round</h1>'
        f'<div class="drawn">{still}<div class="round-host"></div></div></main>'
        '<script type="module" src="/go.js"></script></body></html>'
    )
    return {
        "/": ("text/html", page),
        "/go.js": ("text/javascript", SCRIPT),
        "/data.json": ("application/json", json.dumps(data)),
        "/favicon.ico": ("image/svg+xml", ""),
    }


@contextmanager
def opened(
    browser: Browser,
    files: dict[str, tuple[str, str]],
    *,
    width: int = 1100,
    dark: bool = False,
    before: str = "",
    expect: tuple[str, ...] = (),
) -> Iterator[Page]:
    """The page; when it closes, nothing unexpected was told to its console and no other host was asked."""
    heard: list[str] = []

    def serve(route: Route) -> None:
        path = route.request.url.removeprefix(HOST).partition("?")[0]
        if not route.request.url.startswith(HOST):
            heard.append(route.request.url)
            route.abort()
        elif path in files:
            route.fulfill(
                content_type=files[path][0], body=files[path][1], headers={"content-security-policy": POLICY}
            )
        else:
            source = STATIC / path.removeprefix("/static/")
            route.fulfill(content_type=KINDS[source.suffix], body=source.read_bytes())

    def told(message: ConsoleMessage) -> None:
        if message.type in ("error", "warning") and DRIVERS_OWN not in message.text:
            heard.append(message.text)

    context = browser.new_context(
        viewport=ViewportSize(width=width, height=800), color_scheme="dark" if dark else "light"
    )
    page = context.new_page()
    page.set_default_timeout(PATIENCE)
    page.route("**/*", serve)
    page.on("console", told)
    page.on("pageerror", lambda error: heard.append(str(error)))
    if before:
        page.add_init_script(before)
    page.goto(f"{HOST}/")
    page.locator(".round-stage canvas, .round-nothing").first.wait_for()
    settle(page)
    yield page
    context.close()
    assert [line for line in heard if not any(part in line for part in expect)] == []


def settle(page: Page) -> None:
    """Wait until the letters are there and what was asked for is drawn: two frames."""
    page.evaluate("document.fonts.ready.then(() => 1)")
    page.evaluate("new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => done(1))))")


def picture(page: Page) -> str:
    """What is seen of the drawing itself, as the address of an image."""
    settle(page)
    return "data:image/png;base64," + base64.b64encode(page.locator(".round-stage").screenshot()).decode()


APART = """async (addresses) => {
  const [one, other] = await Promise.all(addresses.map(async (address) => {
    const image = new Image();
    image.src = address;
    await image.decode();
    const paper = document.createElement("canvas");
    [paper.width, paper.height] = [image.width, image.height];
    const brush = paper.getContext("2d");
    brush.drawImage(image, 0, 0);
    return brush.getImageData(0, 0, image.width, image.height).data;
  }));
  return one.filter((level, at) => Math.abs(level - other[at]) > 12).length;
}"""
A_FEW, MANY = 40, 600
"""Levels of red, green or blue that differ: an edge that falls on the next pixel, and another picture."""


def apart(page: Page, one: str, other: str) -> int:
    """In how many levels two pictures plainly differ."""
    found = page.evaluate(APART, [one, other])
    assert isinstance(found, int)
    return found


def becomes(page: Page, wanted: str) -> bool:
    """Whether the drawing is seen as wanted, at once or soon: colours of the page change over a moment."""
    return any(apart(page, picture(page), wanted) < A_FEW for _ in range(20))


def differs(page: Page, other: str) -> bool:
    """Whether another picture is seen, at once or soon."""
    return any(apart(page, picture(page), other) > MANY for _ in range(20))


def test_it_turns_by_keys_and_comes_back_the_same(
    browser: Browser, files: dict[str, tuple[str, str]]
) -> None:
    with opened(browser, files) as page:
        assert not page.locator(".drawn > svg").is_visible()
        canvas = page.locator("canvas")
        unchosen = picture(page)
        canvas.focus()
        first = picture(page)
        before = first
        for key in ("ArrowLeft", "ArrowUp", "+"):
            page.keyboard.press(key)
            assert differs(page, before)
            before = picture(page)
        page.keyboard.press("0")
        assert becomes(page, first)
        for name, back in (("Turn left", "Turn right"), ("Nearer", "Farther")):
            page.get_by_role("button", name=name).click()
            assert differs(page, first)
            page.get_by_role("button", name=back).click()
        page.get_by_role("button", name="Begin again").click()
        page.mouse.move(2, 2)
        assert becomes(page, unchosen)


def test_a_finger_or_mouse_turns_it_and_a_wheel_scrolls_until_it_is_chosen(
    browser: Browser, files: dict[str, tuple[str, str]]
) -> None:
    with opened(browser, files) as page:
        box = page.locator("canvas").bounding_box()
        assert box is not None
        first = picture(page)
        middle = (box["x"] + box["width"] / 2, box["y"] + box["height"] - 20.0)
        page.mouse.move(*middle)
        page.mouse.wheel(0, 10)
        assert becomes(page, first)
        page.mouse.down()
        page.mouse.move(middle[0] + 120, middle[1], steps=4)
        page.mouse.up()
        turned = picture(page)
        assert apart(page, turned, first) > MANY
        page.mouse.wheel(0, 10)
        page.mouse.move(2, 2)
        assert differs(page, turned)


def test_colour_by_use_is_told_by_numbers_steps_and_words(
    browser: Browser, files: dict[str, tuple[str, str]]
) -> None:
    with opened(browser, files) as page:
        by_use = picture(page)
        words = page.locator(".round-word").all_inner_texts()
        assert {"179 %", "262 %", ">999 %", "reef"} <= set(words)
        assert "fails" in page.locator(".round-legend").inner_text()
        page.get_by_label("what it is made of").check()
        assert differs(page, by_use)
        assert "timber" in page.locator(".round-legend").inner_text()
        assert page.locator(".round-fails").count() == 0
        solid = picture(page)
        page.get_by_label("See through the walls").check()
        assert differs(page, solid)
        page.evaluate("window.view.colourBy('use')")
        assert page.get_by_label("how much of its limit is used").is_checked()


def test_parts_are_heard_and_lit_both_ways(browser: Browser, files: dict[str, tuple[str, str]]) -> None:
    with opened(browser, files) as page:
        box = page.locator("canvas").bounding_box()
        window = page.locator(".round-word", has_text="179 %").bounding_box()
        assert box is not None
        assert window is not None
        page.mouse.move(window["x"] - 6, window["y"] + window["height"] / 2)
        settle(page)
        assert page.evaluate("window.parts") == ["reef.south.long"]
        assert page.locator(".round-tip").inner_text() == "reef, south, long: bow for good: 179 % used, fails"
        page.mouse.move(2, 2)
        settle(page)
        assert page.evaluate("window.parts.at(-1)") == ""
        plain = picture(page)
        page.evaluate("window.view.highlight('reef.ties.cross.end_joint')")
        lit = picture(page)
        assert apart(page, lit, plain) > MANY
        page.evaluate("window.view.highlight('reef.ties.cross')")
        assert becomes(page, lit)  # a joint of a tie is shown by its tie
        page.evaluate("window.view.highlight('')")
        assert becomes(page, plain)


def test_every_part_is_a_button_and_axe_is_content(
    browser: Browser, files: dict[str, tuple[str, str]]
) -> None:
    data = json.loads(files["/data.json"][1])
    parts = {solid["part"] for solid in data["round"]["solids"]}
    for width, dark in ((1100, False), (360, True)):
        with opened(browser, files, width=width, dark=dark) as page:
            page.locator(".round-parts summary").click()
            buttons = page.locator(".round-parts button")
            assert {button.get_attribute("data-part") for button in buttons.all()} == parts
            failing = buttons.filter(has_text="262 % used, fails")
            page.mouse.move(2, 2)
            failing.focus()
            assert page.evaluate("window.parts.at(-1)") == "reef.ties.cross"
            assert page.evaluate("document.documentElement.scrollWidth") <= width
            told = [
                (one["id"], one["nodes"][0]["html"][:120]) for one in Axe().run(page).response["violations"]
            ]
            assert told == []


def test_the_still_drawing_stays_where_nothing_can_be_drawn(
    browser: Browser, files: dict[str, tuple[str, str]]
) -> None:
    with opened(browser, files, before="HTMLCanvasElement.prototype.getContext = () => null") as page:
        assert page.evaluate("window.view") is None
        assert "cannot draw in the round" in page.locator(".round-host").inner_text()
        assert page.locator(".drawn > svg").is_visible()


def test_the_still_drawing_comes_back_when_the_picture_is_lost_and_in_print(
    browser: Browser, files: dict[str, tuple[str, str]]
) -> None:
    with opened(browser, files, expect=("Context Lost",)) as page:
        page.emulate_media(media="print")
        assert page.locator(".drawn > svg").is_visible()
        assert not page.locator(".round-host").is_visible()
        page.emulate_media(media="screen")
        page.evaluate(
            "document.querySelector('canvas').getContext('webgl2').getExtension('WEBGL_lose_context').loseContext()"
        )
        page.locator(".round-nothing").wait_for()
        assert page.locator(".drawn > svg").is_visible()
        page.evaluate("window.view.dispose()")  # a second end does no harm


def test_it_follows_the_colours_of_the_page_and_draws_only_when_asked(
    browser: Browser, files: dict[str, tuple[str, str]]
) -> None:
    with opened(browser, files) as page:
        light = picture(page)
        page.emulate_media(color_scheme="dark")
        assert differs(page, light)
        page.emulate_media(color_scheme="light")
        assert becomes(page, light)
        page.evaluate(
            "() => { window.asked = 0; const ask = requestAnimationFrame.bind(window);"
            "window.requestAnimationFrame = (does) => { window.asked += 1; return ask(does); }; }"
        )
        page.evaluate("new Promise((done) => setTimeout(done, 400))")
        assert page.evaluate("window.asked") == 0
