"""Rules about the code itself: sizes, names, excepts, dead ends, unused names, inheritance.

Each rule takes one file's syntax tree (or a few) and gives complaints with their line.
"""

from __future__ import annotations

import ast
import inspect
import io
import re
import tokenize
from collections.abc import Iterable, Iterator
from itertools import pairwise
from types import ModuleType
from typing import NamedTuple

MODULE_LINES = 400
FUNCTION_LINES = 50
NAMELESS = {"utils", "util", "helpers", "helper", "misc", "base", "common", "stuff"}
"""Module names that say nothing about what is inside."""

_Function = ast.FunctionDef | ast.AsyncFunctionDef
_SILENCED = re.compile(r"#\s*(noqa(:\s*[A-Z]+[0-9]+(,\s*[A-Z]+[0-9]+)*)?|type:\s*ignore(\[[\w, -]*\])?)")
LEAST_WORDS = 2
"""Words of a reason: one is a name and no reason."""

_BROAD = {"Exception", "BaseException"}


def size_faults(text: str, tree: ast.Module) -> list[str]:
    """Modules and functions that have grown too long to be read in one go."""
    lines = len(text.splitlines())
    found = [f"1: {lines} lines, more than {MODULE_LINES}"] if lines > MODULE_LINES else []
    for node in _functions(tree):
        length = (node.end_lineno or node.lineno) - node.lineno + 1
        if length > FUNCTION_LINES:
            found.append(f"{node.lineno}: {node.name} has {length} lines, more than {FUNCTION_LINES}")
    return found


def except_faults(tree: ast.Module) -> list[str]:
    """Excepts that catch everything, or catch broadly and then say nothing."""
    found = []
    for node in ast.walk(tree):
        if isinstance(node, ast.ExceptHandler) and node.type is None:
            found.append(f"{node.lineno}: bare except")
        elif isinstance(node, ast.ExceptHandler) and _is_broad(node.type) and _is_silent(node.body):
            found.append(f"{node.lineno}: a broad except that hides what happened")
        elif isinstance(node, ast.Call) and _last_name(node.func) == "suppress":
            found += [f"{node.lineno}: suppresses everything" for kind in node.args if _is_broad(kind)]
    return found


def _is_broad(kind: ast.expr | None) -> bool:
    kinds = kind.elts if isinstance(kind, ast.Tuple) else [kind] if kind is not None else []
    return any(_last_name(one) in _BROAD for one in kinds)


def _is_silent(body: list[ast.stmt]) -> bool:
    """Nothing is done, called or raised: only pass, continue, break, an ellipsis or a constant given back."""
    for step in body:
        told = isinstance(step, (ast.Pass, ast.Continue, ast.Break))
        told = told or (isinstance(step, ast.Expr) and isinstance(step.value, ast.Constant))
        told = told or (isinstance(step, ast.Return) and isinstance(step.value, (ast.Constant, type(None))))
        if not told:
            return False
    return True


def _last_name(node: ast.expr | None) -> str:
    if isinstance(node, ast.Attribute):
        return node.attr
    return node.id if isinstance(node, ast.Name) else ""


def silenced_faults(text: str) -> list[str]:
    """Checks switched off for a line, with no word beside it that says why."""
    found = []
    for token in tokenize.generate_tokens(io.StringIO(text).readline):
        if token.type == tokenize.COMMENT and (off := _SILENCED.search(token.string)):
            why = token.string[off.end() :].strip(" #-:")
            if len(why.split()) < LEAST_WORDS:
                found.append(f"{token.start[0]}: {off.group().strip('# ')} without a reason beside it")
    return found


def star_faults(tree: ast.Module) -> list[str]:
    """Imports that bring in whatever there is."""
    return [
        f"{node.lineno}: star import"
        for node in ast.walk(tree)
        if isinstance(node, ast.ImportFrom) and any(name.name == "*" for name in node.names)
    ]


def annotations_faults(text: str, tree: ast.Module) -> list[str]:
    """Modules that annotate anything read annotations late, so that one rule holds for all."""
    annotated = (*_Function.__args__, ast.AnnAssign)
    if "from __future__ import annotations" in text:
        return []
    wanting = any(isinstance(node, annotated) for node in ast.walk(tree))
    return ["1: no 'from __future__ import annotations'"] if wanting else []


def dead_end_faults(tree: ast.Module) -> list[str]:
    """Statements that cannot be reached, and branches on a constant."""
    found = []
    for node in ast.walk(tree):
        for body in _bodies(node):
            for step, after in pairwise(body):
                if isinstance(step, (ast.Return, ast.Raise, ast.Continue, ast.Break)):
                    found.append(f"{after.lineno}: cannot be reached")
        if isinstance(node, (ast.If, ast.IfExp)) and isinstance(node.test, ast.Constant):
            found.append(f"{node.lineno}: a branch on a constant")
    return found


def _bodies(node: ast.AST) -> Iterator[list[ast.stmt]]:
    for name in ("body", "orelse", "finalbody"):
        body = getattr(node, name, None)
        if isinstance(body, list):
            yield body


class Unused(NamedTuple):
    """A name that nothing uses, and where it stands."""

    where: str
    line: int
    name: str

    def __str__(self) -> str:
        return f"{self.where}:{self.line}: {self.name} is never used"


def unused_names(trees: Iterable[tuple[str, ast.Module]]) -> list[Unused]:
    """Functions, classes and constants at the top of a module, and methods, that nothing in the trees names.

    What a decorator registers (a command, a validator), what a protocol calls by name (`__init__`) and what a
    library calls in a subclass of its own is taken as used. Words in strings count: `__all__`, forward types.
    """
    trees = list(trees)
    used = {name for _, tree in trees for name in used_names(tree)}
    return [
        Unused(where, line, name)
        for where, tree in trees
        for name, line in _defined_names(tree)
        if name not in used and not (name.startswith("__") and name.endswith("__"))
    ]


def _defined_names(tree: ast.Module) -> Iterator[tuple[str, int]]:
    for node in tree.body:
        if isinstance(node, (ast.FunctionDef, ast.AsyncFunctionDef, ast.ClassDef)) and not _registered(node):
            yield node.name, node.lineno
        if isinstance(node, ast.ClassDef) and not node.bases:
            yield from ((inner.name, inner.lineno) for inner in node.body if isinstance(inner, _Function))
        targets = node.targets if isinstance(node, ast.Assign) else []
        targets = [node.target] if isinstance(node, ast.AnnAssign) else targets
        yield from ((target.id, node.lineno) for target in targets if isinstance(target, ast.Name))


def _registered(node: _Function | ast.ClassDef) -> bool:
    """Whether a decorator hands the thing to somebody else; caches and dataclasses do not."""
    called = (one.func if isinstance(one, ast.Call) else one for one in node.decorator_list)
    return any(_last_name(one) not in {"cache", "lru_cache", "dataclass", "njit"} for one in called)


def used_names(tree: ast.Module) -> Iterator[str]:
    """Every name that a file reads, imports, or spells in a short text."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Name) and isinstance(node.ctx, ast.Load):
            yield node.id
        elif isinstance(node, ast.Attribute):
            yield node.attr
        elif isinstance(node, ast.ImportFrom):
            yield from (name.name for name in node.names)
        elif isinstance(node, ast.Constant) and isinstance(node.value, str):
            yield from re.findall(r"[A-Za-z_]\w*", node.value) if len(node.value) < 80 else ()


def deep_classes(modules: Iterable[ModuleType]) -> list[str]:
    """Classes of ours that inherit from a class of ours that inherits from a class of ours."""
    found = []
    for module in modules:
        for value in vars(module).values():
            if inspect.isclass(value) and value.__module__ == module.__name__ and _depth(value) > 1:
                found.append(
                    f"{module.__name__}.{value.__qualname__} inherits through more than one class of ours"
                )
    return found


def _depth(kind: type) -> int:
    """How many classes of our own stand above one, counted along the longest way up."""
    own = [parent for parent in kind.__bases__ if _is_ours(parent)]
    return max((1 + _depth(parent) for parent in own), default=0)


def _is_ours(kind: type) -> bool:
    return kind.__module__.split(".")[0] == "tidestead"


def _functions(tree: ast.Module) -> Iterator[_Function]:
    return (node for node in ast.walk(tree) if isinstance(node, _Function))
