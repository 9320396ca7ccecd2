"""Other people's work that the page carries: listed, unchanged, licensed, and asking no outside host for anything."""

from __future__ import annotations

import hashlib
import re
import tomllib
from pathlib import Path
from typing import Any

import pytest

from tests.house.tree import PACKAGE, named
from tools import vendor_js

STATIC = PACKAGE / "web" / "static"
VENDOR = STATIC / "vendor"
LIST = VENDOR / "VENDOR.toml"
WORDS_OF_A_LICENCE = {
    "0BSD": "Permission to use, copy, modify, and/or distribute this software",
    "MIT": "The above copyright notice and this permission notice shall be included",
    "OFL-1.1": "SIL OPEN FONT LICENSE Version 1.1",
}
"""What the text of each licence says, as its own text is published."""

ADDRESS = re.compile(r"""(?:https?:)?//[\w-]+(?:\.[\w-]+)+[^\s"'`)]*""")
NAMESPACE = re.compile(r"http://www\.w3\.org/(?:1999/xhtml|2000/svg|1999/xlink|XML/1998/namespace)$")
"""Names of markup languages: they look like addresses and are never asked for."""


def packages() -> list[dict[str, Any]]:
    found = tomllib.loads(LIST.read_text(encoding="utf-8"))["package"]
    assert isinstance(found, list)
    return found


def files() -> dict[str, str]:
    """Path -> the sum it must have."""
    return {file["path"]: file["sha256"] for package in packages() for file in package["file"]}


def outside(text: str) -> list[str]:
    """Addresses of other hosts that a script or sheet names, but for names of markup languages.

    A comment is taken out first: what it says is read by people only.
    """
    bare = re.sub(r"/\*.*?\*/|^\s*//.*?$", "", text, flags=re.DOTALL | re.MULTILINE)
    return [found for found in ADDRESS.findall(bare) if not NAMESPACE.match(found)]


def test_every_file_is_as_listed() -> None:
    for path, wanted in files().items():
        assert hashlib.sha256((VENDOR / path).read_bytes()).hexdigest() == wanted, path


def test_every_file_is_listed() -> None:
    there = {path.relative_to(VENDOR).as_posix() for path in VENDOR.rglob("*") if path.is_file()}
    assert there - {LIST.name} == set(files())


@pytest.mark.parametrize("package", packages(), ids=lambda package: str(package["name"]))
def test_every_package_brings_its_licence(package: dict[str, Any]) -> None:
    text = (VENDOR / package["licence_text"]).read_text(encoding="utf-8")
    assert WORDS_OF_A_LICENCE[package["licence"]] in text
    assert package["licence_text"] in {file["path"] for file in package["file"]}


def test_the_list_and_the_tool_agree() -> None:
    listed = {(each["name"], each["version"], each["licence"], each["integrity"]) for each in packages()}
    pinned = {(each.name, each.version, each.licence, each.integrity) for each in vendor_js.PACKAGES}
    assert listed == pinned


@pytest.mark.parametrize(
    "path", sorted(p for p in STATIC.rglob("*") if p.suffix in {".js", ".css", ".html", ".svg"}), ids=named
)
def test_no_outside_host_is_named(path: Path) -> None:
    assert not outside(path.read_text(encoding="utf-8"))


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("import x from 'https://cdn.example/x.js'", 1),
        ("@import url(//fonts.example.org/a.css)", 1),
        ("fetch(`http://example.com/`)", 1),
        ("make('http://www.w3.org/2000/svg')", 0),
        ("load('http://www.w3.org/2000/svg/script.js')", 1),
        ("/* see https://example.com */ x()", 0),
        ("const a = b // 2.5", 0),
        ("import x from './three.js'", 0),
    ],
)
def test_planted_addresses_are_found(text: str, found: int) -> None:
    assert len(outside(text)) == found


def test_scripts_import_only_what_is_there() -> None:
    """What our scripts take from a carried script is among the names it gives."""
    wanted = re.compile(r"import\s*\{([^}]*)\}\s*from\s*[\"\']\./vendor/([\w.]+)[\"\']")
    taken = [found for path in STATIC.glob("*.js") for found in wanted.findall(path.read_text("utf-8"))]
    for names, script in taken:
        given = (VENDOR / script).read_text(encoding="utf-8").rpartition("export{")[2]
        offered = {part.split(" as ")[-1].strip(" };\n") for part in given.split(",")}
        assert {name.split(" as ")[0].strip() for name in names.split(",") if name.strip()} <= offered
