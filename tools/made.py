"""Write what is made in docs: theory pages, sources, the keys of a plan, the picture of the README.

    python tools/made.py

Run it after a change to a docstring in physics or in the plan's model, a catalog figure, a published case, an
example or a drawing.
A house test compares.
"""

from __future__ import annotations

import dataclasses
import inspect
import sys
import textwrap
import tomllib
import typing
from collections import Counter
from collections.abc import Callable, Iterator
from pathlib import Path
from types import ModuleType
from typing import Any

ROOT = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT))

from tests.house import formulas, proofs, tree  # noqa: E402 - the tree is put on the path first
from tidestead import desk  # noqa: E402 - as above
from tidestead.core.dims import unit_of  # noqa: E402 - as above
from tidestead.core.source import Known  # noqa: E402 - as above
from tidestead.plan import load  # noqa: E402 - as above
from tidestead.report import svg  # noqa: E402 - as above
from tools.plan_keys import plan_keys  # noqa: E402 - as above

DOCS = ROOT / "docs"
PICTURE, DRAWN = DOCS / "pictures" / "packhouse-south-wall.svg", "structure.reef.south.elevation"
MADE = "<!-- made by tools/made.py; change the docstring or the catalog, then run it again -->\n"
THEORY = """# Theory: {title}

{about}

Every formula below stands in the file named over it, with the unit of each argument. *Held to* says which
printed values or second ways of computing it is compared with in the tests.
"""
SOURCES = """# Sources

Where every number comes from and how well it is known, in the words the program prints beside a figure:

| word | meaning |
|---|---|
| source seen | we read it in the work named |
| quoted by another | we read it where somebody else quotes the work |
| from memory | recalled; check it in the work before you lean on it |
| common practice | the trade does it so; no source is known |
| computed | worked out here |
| yours | it stands in your plan |
"""


def pages() -> dict[Path, str]:
    """Every page that is made, with its text."""
    made = {DOCS / "theory" / f"{subject}.md": theory(modules) for subject, modules in subjects().items()}
    keys = DOCS / "plan-keys.md"
    return {**made, DOCS / "sources.md": sources(), keys: MADE + "\n" + plan_keys(), PICTURE: picture()}


def picture() -> str:
    """The wall with the long window of the example, as the program draws it."""
    example = load(ROOT / "examples" / "packhouse.toml")
    scenes = desk.answer(example, ["structure"])["structure"].scenes
    return svg.draw(next(scene for scene in scenes if scene.id == DRAWN), example.plan.show)


def subjects() -> dict[str, list[ModuleType]]:
    """Modules with formulas, by subject: the first name below physics."""
    found: dict[str, list[ModuleType]] = {}
    for module in tree.modules_of("tidestead.physics"):
        names = module.__name__.split(".")[2:]
        if names and not formulas.is_private(module):
            found.setdefault(names[0], []).append(module)
    return found


def theory(modules: list[ModuleType]) -> str:
    """One subject's page."""
    title, about = told(modules[0])
    parts = [
        MADE,
        THEORY.format(title=modules[0].__name__.split(".")[-1], about=f"{title}\n\n{about}".strip()),
    ]
    for module in modules:
        functions = formulas.public_functions(module)
        if not functions:
            continue
        if module is not modules[0]:
            title, about = told(module)
            parts.append(f"## {title.rstrip('.')}\n\n{about}".rstrip() + "\n")
        path = tree.named(Path(module.__file__ or ""))
        parts.append(f"`{path}`\n")
        parts += [formula(function) for function in functions]
    return "\n".join(parts)


def told(module: ModuleType) -> tuple[str, str]:
    """A module's docstring as a heading and what follows."""
    heading, _, rest = (inspect.getdoc(module) or module.__name__).partition("\n\n")
    return " ".join(heading.split()), rest


def formula(function: Callable[..., Any]) -> str:
    """One formula: its words, its arguments with units, where it comes from, where it ends, what holds it."""
    text = inspect.getdoc(function) or ""
    lines = [f"### {function.__name__.replace('_', ' ')}\n", signature(function), body(text)]
    lines.append(f"- *Source:* {formulas.owed_text(text, 'Source')}")
    lines.append(f"- *Valid:* {formulas.owed_text(text, 'Valid')}")
    lines.append(f"- *Held to:* {held_to(function)}\n")
    return "\n".join(lines)


def signature(function: Callable[..., Any]) -> str:
    """`name(argument [unit], ...) -> [unit]`"""
    bare = inspect.unwrap(function)
    hints = typing.get_type_hints(bare, include_extras=True)
    arguments = [f"{name}{unit(hints[name])}" for name in inspect.signature(bare).parameters]
    given = hints["return"]
    record = dataclasses.is_dataclass(given) and given.__module__.startswith("tidestead")
    fields = typing.get_type_hints(given, include_extras=True) if record else {}
    listed = ", ".join(f"{name}{unit(hint)}" for name, hint in fields.items())
    result = (unit(given) or " arrays") + (f": {listed}" if listed else "")
    return f"`{function.__name__}({', '.join(arguments)})` gives{result}\n"


def unit(hint: Any) -> str:
    """A type's unit in brackets; the name of a record; nothing for words, switches and arrays."""
    written = unit_of(hint)
    if written is not None:
        return f" [{'-' if written == '1' else written}]"
    return f" {hint.__name__}" if inspect.isclass(hint) and hint.__module__.startswith("tidestead") else ""


def body(docstring: str) -> str:
    """The docstring without its Source and Valid lines, formulas set apart."""
    blocks: list[str] = []
    for block in docstring.split("\n\n"):
        kept = "\n".join(_without_owed(block.split("\n")))
        if not kept.strip():
            continue
        is_formula = all(line.startswith("    ") or not line for line in kept.split("\n"))
        blocks.append(f"```text\n{textwrap.dedent(kept)}\n```" if is_formula else kept)
    return "\n\n".join(blocks) + "\n"


def _without_owed(lines: list[str]) -> Iterator[str]:
    dropping = False
    for line in lines:
        if line.startswith(("Source:", "Valid:")):
            dropping = True
        elif not line.startswith(" "):
            dropping = False
        if not dropping:
            yield line


def held_to(function: Callable[..., Any]) -> str:
    """The printed values and referees a formula is compared with."""
    address = proofs.address(function)
    printed = Counter(f"{case.source}, {case.place}" for case in PRINTED.get(address, []))
    told_of = [f"{work} ({count})" if count > 1 else work for work, count in printed.items()]
    told_of += [f"second way in `{name}`" for name in REFEREED.get(address, [])]
    return "; ".join(told_of) or "nothing yet"


def sources() -> str:
    """The page of sources: catalog figures, formulas, printed values."""
    parts = [MADE, SOURCES, "## Figures of the catalog\n"]
    for path in sorted((tree.PACKAGE / "catalog").rglob("*.toml")):
        parts.append(catalog_part(path))
    parts.append("## Formulas\n\n| formula | source |\n|---|---|")
    for function in proofs.every_formula():
        source = formulas.owed_text(inspect.getdoc(function) or "", "Source")
        parts.append(row(f"`{proofs.address(function).removeprefix('tidestead.physics.')}`", source))
    parts.append("\n## Printed values that formulas are held to\n")
    parts.append("| work | place | known | values |\n|---|---|---|---|")
    cited = Counter((case.source, case.place, case.known) for _, case in proofs.every_case())
    for (work, place, known), count in sorted(cited.items()):
        parts.append(row(work, place, Known[known.upper()].value, str(count)))
    return "\n".join(parts) + "\n"


def catalog_part(path: Path) -> str:
    """One catalog file: its sources, and which rows lean on each."""
    catalog = tomllib.loads(path.read_text(encoding="utf-8"))
    lines = [f"### {catalog.get('about', path.stem)}\n", f"`{tree.named(path)}`\n"]
    lines += ["| work | place | known | used for |", "|---|---|---|---|"]
    for key, source in catalog.get("sources", {}).items():
        used = [name for name, entry in catalog.get("rows", {}).items() if _cites(entry, key)]
        known = Known[source["known"].upper()].value
        lines.append(row(source["work"], source.get("place", ""), known, ", ".join(used)))
    return "\n".join(lines) + "\n"


def _cites(part: Any, key: str) -> bool:
    if isinstance(part, dict):
        return part.get("source") == key or any(_cites(inner, key) for inner in part.values())
    return isinstance(part, list) and any(_cites(inner, key) for inner in part)


def row(*cells: str) -> str:
    return "| " + " | ".join(cell.replace("|", "\\|").replace("\n", " ") for cell in cells) + " |"


def refereed() -> dict[str, list[str]]:
    """Formulas by address, with the modules of tests/agree that call them."""
    found: dict[str, list[str]] = {}
    for path in sorted((tree.TESTS / "agree").glob("test_*.py")):
        for address in sorted(proofs.called_in(path)):
            found.setdefault(address, []).append(tree.named(path))
    return found


PRINTED = proofs.proven_by_print()
REFEREED = refereed()


def main() -> None:
    """Write every page that has changed, and remove pages of subjects that are gone."""
    wanted = pages()
    for path in (DOCS / "theory").glob("*.md"):
        if path not in wanted:
            path.unlink()
    for path, text in wanted.items():
        path.parent.mkdir(parents=True, exist_ok=True)
        if not path.exists() or path.read_text(encoding="utf-8") != text:
            path.write_text(text, encoding="utf-8")
            print(f"written: {tree.named(path)}")


if __name__ == "__main__":
    main()
