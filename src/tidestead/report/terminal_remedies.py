"""Remedies in a terminal: each check with what would mend it, what that costs and what else it moves."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from rich.console import Console

from tidestead.core.answer import Check, Estimate, Verdict
from tidestead.core.units import System
from tidestead.report import wording
from tidestead.report.terminal_sheet import Sheet
from tidestead.trials.remedy import Effect, Mended, Move, Priced, Remedy, State, Whole

NAMED = 6
"""Other checks that a remedy makes better or worse and that are named; the rest are counted."""


def print_remedies(mended: Sequence[Mended], system: System, target: Console, plan: str = "PLAN") -> None:
    """Every check with its remedies, and how one is written."""
    sheet = Sheet(target, system, plan)
    those = (
        "1 check that fails or is near" if len(mended) == 1 else f"{len(mended)} checks that fail or are near"
    )
    sheet.heading(f"What would mend it? {those}")
    for one in mended:
        _print_check(sheet, one)
    remedies = [remedy for one in mended for remedy in one.remedies]
    if not remedies:
        return
    sheet.section("To write one")
    sheet.paragraph(
        f'"tidestead mend {plan} --write N" writes the remedy of that number into the plan; '
        '"--undo" in place of it brings the former plan back.'
    )
    if all(remedy.price is None for remedy in remedies):
        sheet.paragraph("No price is known, so that remedies stand in the order of how little they change.")


def _print_check(sheet: Sheet, one: Mended) -> None:
    check, state = one.check, State.of(one.check)
    sheet.target.print()
    line = sheet.sign(check.verdict, check.use)
    line.append(f"  {sheet.say(wording.titled(check))}: {_at(sheet, state)}", "not bold default")
    sheet.target.print(line)
    sheet.paragraph(f"{wording.place(check)}  ({check.id})")
    for remedy in one.remedies:
        _print_remedy(sheet, remedy)
    if one.cut:
        sheet.paragraph(cut_short(one.cut))
    if one.remedies:
        if all(remedy.harms for remedy in one.remedies):
            _print_advice(sheet, check, "Each of these spoils something. What would help besides")
        return
    if not one.tried and one.cut:
        return
    if not one.tried:
        sheet.paragraph("No change of the plan is known here that could be tried.")
        _print_advice(sheet, check)
        return
    best = ""
    if one.best is not None:
        best = f" The nearest was: {one.best[0]}, which leaves it at {_at(sheet, one.best[1])}."
    sheet.paragraph(f"None of {_count(one.tried, 'change')} tried makes it sound.{best}")
    _print_advice(sheet, check)


def cut_short(cut: int) -> str:
    """What was not tried because the time ran out."""
    return f"The time given ran out before {_count(cut, 'sort')} of change: asked again, the search goes on."


def not_asked(subjects: Sequence[str]) -> str:
    """What a change may do besides and is not known, because the time ran out."""
    return f"NOT KNOWN: what it does to {', '.join(subjects)}. The time given ran out: asked again, the search goes on."


def _print_advice(sheet: Sheet, check: Check, head: str = "What would help") -> None:
    """What would help where no change that was tried does, by the study that judged the check."""
    if check.advice:
        sheet.paragraph(f"{head}: {sheet.say(check.advice)}.")


def _print_remedy(sheet: Sheet, remedy: Remedy) -> None:
    sheet.item(f"{remedy.number:>3}  ", remedy.words)
    after = remedy.after
    instead = "" if after.id == remedy.check else f"in its place {after.what}: "
    lines = [f"{instead}{_at(sheet, after)}; {money(remedy.price)}"]
    lines += effect_lines(remedy.effects, remedy.subjects)
    lines += [not_asked(remedy.unasked)] if remedy.unasked else []
    for line in lines:
        sheet.paragraph(line, indent=7)


def _at(sheet: Sheet, state: State) -> str:
    """The value of a check, how much of its limit it uses, its verdict."""
    value = "-"
    if state.value is not None:
        value = wording.with_worst(state.value, state.worst, state.unit, sheet.system, state.style)
    used = "" if state.use is None else f", {wording.percent(state.use)} used"
    return f"{value}{used}, {state.verdict.value}"


def money(price: Priced | None) -> str:
    """What a change adds to the cost, with its range and with what it adds to a year; no total where a price lacks."""
    if price is None:
        return "no price known"
    if not price.whole:
        return f"no total, for the price book has no price of {_listed(price.unpriced)}"
    words = f"{_amount(price.cash, price.currency)}"
    if price.yearly is not None and abs(price.yearly.likely) >= 1.0:
        words += f", {_amount(price.yearly, price.currency)} a year"
    return words


def _listed(names: Sequence[str]) -> str:
    more = len(names) - NAMED
    return ", ".join(names[:NAMED]) + (f" and {more} more" if more > 0 else "")


def _amount(cash: Estimate, currency: str) -> str:
    spread = f" ({cash.low:+,.0f} to {cash.high:+,.0f})" if cash.high - cash.low >= 1.0 else ""
    return f"{cash.likely:+,.0f} {currency}{spread}"


def effect_lines(effects: Sequence[Effect], subjects: Sequence[str]) -> list[str]:
    """What else a change does: what it mends, what it makes worse, how many other checks it moves."""
    worse = [effect for effect in effects if effect.worse]
    better = [effect for effect in effects if effect.better]
    lines = [
        f"mends too: {_named(better)}" if better else "",
        f"MAKES WORSE: {_named(worse)}" if worse else "",
    ]
    rest = len(effects) - len(worse) - len(better)
    if rest:
        lines.append(
            f"moves {_count(rest, 'other check')} to no other verdict ({', '.join(subjects)} asked anew)"
        )
    elif not effects:
        lines.append(f"moves no other check ({', '.join(subjects)} asked anew)")
    return [line for line in lines if line]


def _named(effects: Sequence[Effect]) -> str:
    named = [f"{effect.id} {_used(effect.before)} -> {_used(effect.after)}" for effect in effects[:NAMED]]
    more = len(effects) - NAMED
    return "; ".join(named) + (f"; and {more} more" if more > 0 else "")


def _used(state: State | None) -> str:
    if state is None:
        return "not made"
    return state.verdict.value if state.use is None else f"{wording.percent(state.use)} {state.verdict.value}"


def print_whole(whole: Whole, system: System, target: Console, plan: str = "PLAN") -> None:
    """A whole design: its changes, what they cost, what they leave, what was searched."""
    sheet = Sheet(target, system, plan)
    sheet.heading("The whole design: what makes everything sound at the least cost found")
    _print_moves(sheet, whole.moves)
    sheet.section("Cost")
    sheet.paragraph(money(whole.price))
    if whole.bound is not None and whole.price is not None:
        sheet.paragraph(
            "By the price of each alone, and by what it mends or spoils of its own subject, no set of the changes that "
            "spoil nothing mends as many checks for less than "
            f"{whole.bound:,.0f} {whole.price.currency}; made together they may cost more or less than that."
        )
    left = [f"{state.id}: {_at(sheet, state)}" for state in whole.left]
    sheet.bullets("What is still not sound", left)
    sheet.bullets("What it moves", effect_lines(_others(whole), whole.subjects))
    sheet.section("What was searched, and how far it is from proven")
    sheet.paragraph(
        f"{_count(len(whole.before), 'check')} to mend, {_count(whole.tried, 'change')} tried, "
        f"{whole.changes} of them mend a check by themselves."
    )
    sheet.paragraph(whole.proof)
    if whole.moves:
        sheet.section("To write it")
        sheet.paragraph(f'"tidestead mend {plan} --whole --write 1" writes all of it into the plan.')


def _others(whole: Whole) -> tuple[Effect, ...]:
    wanted = {state.id for state in whole.before}
    return tuple(effect for effect in whole.effects if effect.id not in wanted)


def _print_moves(sheet: Sheet, moves: Iterable[Move]) -> None:
    lines = [move.words for move in moves]
    sheet.bullets("Change", lines)
    if not lines:
        sheet.paragraph("No change was found that helps.")


def print_nothing(
    counted: Mapping[Verdict, int], system: System, target: Console, plan: str = "PLAN"
) -> None:
    """Nothing fails or is near."""
    sheet = Sheet(target, system, plan)
    unproven = counted.get(Verdict.UNPROVEN, 0)
    sheet.paragraph(
        f"Nothing here fails or is near: {_count(counted.get(Verdict.SOUND, 0), 'check')} sound.", indent=0
    )
    if unproven:
        sheet.paragraph(
            f"{_count(unproven, 'check')} unproven: no change mends that, the plan must say more first "
            '("tidestead ask" tells what).',
            indent=0,
        )


def _count(number: int, noun: str) -> str:
    return f"{number} {noun}{'' if number == 1 else 's'}"
