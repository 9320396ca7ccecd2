"""Bring in what the page carries of other people's work: scripts and fonts, each with its licence.

    python tools/vendor_js.py [FOLDER]

For developers only, when a version changes: it needs npm and the network, and writes into FOLDER (a scratch place)
and into `src/tidestead/web/static/vendor`. What it writes is committed, so nobody who installs or runs Tidestead
needs npm. Each package is taken at one version and refused unless its content is the one pinned here.
"""

from __future__ import annotations

import base64
import hashlib
import json
import shutil
import subprocess
import sys
import tarfile
import tempfile
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
VENDOR = ROOT / "src" / "tidestead" / "web" / "static" / "vendor"
BUNDLER = "esbuild@0.28.2"
NAMED = (
    "BufferGeometry",
    "Color",
    "Float32BufferAttribute",
    "LineBasicMaterial",
    "LineSegments",
    "Mesh",
    "MeshBasicMaterial",
    "PerspectiveCamera",
    "Raycaster",
    "Scene",
    "Spherical",
    "Vector2",
    "Vector3",
    "WebGLRenderer",
)
"""The classes of three that round.js uses; a class that is not named here does not reach the page."""


@dataclass(frozen=True)
class Package:
    """One package at one version: what is taken from it, under what licence, and the content it must have."""

    name: str
    version: str
    licence: str
    integrity: str
    taken: tuple[tuple[str, str], ...] = ()
    """Files copied as they are: (path in the package, path under the vendor folder)."""
    entry: str = ""
    """The script a small module is made from, in the package's own paths; empty where none is made."""
    module: str = ""
    """Where that module goes, under the vendor folder."""

    @property
    def short(self) -> str:
        """The name as a file may carry it."""
        return self.name.rsplit("/", 1)[-1]


PACKAGES = (
    Package(
        "idiomorph",
        "0.8.0",
        "0BSD",
        "sha512-R47JBL+6jHDQvcnbppIUtXXcxi5h6+wuCEEZXnRhUltsgzPFKzThL5PuHppP9ypJuy+7WawcY1TsSBD/iQbMhw==",
        entry='export { Idiomorph } from "./dist/idiomorph.esm.js";',
        module="idiomorph.js",
    ),
    Package(
        "three",
        "0.187.0",
        "MIT",
        "sha512-Qiu7R+Cmh8CstZsY1uJOSWnVlfo7ZtNLV7mF8Jltk3LB3AtDu9cRZlcnRKkAk8Y4z6KKw35z7Y7Urd7jWY8etA==",
        entry=f'export {{ {", ".join(NAMED)} }} from "./build/three.module.js";\n'
        'export { OrbitControls } from "./examples/jsm/controls/OrbitControls.js";',
        module="three.js",
    ),
    Package(
        "@fontsource-variable/source-serif-4",
        "5.3.1",
        "OFL-1.1",
        "sha512-4Rtay22SC4lMvw11r/+9kxANB6P3M0X8s1NudBC2v0J1KU2y3DcMoNcT3lBoZ/CqLirzf+StlO6UlJilyrvaUg==",
        (("files/source-serif-4-latin-wght-normal.woff2", "fonts/source-serif-4.woff2"),),
    ),
    Package(
        "@fontsource-variable/source-sans-3",
        "5.3.1",
        "OFL-1.1",
        "sha512-u0p5Z/PM2e1uxYOMiodLM6NVzxHwULcB6Oi7QSr2WU/sdoLBFP/BeOZ3YYHeJ6rHsjPZA1nZweZVaV7sf2MAyQ==",
        (("files/source-sans-3-latin-wght-normal.woff2", "fonts/source-sans-3.woff2"),),
    ),
)


def main(folder: Path) -> None:
    """Bring every package in anew and write the list of them."""
    folder.mkdir(parents=True, exist_ok=True)
    if VENDOR.exists():
        shutil.rmtree(VENDOR)
    told = [_brought(package, folder) for package in PACKAGES]
    (VENDOR / "VENDOR.toml").write_text("\n".join([_head(), *told]), encoding="utf-8")
    for path in sorted(VENDOR.rglob("*")):
        if path.is_file():
            print(f"{path.stat().st_size:9,d}  {path.relative_to(VENDOR).as_posix()}")


def _head() -> str:
    return "# What the page carries of other people's work. Written by tools/vendor_js.py; a house test compares.\n"


def _brought(package: Package, folder: Path) -> str:
    """The package copied in, and its entry in the list."""
    unpacked = _unpacked(package, folder)
    files = [(target, "as published") for _, target in package.taken]
    for source, target in package.taken:
        _copied(unpacked / source, VENDOR / target)
    if package.entry:
        _bundled(package, unpacked, folder)
        files.append((package.module, f"made small by {BUNDLER} from what tools/vendor_js.py names"))
    licence = f"licences/{package.short}.txt"
    _copied(unpacked / "LICENSE", VENDOR / licence)
    files.append((licence, "as published"))
    lines = ["[[package]]", *(f"{key} = {json.dumps(value)}" for key, value in _facts(package, licence))]
    for path, how in files:
        lines += ["[[package.file]]", f"path = {json.dumps(path)}", f"made = {json.dumps(how)}"]
        lines += [f'sha256 = "{hashlib.sha256((VENDOR / path).read_bytes()).hexdigest()}"']
    return "\n".join(lines) + "\n"


def _facts(package: Package, licence: str) -> list[tuple[str, str]]:
    return [
        ("name", package.name),
        ("version", package.version),
        ("licence", package.licence),
        ("licence_text", licence),
        ("integrity", package.integrity),
    ]


def _copied(source: Path, target: Path) -> None:
    target.parent.mkdir(parents=True, exist_ok=True)
    shutil.copyfile(source, target)


def _unpacked(package: Package, folder: Path) -> Path:
    """The package's files, once its content has been found to be the one pinned."""
    place = folder / f"{package.short}-{package.version}"
    told = _npm("pack", f"{package.name}@{package.version}", "--json", "--pack-destination", str(folder))
    archive = folder / json.loads(told)[0]["filename"]
    sort, _, wanted = package.integrity.partition("-")
    found = base64.b64encode(hashlib.new(sort, archive.read_bytes()).digest()).decode()
    if found != wanted:
        sys.exit(
            f"{package.name} {package.version}: the content is {sort}-{found}, pinned is {sort}-{wanted}."
        )
    with tarfile.open(archive) as opened:
        opened.extractall(place, filter="data")
    return place / "package"


def _bundled(package: Package, unpacked: Path, folder: Path) -> None:
    """One small module of what the package's entry names."""
    entry = unpacked / "entry.js"
    entry.write_text(package.entry, encoding="utf-8")
    _npm("install", "--prefix", str(folder), "--no-save", "--no-audit", "--no-fund", BUNDLER)
    options = ["--bundle", "--minify", "--format=esm", "--target=es2020", "--legal-comments=none"]
    command = [
        str(folder / "node_modules" / ".bin" / "esbuild"),
        str(entry),
        *options,
        f"--banner:js=/* {package.name} {package.version}, {package.licence}: licences/{package.short}.txt */",
        f"--alias:three={unpacked / 'build' / 'three.module.js'}",
        f"--outfile={VENDOR / package.module}",
    ]
    subprocess.run(command, check=True, cwd=unpacked)


def _npm(*words: str) -> str:
    npm = shutil.which("npm") or sys.exit("npm is not installed; this tool is for developers and needs it.")
    return subprocess.run([npm, *words], check=True, capture_output=True, text=True).stdout


if __name__ == "__main__":
    main(Path(sys.argv[1] if len(sys.argv) > 1 else tempfile.mkdtemp()).resolve())
