"""Rules about the tests themselves: each one asserts something, and none steps aside without saying why."""

from __future__ import annotations

import ast
from collections.abc import Iterator

_Function = ast.FunctionDef | ast.AsyncFunctionDef
_JUDGES = {"raises", "warns", "fail"}


def faults(tree: ast.Module) -> list[str]:
    """Everything wrong with one test module."""
    found = [f"{node.lineno}: {node.name} asserts nothing" for node in _tests(tree) if not _judges(node)]
    asserts = [node for node in ast.walk(tree) if isinstance(node, ast.Assert)]
    found += [f"{node.lineno}: asserts a constant" for node in asserts if _is_empty_assert(node)]
    for node in ast.walk(tree):
        if isinstance(node, ast.Call):
            found += [f"{node.lineno}: {why}" for why in _stepping_aside(node)]
        elif isinstance(node, ast.Attribute) and node.attr in {"skip", "xfail"} and _is_mark(node):
            found += [] if _is_called(node, tree) else [f"{node.lineno}: {node.attr} without a reason"]
    return found


def _tests(tree: ast.Module) -> Iterator[_Function]:
    for node in ast.walk(tree):
        if isinstance(node, _Function) and node.name.startswith("test"):
            yield node


def _judges(test: _Function) -> bool:
    """An assert, a raise that is waited for, or a call of something that checks."""
    for node in ast.walk(test):
        if isinstance(node, ast.Assert):
            return True
        if isinstance(node, ast.Call):
            name = _name(node.func)
            if name in _JUDGES or name.startswith(("check", "assert_", "run_state_machine")):
                return True
    return False


def _is_empty_assert(node: ast.Assert) -> bool:
    """`assert True`, `assert 1`, `assert x == x`, `assert (a, "words")`: what cannot fail."""
    if isinstance(node.test, ast.Constant):
        return bool(node.test.value)
    if isinstance(node.test, ast.Tuple):
        return bool(node.test.elts)
    if isinstance(node.test, ast.Compare) and len(node.test.comparators) == 1:
        same = isinstance(node.test.ops[0], (ast.Eq, ast.Is, ast.LtE, ast.GtE))
        return (
            same
            and ast.dump(node.test.left) == ast.dump(node.test.comparators[0])
            and _is_plain(node.test.left)
        )
    return False


def _is_plain(node: ast.expr) -> bool:
    """No call inside: calling twice and comparing can fail."""
    return not any(isinstance(inner, ast.Call) for inner in ast.walk(node))


def _stepping_aside(node: ast.Call) -> Iterator[str]:
    """Skips and expected failures that do not say why, and ways aside that are not allowed at all."""
    name, given = _name(node.func), {key.arg: key.value for key in node.keywords}
    if name == "importorskip":
        yield "importorskip: what a test needs is installed, not hoped for"
    elif name == "xfail" and not _is_mark(node.func):
        yield "xfail() inside a test hides whatever stands after it; mark the case"
    elif name == "skip":
        words = given.get("reason") or given.get("msg") or (node.args[0] if node.args else None)
        if not _says_something(words):
            yield "skip without a reason"
    elif name == "skipif" and not _says_something(given.get("reason")):
        yield "skipif without a reason"
    elif name == "xfail":
        strict = given.get("strict")
        if not _says_something(given.get("reason")):
            yield "xfail without a reason"
        if not (isinstance(strict, ast.Constant) and strict.value is True):
            yield "xfail that is not strict: a case that comes right must say so"


def _says_something(words: ast.expr | None) -> bool:
    return words is not None and not (isinstance(words, ast.Constant) and not words.value)


def _is_mark(node: ast.expr) -> bool:
    return isinstance(node, ast.Attribute) and _name(node.value) == "mark"


def _is_called(node: ast.Attribute, tree: ast.Module) -> bool:
    return any(isinstance(outer, ast.Call) and outer.func is node for outer in ast.walk(tree))


def _name(node: ast.expr) -> str:
    if isinstance(node, ast.Attribute):
        return node.attr
    return node.id if isinstance(node, ast.Name) else ""
