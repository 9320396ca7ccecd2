"""What the pages of forms show: groups, parts with the way to them, parts to be added."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import count
from urllib.parse import quote, urlencode

from tidestead.core.errors import PlanError
from tidestead.core.units import System
from tidestead.plan.editing import path_of
from tidestead.plan.forms import Choice, Draft, Field, Form, Group, Sheet, blank_form, form_at, sheet_of
from tidestead.plan.forms.landing import ways_up
from tidestead.plan.parts import copied
from tidestead.plan.statements import dotted
from tidestead.web.bench import Bench
from tidestead.web.tables_told import unpriced

BOOK = "book"
BOOK_COLUMNS = ("of", "sold", "price", "basis", "dated", "owned")
_TOLD = 5
"""Values that tell one part from another in a list."""


@dataclass(frozen=True)
class Line:
    """One named part in a list of them. `copy`: where a copy of it is made; empty where none may be.

    `cells`: what a row of the price book has in the columns of its table; none of other parts.
    """

    form: Form
    href: str
    words: str
    copy: str
    cells: tuple[str, ...] = ()


@dataclass(frozen=True)
class PartPage:
    """The page of one table: the way to it, its form, and what was asked before."""

    form: Form
    way: tuple[tuple[str, str], ...]
    up: str
    back: str
    """The question that led here; empty where none did."""
    copy: str
    fixed: bool
    """Whether its name is one of a few that it may have, so that it cannot be called otherwise."""


@dataclass(frozen=True)
class NewPage:
    """The page of a part that is to be added. `like` is the part it is a copy of, or empty.

    `named`: its name is free to choose.
    """

    form: Form
    way: tuple[tuple[str, str], ...]
    up: str
    like: str
    table: str
    named: bool


def draft_of(bench: Bench) -> Draft:
    """The plan as it stands in its file."""
    return Draft.of(bench.text, bench.path.name)


def sheet_on(bench: Bench) -> Sheet:
    """Every form, with what the answers take where the plan is silent."""
    assumed = {
        one.key: one.value
        for standing in bench.standings.values()
        if standing.answer is not None
        for one in standing.answer.assumptions
    }
    return _sheet(bench.text, bench.path.name, tuple(sorted(assumed.items())), bench.system)


@lru_cache(maxsize=4)
def _sheet(text: str, name: str, assumed: tuple[tuple[str, str], ...], system: System) -> Sheet:
    return sheet_of(Draft.of(text, name), dict(assumed), system)


def href_of(key: str) -> str:
    """The address of the page of a table."""
    return f"/plan/part/{quoted(key)}"


def quoted(key: str) -> str:
    """A key as it stands in an address."""
    return quote(key, safe="")


def key_under(table: str, name: str) -> str:
    """The key of a part by its table and its name; the table itself where there is no name. Raises a PlanError."""
    return dotted((*path_of(table), name.strip())) if name.strip() else table


def words_of(form: Form) -> str:
    """A part in a few words: what is typed in it first."""
    typed = [f"{field.label.lower()} {_first(field)}" for field in form.fields if field.typed]
    more = len(typed) - _TOLD
    return ", ".join(typed[:_TOLD]) + (f" and {more} more" if more > 0 else "")


def _first(field: Field) -> str:
    lines = field.typed.splitlines()
    return lines[0] if len(lines) == 1 else f"{lines[0]} and {len(lines) - 1} more"


def lines_of(form: Form) -> tuple[Line, ...]:
    """The named parts of a table, each in a line."""
    return tuple(
        Line(
            part,
            href_of(part.key),
            words_of(part),
            copy_href(form, part),
            _cells_of(part) if form.key == BOOK else (),
        )
        for part in form.parts
    )


def _cells_of(form: Form) -> tuple[str, ...]:
    """What a row of the price book has in the columns of its table."""
    typed = {field.name: _first(field) if field.typed else "" for field in form.fields}
    return tuple(typed.get(name, "") for name in BOOK_COLUMNS)


def copy_href(table: Form, part: Form) -> str:
    """Where a copy of one of the parts of a table is made, under a name that is free."""
    if not part.can_copy:
        return ""
    names = {one.name for one in table.parts}
    more = next(iter(table.can_add), None)
    if more is not None and more.only:
        name = next(iter(more.names), "")
    else:
        name = next(name for at in count(2) if (name := f"{part.name[:36]}-{at}") not in names)
    return f"/plan/new/{quoted(table.key)}?{urlencode({'name': name, 'like': part.key})}" if name else ""


def group_of(sheet: Sheet, key: str) -> Group | None:
    """The group in which a table stands."""
    return next((group for group in sheet.groups for form in group.all_forms if form.key == key), None)


def nearest_form(sheet: Sheet, key: str) -> Form | None:
    """The table at a key, else the nearest above it that the plan has."""
    return next((form for way in ways_up(key) if (form := form_at(sheet, way)) is not None), None)


def part_page(bench: Bench, key: str, back: str) -> PartPage | None:
    """The page of a table; None where the plan has none at this very key."""
    sheet = sheet_on(bench)
    form = form_at(sheet, key)
    if form is None:
        return None
    way = tuple(_way(sheet, key))
    table = next((one for one in sheet.all_forms if any(part.key == key for part in one.parts)), None)
    gathered = table if table is not None and table.gathers else None
    return PartPage(
        form,
        way,
        way[-1][0],
        back if back in bench.standings else "",
        copy_href(gathered, form) if gathered is not None else "",
        gathered is not None and any(more.only for more in gathered.can_add),
    )


def is_there(bench: Bench, key: str) -> bool:
    """Whether the plan has a table at a key."""
    return form_at(sheet_on(bench), key) is not None


def new_page(bench: Bench, key: str, like: str, of: str = "") -> NewPage | None:
    """The page on which a part is added; None where none may stand at the key. Raises a PlanError.

    `of` is what a row of the price book is to be of.
    """
    form = new_form(bench, key, like)
    if form is not None and not like and path_of(key)[0] == BOOK:
        form = _row_of(bench, form, of)
    if form is None:
        return None
    way = tuple(_way(sheet_on(bench), key))
    table = dotted(path_of(key)[:-1])
    free = {
        more.key for one in sheet_on(bench).all_forms for more in one.can_add if more.named and not more.only
    }
    return NewPage(form, way, way[-1][0], like, table, table in free)


def _row_of(bench: Bench, form: Form, of: str) -> Form:
    """The form of a new row of the price book: what has no price yet is offered first, `of` is filled in."""
    bare = unpriced(bench.standings["cost"].answer)

    def filled(field: Field) -> Field:
        if field.name != "of":
            return field
        first = tuple(Choice(one, one) for one in bare)
        rest = tuple(one for one in field.choices if one.value not in bare)
        return replace(field, typed=of, choices=(*first, *rest))

    return replace(form, fields=tuple(map(filled, form.fields)))


def new_form(bench: Bench, key: str, like: str) -> Form | None:
    """The form of a part that is to be added, empty or as a copy of one that is there. Raises a PlanError."""
    draft = draft_of(bench)
    if draft.at(path_of(key)) is not None:
        return None
    if not like:
        return blank_form(draft, key, bench.system)
    return form_at(_sheet(copy_of(bench.text, like, key), bench.path.name, (), bench.system), key)


def copy_of(text: str, like: str, key: str) -> str:
    """The text with a part once more. Raises a PlanError where the new one would not stand beside it."""
    path, new = path_of(like), path_of(key)
    if path[:-1] != new[:-1]:
        raise PlanError(())
    return copied(text, like, str(new[-1]))


def _way(sheet: Sheet, key: str) -> Iterator[tuple[str, str]]:
    """From the whole plan to what a table stands in: addresses and titles."""
    yield "/plan", "Your plan"
    above = [form for way in ways_up(key) if way != key and (form := form_at(sheet, way)) is not None]
    group = group_of(sheet, above[-1].key if above else key)
    if group is not None:
        yield f"/plan/{group.name}", group.title
    for form in reversed(above):
        if group is None or form is not above[-1] or form.title != group.title:
            yield href_of(form.key), form.title
