"""tidestead export of what is built: lists as a workbook or as files of values, parts as drawings for a cutter."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

from tidestead.cli import ending, outfile, planfile

if TYPE_CHECKING:
    from tidestead.core.answer import Table
    from tidestead.core.units import System
    from tidestead.plan import LoadedPlan


def workbook_file(plan: str, output: str | None, units: System | None) -> int:
    """Every list of the plan as one workbook."""
    from tidestead.build.cost.listed import TOTALS  # noqa: PLC0415 - help and faults come at once: only when it runs
    from tidestead.report.sheets_xlsx import workbook  # noqa: PLC0415 - help and faults come at once: only when it runs

    loaded, target = planfile.read(plan), Path(output or f"{Path(plan).stem}-lists.xlsx")
    outfile.check(target)
    system = units or loaded.plan.show
    outfile.write(target, workbook(_tables(plan, loaded, system), Path(plan).name, system, TOTALS))
    click.echo(target)
    return ending.DONE


def values_files(plan: str, output: str | None, units: System | None) -> int:
    """Every list of the plan as a file of values, in one folder."""
    from tidestead.build.flats import file_stems  # noqa: PLC0415 - help and faults come at once: only when it runs
    from tidestead.report.sheets_csv import csv_text  # noqa: PLC0415 - help and faults come at once: only when it runs

    loaded, target = planfile.read(plan), _folder(plan, output, "lists")
    system = units or loaded.plan.show
    tables = _tables(plan, loaded, system)
    stems = file_stems(table.id.partition(".")[2].replace(".", "-") for table in tables)
    _write(target, {f"{stem}.csv": csv_text(one, system) for stem, one in zip(stems, tables, strict=True)})
    return ending.DONE


def cutter_files(plan: str, output: str | None, units: System | None) -> int:
    """Every part that is no plain stick as a drawing true to scale, in one folder."""
    from tidestead.build.cost.listed import parts_of  # noqa: PLC0415 - help and faults come at once: only when it runs
    from tidestead.build.flats import flats_of  # noqa: PLC0415 - help and faults come at once: only when it runs
    from tidestead.build.materials import rows_of  # noqa: PLC0415 - help and faults come at once: only when it runs
    from tidestead.report.dxf import drawings  # noqa: PLC0415 - help and faults come at once: only when it runs

    loaded, target = planfile.read(plan), _folder(plan, output, "parts")
    flats = flats_of(parts_of(loaded.plan), units or loaded.plan.show, rows_of(loaded.plan))
    if not flats:
        raise _bare(plan, "part that is cut to a drawing")
    _write(target, {f"{stem}.dxf": text for stem, text in drawings(flats).items()})
    return ending.DONE


def _tables(plan: str, loaded: LoadedPlan, system: System) -> tuple[Table, ...]:
    """What the answer on cost has in tables, then every trade's own list with all its columns."""
    from tidestead import desk  # noqa: PLC0415 - help and faults come at once: only when it runs
    from tidestead.build.cost.listed import lists_of  # noqa: PLC0415 - help and faults come at once: only when it runs
    from tidestead.build.materials import rows_of  # noqa: PLC0415 - help and faults come at once: only when it runs

    desk.keep_on_disk()
    purchase = desk.facts(loaded, "cost").purchase
    whole = lists_of(purchase, system, rows_of(loaded.plan))
    names = {table.id for table in whole}
    told = desk.answer(loaded, ["cost"], system, as_of=date.today())["cost"].tables
    tables = (*(table for table in told if table.id not in names), *whole)
    if not tables:
        raise _bare(plan, "list")
    return tables


def _folder(plan: str, output: str | None, sort: str) -> Path:
    """Where the files go; refused before anything is worked out if it cannot be a folder."""
    target = Path(output or f"{Path(plan).stem}-{sort}")
    if target.exists():
        outfile.folder(target)
    return target


def _write(target: Path, files: dict[str, str]) -> None:
    folder = outfile.folder(target)
    for name, text in files.items():
        outfile.write(folder / name, text)
        click.echo(folder / name)


def _bare(plan: str, what: str) -> ending.WrongInputError:
    return ending.WrongInputError(
        f"{plan} leads to no {what} yet.", "Describe a vessel with its walls in it."
    )
