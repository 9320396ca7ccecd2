"""What tests of forms share: a bench that needs no answers, and the fields that a page shows."""

from __future__ import annotations

from collections.abc import Callable
from html.parser import HTMLParser
from typing import Any

from tidestead.desk.lanes import Job, News


class NoAnswers:
    """Forms need none."""

    def start(self, hear: Callable[[News], None]) -> None:
        return None

    def ask(self, job: Job) -> None:
        return None

    def stop(self) -> None:
        return None


class Fields(HTMLParser):
    """The fields of a page: by key what they show, which say that their table is there, the ids that describe each."""

    def __init__(self) -> None:
        super().__init__()
        self.shown: dict[str, str] = {}
        self.there: set[str] = set()
        self.described: dict[str, list[str]] = {}
        self.invalid: set[str] = set()
        self.ids: list[str] = []
        self.labels: set[str] = set()
        self.own: dict[str, str] = {}
        self.inline: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        found = {name: value or "" for name, value in attrs}
        if "id" in found:
            self.ids.append(found["id"])
        if tag == "label":
            self.labels.add(found.get("for", ""))
        if "data-words" in found:
            self.shown[found["data-key"]] = found["data-was"]
            self.there |= {found["data-key"]} if "data-there" in found else set()
            self.described[found["data-key"]] = found["aria-describedby"].split()
            self.own[found["data-key"]] = found["id"]
            if found["aria-invalid"] == "true":
                self.invalid.add(found["data-key"])
        self.inline += [name for name in found if name.startswith("on") or name == "style"]
        if tag == "style" or (tag == "script" and "src" not in found):
            self.inline.append(tag)


def fields_of(text: str) -> Fields:
    found = Fields()
    found.feed(text)
    return found


def typed(key: str, words: str, was: str | None = None) -> dict[str, Any]:
    return {"key": key, "words": words} | ({} if was is None else {"was": was})
