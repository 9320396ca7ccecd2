"""tidestead vary: what the answers say while values of the plan are varied."""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

import click

from tidestead.cli import ending, outfile, planfile, waiting
from tidestead.cli.ask import units_option
from tidestead.core.errors import PlanError

if TYPE_CHECKING:
    from tidestead.core.units import System
    from tidestead.plan import LoadedPlan
    from tidestead.report.terminal_sheet import Sheet
    from tidestead.trials.known import Row
    from tidestead.trials.shows import Shown
    from tidestead.trials.vary import Progress, Request, Sweep

LISTED = 40
"""Points listed unless every one is asked for."""
PLOTTED = 2
"""Keys that a plot can show."""


@click.command(short_help="Vary values of a plan and see what becomes of its answers.")
@click.argument("plan")
@click.argument("keys", nargs=-1, required=True, metavar="KEY=VALUES...")
@click.option(
    "--show",
    multiple=True,
    metavar="ID",
    help="A check, a figure (ids with * stand for several) or a subject; may be given several times.",
)
@click.option(
    "--pareto",
    metavar="ID,ID",
    help="Mark the points that no other beats in all of these: little of a figure or of money, much margin of "
    "any other check. "
    "+ID wants much, -ID little.",
)
@click.option(
    "--csv", "csv_file", metavar="FILE", help="Write every point to a file of comma-separated values, SI."
)
@click.option("--plot", "plot_file", metavar="FILE.svg", help="Draw it, over one key or two.")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON object, SI units, instead of text.")
@click.option("--all", "every", is_flag=True, help=f"List every point, not only the first {LISTED}.")
@click.option("--anew", is_flag=True, help="Work every point out again, also those known from earlier.")
@units_option
def vary(
    plan: str,
    keys: tuple[str, ...],
    show: tuple[str, ...],
    pareto: str | None,
    csv_file: str | None,
    plot_file: str | None,
    as_json: bool,
    every: bool,
    anew: bool,
    units: System | None,
) -> int:
    """Vary values of PLAN and show what becomes of checks and figures.

    KEY is a key of the plan, VALUES "60..90 mm:7" for seven values from end to end, or a list such as "2x6,2x8,2x10"
    (with semicolons where a value has a comma in it). Several keys make a grid. What was found is kept: a sweep that
    was stopped goes on where it was.
    """
    for file in filter(None, (csv_file, plot_file)):
        outfile.check(Path(file))
    if plot_file and not pareto and len(keys) > PLOTTED:
        raise ending.WrongInputError("A plot shows one key or two.", "Vary fewer, or leave --plot out.")
    if plot_file and Path(plot_file).suffix.lower() not in ("", ".svg"):
        raise ending.WrongInputError(
            f"A plot is drawn as SVG, not as {Path(plot_file).suffix}.", "Name it FILE.svg."
        )
    loaded = planfile.read(plan)
    from tidestead.report import sweeps  # noqa: PLC0415 - help and faults come at once: only when it runs
    from tidestead.trials.vary import Request  # noqa: PLC0415 - help and faults come at once: only when it runs

    best = tuple(part.strip() for part in pareto.split(",")) if pareto else ()
    sweep = _sweep(loaded, Request(keys, show, best, anew))
    system = units or loaded.plan.show
    if csv_file:
        outfile.write(Path(csv_file), sweeps.as_csv(sweep))
    if plot_file:
        _plot(sweep, Path(plot_file), system)
    if as_json:
        sys.stdout.write(sweeps.as_json(sweep, click.format_filename(plan)))
    else:
        _print(sweep, system, every, len(show) + len(best) == 0)
        for file in filter(None, (csv_file, plot_file)):
            click.echo(f"Written: {click.format_filename(file)}")
    return ending.DONE


def _sweep(loaded: LoadedPlan, request: Request) -> Sweep:
    """The sweep, with a bar where somebody waits for it; what is wrong with the request is told."""
    from tidestead.trials.shows import subjects_of  # noqa: PLC0415 - help and faults come at once: only when it runs
    from tidestead.trials.vary import vary as worked_out  # noqa: PLC0415 - help and faults come at once: only when it runs

    try:
        names = [*request.show, *(name.lstrip("+-") for name in request.best)]
        waiting.announce(subjects_of(names) or ["structure"])
        with _progress() as shown:
            return worked_out(loaded, request, shown)
    except PlanError as error:
        raise ending.WrongInputError("\n".join(str(fault) for fault in error.faults)) from error


@contextmanager
def _progress() -> Iterator[Progress | None]:
    """Tells how many points are done; after Ctrl-C that what is done is kept."""
    last = [0, 0]
    with waiting.bar("points") as bar:

        def show(done: int, of: int) -> None:
            last[:] = done, of
            if bar is not None:
                bar.show("vary", done, of)

        try:
            yield show
        except KeyboardInterrupt:
            if bar is not None:
                bar.clear()
            if last[0]:
                sys.stderr.write(
                    f"Stopped. {last[0]} of {last[1]} points are kept; the same command goes on.\n"
                )
            raise


def _plot(sweep: Sweep, path: Path, system: System) -> None:
    from tidestead.report.svg_chart import draw_chart  # noqa: PLC0415 - help and faults come at once: only when it runs
    from tidestead.trials.sweep_charts import chart_of  # noqa: PLC0415 - help and faults come at once: only when it runs

    chart = chart_of(sweep)
    if chart is not None:
        outfile.write(path, draw_chart(chart, system))


def _print(sweep: Sweep, system: System, every: bool, by_default: bool) -> None:
    from tidestead.report import sweeps, terminal, terminal_tables  # noqa: PLC0415 - only when it runs
    from tidestead.report.terminal_charts import print_charts  # noqa: PLC0415 - only when it runs
    from tidestead.report.terminal_sheet import Sheet  # noqa: PLC0415 - only when it runs
    from tidestead.trials.sweep_charts import chart_of  # noqa: PLC0415 - only when it runs

    sheet = Sheet(terminal.console(sys.stdout), system)
    for axis in sweep.grid.axes:
        sheet.paragraph(f"{axis.key}: {len(axis)} values, {axis.typed[0]} to {axis.typed[-1]}", indent=0)
    if sweep.known:
        sheet.paragraph(f"{sweep.known} of {len(sweep.rows)} points were known.", indent=0)
    if by_default:
        names = ", ".join(one.id for one in sweep.shown)
        sheet.paragraph(f"Nothing was named with --show: {names} as a whole.", indent=0)
    rows = _listed(sweep, every)
    sheet.section("Points" if not sweep.goals or every else "Points that no other beats")
    terminal_tables.print_data(sheet, sweeps.table_of(sweep, rows))
    left = len(sweep.rows) - len(rows)
    if left:
        sheet.paragraph(f"{left} more (--all lists them, --csv FILE writes them)")
    _tally(sheet, sweep)
    chart = chart_of(sweep)
    if chart is not None and len(sweep.rows) > 1:
        print_charts(sheet, [chart])


def _listed(sweep: Sweep, every: bool) -> Sequence[Row]:
    """The rows to list: every one, those that none beats, or the first."""
    if every:
        return sweep.rows
    if sweep.goals:
        return [sweep.rows[number] for number in sweep.best][:LISTED]
    return sweep.rows[:LISTED]


def _tally(sheet: Sheet, sweep: Sweep) -> None:
    """How many points are sound, and so on; how many are refused; why some are, and why some are unproven."""
    from tidestead.report import sweeps  # noqa: PLC0415 - only when it runs

    refused = sum(bool(row.refused) for row in sweep.rows)
    lines = [_counted(sweep, number, one) for number, one in enumerate(sweep.shown) if one.kind != "figure"]
    lines.append(
        f"{refused} of {len(sweep.rows)} points are no plan that can be worked out" if refused else ""
    )
    sheet.bullets("Of all points", lines)
    sheet.bullets("Why some are refused", sweeps.refusals(sweep))
    sheet.bullets("Why some are unproven", sweeps.unproven(sweep))


def _counted(sweep: Sweep, column: int, shown: Shown) -> str:
    verdicts = Counter(row.cells[column].verdict for row in sweep.rows if row.cells)
    words = ", ".join(
        f"{verdicts[word]} {word}" for word in ("sound", "near", "unproven", "fails") if verdicts[word]
    )
    return f"{shown.id}: {words}" if words else ""
