"""tidestead export: drawings, answers, lists, parts and schemas as files."""

from __future__ import annotations

import json
import re
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

from tidestead.cli import ending, export_lists, outfile, planfile
from tidestead.cli.ask import print_json, units_option

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tidestead.core.answer import Answer
    from tidestead.core.units import System


@click.command(short_help="Write drawings, answers, lists or parts to files.")
@click.argument("plan", required=False)
@click.option(
    "--to",
    "kind",
    type=click.Choice(["svg", "json", "xlsx", "csv", "dxf", "inp", "schema"]),
    required=True,
    help="svg: every drawing; json: every answer; xlsx: every list as one workbook; csv: every list as a file; dxf: "
    "parts to cut; inp: the closed pipes for EPANET; schema: what plans and answers look like.",
)
@click.option(
    "-o", "--output", metavar="DIR or FILE", help="Where to write it; a folder for svg, csv, dxf, schema."
)
@units_option
def export(plan: str | None, kind: str, output: str | None, units: System | None) -> int:
    """Write what PLAN leads to as files. The schemas need no PLAN."""
    if kind == "schema":
        return _schemas(Path(output or "."))
    if plan is None:
        raise ending.WrongInputError("Which plan?", f"Write: tidestead export PLAN --to {kind}")
    if kind == "inp":
        return _pipes(plan, output)
    if kind in _LISTS:
        return _LISTS[kind](plan, output, units)
    return _answers(plan, output) if kind == "json" else _drawings(plan, output, units)


_LISTS = {
    "xlsx": export_lists.workbook_file,
    "csv": export_lists.values_files,
    "dxf": export_lists.cutter_files,
}


def _schemas(folder: Path) -> int:
    from tidestead.plan import json_schema  # noqa: PLC0415 - help and faults come at once: only when it runs
    from tidestead.report.as_json import answers_schema  # noqa: PLC0415 - help and faults come at once: only when it runs

    outfile.folder(folder)
    for name, schema in (("plan.schema.json", json_schema()), ("answers.schema.json", answers_schema())):
        outfile.write(folder / name, json.dumps(schema, indent=1, ensure_ascii=False) + "\n")
        click.echo(folder / name)
    return ending.DONE


def _answers(plan: str, output: str | None) -> int:
    from tidestead import desk  # noqa: PLC0415 - help and faults come at once: only when it runs
    from tidestead.report import as_json  # noqa: PLC0415 - help and faults come at once: only when it runs

    desk.keep_on_disk()
    loaded = planfile.read(plan)
    if output is not None:
        outfile.check(Path(output))
    answers = desk.answer(loaded, None, None, as_of=date.today())
    if output is None:
        print_json(answers, plan)
    else:
        outfile.write(Path(output), as_json.dump(answers, click.format_filename(plan)))
        click.echo(output)
    return ending.DONE


def _pipes(plan: str, output: str | None) -> int:
    from tidestead import desk  # noqa: PLC0415 - help and faults come at once: only when it runs
    from tidestead.report.inp import inp_text  # noqa: PLC0415 - help and faults come at once: only when it runs

    desk.keep_on_disk()
    loaded = planfile.read(plan)
    if output is not None:
        outfile.check(Path(output))
    found = desk.facts(loaded, "flow")
    if found.closed is None:
        why = found.missing[0] if found.missing else "it describes no circuit"
        raise ending.WrongInputError(f"{plan} has no closed pipes that run: {why}.", "Ask it for flow first.")
    text = inp_text(found.closed)
    if output is None:
        click.echo(text, nl=False)
    else:
        outfile.write(Path(output), text)
        click.echo(output)
    return ending.DONE


def _drawings(plan: str, output: str | None, units: System | None) -> int:
    from tidestead import desk  # noqa: PLC0415 - help and faults come at once: only when it runs
    from tidestead.report.svg import draw  # noqa: PLC0415 - help and faults come at once: only when it runs
    from tidestead.report.svg_chart import draw_chart  # noqa: PLC0415 - help and faults come at once: only when it runs

    desk.keep_on_disk()
    loaded = planfile.read(plan)
    system = units or loaded.plan.show
    target = Path(output or f"{Path(plan).stem}-drawings")
    if target.exists():
        outfile.folder(target)
    answers = desk.answer(loaded, None, system, as_of=date.today())
    scenes = [(scene.id, draw(scene, system)) for answer in answers.values() for scene in answer.scenes]
    charts = [(chart.id, draw_chart(chart, system)) for answer in answers.values() for chart in answer.charts]
    drawn = (
        scenes
        + charts
        + [drawing for answer in answers.values() for drawing in _in_the_round(answer, system)]
    )
    if not drawn:
        raise ending.WrongInputError(
            f"{plan} leads to no drawing yet.", "Describe a vessel with its walls in it."
        )
    folder = outfile.folder(target)
    for name, (_, text) in zip(file_names([drawing for drawing, _ in drawn]), drawn, strict=True):
        outfile.write(folder / name, text)
        click.echo(folder / name)
    return ending.DONE


def _in_the_round(answer: Answer, system: System) -> Iterator[tuple[str, str]]:
    """Each view in the round twice: by what things are made of, and by how much of its limit each part uses."""
    from tidestead.report.isometric import draw  # noqa: PLC0415 - help and faults come at once: only when it runs
    from tidestead.report.round_uses import uses_of  # noqa: PLC0415 - help and faults come at once: only when it runs

    for view in answer.rounds:
        yield view.id, draw(view, system)
        yield f"{view.id}.use", draw(view, system, uses=uses_of(view, answer.checks))


def file_names(ids: list[str]) -> list[str]:
    """A safe file name for each drawing; drawings of one name are numbered."""
    names: dict[str, str] = {}
    for drawing in ids:
        stem = re.sub(r"[^a-z0-9._-]+", "-", drawing.lower()).strip(".-") or "drawing"
        name, number = f"{stem}.svg", 1
        while name in names:
            number += 1
            name = f"{stem}-{number}.svg"
        names[name] = drawing
    return list(names)
