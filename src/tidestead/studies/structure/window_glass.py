"""Judging a glass window: lasting strength, and one ply of a laminate broken."""

from __future__ import annotations

from tidestead.core.answer import Estimate, Step
from tidestead.core.source import COMPUTED, PRACTICE, Source
from tidestead.physics.structure import glass
from tidestead.plan.model import Window
from tidestead.studies.checks import Limit, below, given, unproven
from tidestead.studies.judged import Judged, step
from tidestead.studies.structure.window_facts import WindowFacts
from tidestead.studies.structure.window_steps import load_steps, moment_step, thin, worst_stress_step

SINGLE = "a single pane leaves nothing when it breaks: laminate it, so that one ply may break"


THICKER = "thicker glass, polished edges where one is free, or a lower water level"


def glass_checks(facts: WindowFacts) -> list[Judged]:
    """Pull in the glass against what it may bear for fifty years, whole and with a ply broken."""
    row, plies = facts.row, facts.window.plies
    kind = glass.GlassKind(
        row.si("strength_annealed"),
        row.si("strength_characteristic"),
        row.si("factor_surface"),
        row.si(edge_factor(facts)),
        row.si("factor_toughening"),
    )
    strength = glass.design_strength(kind, glass.load_duration_factor(glass.FIFTY_YEARS))
    factor = row.si("factor_load")
    includes = f"load times {factor:g}; strength for fifty years over 1.8; edges times {kind.edge:g}"
    limit = Limit(strength, row.figure("strength_characteristic").source, includes)
    moment = facts.state.peak_moment
    thick = min(share.thickness_for_stress for share in glass.ply_shares(plies)) if plies else facts.thickness
    stress = thin(facts, factor * 6.0 * moment / thick**2, 2)
    acting = factor * 6.0 * moment / thick**2
    numbers = (given("g", factor, "1"), given("M", moment, "N m/m"), given("t", thick, "m", "sheet"))
    formula = "sigma = g*6*M/t**2, g: load factor, t: sheet, or what counts of its plies"
    steps = (
        *load_steps(facts),
        moment_step(facts, "either", moment),
        step("sigma", "pull at the face", formula, numbers, (acting, "Pa"), limit.source),
        *worst_stress_step(facts, stress),
        _strength_step(kind, strength, limit.source),
    )
    words = "pull in the glass"
    whole = below(facts.at, "stress", words, stress, "Pa", limit, advice=THICKER, cautions=facts.cautions)
    return [Judged(whole, steps), _broken(facts, stress, steps, limit)]


def _strength_step(kind: glass.GlassKind, strength: float, source: Source) -> Step:
    """What the glass may bear, from its printed strengths."""
    lasting = glass.load_duration_factor(glass.FIFTY_YEARS)
    numbers = (
        given("k_mod", lasting, "1"),
        given("k_sp", kind.surface, "1"),
        given("f_gk", kind.annealed, "Pa"),
        given("k_e", kind.edge, "1"),
        given("k_v", kind.toughening, "1"),
        given("f_bk", kind.characteristic, "Pa"),
    )
    formula = "f_d = k_e*k_mod*k_sp*f_gk/1.8 + k_v*(f_bk - f_gk)/1.2, k_mod for fifty years"
    return step("f_d", "allowed, from the printed strengths", formula, numbers, (strength, "Pa"), source)


_EDGE_FACTORS = {"polished": "factor_edge", "seamed": "factor_edge_seamed", "as cut": "factor_edge_other"}


def edge_factor(facts: WindowFacts) -> str:
    """The figure of the row for the edges. A seat all round leaves them without pull; a free edge or a rim does not."""
    if not free_edged(facts.window):
        return "factor_edge"
    return _EDGE_FACTORS[facts.window.edge_work or "as cut"]


def free_edged(window: Window) -> bool:
    """Whether an edge of the sheet is pulled along itself."""
    edges = window.edges
    return edges is None or not {"free", "rim"}.isdisjoint((edges.left, edges.right, edges.bottom, edges.top))


def _broken(facts: WindowFacts, stress: Estimate, whole: tuple[Step, ...], limit: Limit) -> Judged:
    plies = facts.window.plies
    if len(plies) < 2:
        check = unproven(facts.at, "broken_ply", "one ply broken", "Pa", SINGLE, PRACTICE)
        return Judged(check, by_level=False)
    rise = glass.broken_ply_rise(plies)
    broken = Estimate(stress.low * rise, stress.likely * rise, stress.high * rise, stress.basis)
    numbers = tuple(given(f"t{number}", ply, "m", "sheet") for number, ply in enumerate(plies, start=1))
    formula = "r = sum(t**3)/(sum(t**3) - largest t**3)"
    rest = (given("sigma", stress.likely, "Pa"), given("r", rise, "1"))
    words = "pull in the glass with one ply broken"
    steps = (
        *whole,
        step("r", "what the plies left take more", formula, numbers, (rise, "1"), limit.source),
        step("sigma_r", words, "sigma_r = r*sigma", rest, (broken.likely, "Pa"), COMPUTED),
    )
    last = Limit(limit.value, limit.source, limit.includes, near=0.0)
    advice = "thicker plies, one ply more, or a lower water level"
    return Judged(below(facts.at, "broken_ply", words, broken, "Pa", last, advice=advice), steps)
