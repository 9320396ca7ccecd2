"""Which top-level keys of a plan a builder thinks of together. A key that no group names goes into `more`."""

from __future__ import annotations

from typing import NamedTuple


class Gathering(NamedTuple):
    """One group: its name in addresses, its title, what it is for, and the keys in it, in order."""

    name: str
    title: str
    told: str
    keys: tuple[str, ...]


GATHERINGS = (
    Gathering(
        "plan", "The plan", "Its name, and the units it is read in.", ("name", "show", "gallons", "tidestead")
    ),
    Gathering("site", "Site and weather", "Where it stands, and what weather it meets.", ("site", "weather")),
    Gathering("building", "Building", "The house round the vessels.", ("building",)),
    Gathering(
        "water",
        "Water",
        "What water is kept, where it comes from, how it is changed, what is dosed.",
        ("water", "salt", "sources", "changes", "losses", "dosers", "kalkwasser", "reactors"),
    ),
    Gathering(
        "vessels", "Vessels", "Tanks, sumps, fractionators, vats, and all they are made of.", ("vessels",)
    ),
    Gathering(
        "circuits",
        "Circuits",
        "Pumps, valves and pipes that move the water.",
        ("circuits", "pumps", "valves", "apparatus", "outfalls"),
    ),
    Gathering(
        "equipment",
        "Equipment",
        "What warms, cools, covers and lights the water.",
        ("heaters", "chillers", "covers", "fans", "lamps", "airpumps"),
    ),
    Gathering(
        "stock",
        "Stock",
        "What lives in it, what it eats, what cleans up after it.",
        ("corals", "fish", "feed", "filters", "adsorbers", "harvests", "quarantine", "stock"),
    ),
    Gathering(
        "power",
        "Power",
        "The supply, its circuits and what hangs on them, what stands in when it fails.",
        ("supply", "electrics", "devices", "backups"),
    ),
    Gathering(
        "watching",
        "Noticing and acting",
        "Who looks when, what calls, and the levels at which it matters.",
        ("response", "thresholds", "cleaning"),
    ),
    Gathering(
        "prices",
        "Prices and targets",
        "What things cost, and what you want.",
        ("currency", "supplies", "book", "rates", "risks", "cutting", "prices", "targets"),
    ),
    Gathering("tasks", "Tasks", "What is to be done, in what order.", ("tasks", "visits")),
    Gathering("care", "Care", "Who does what, and when.", ("care", "minders", "chores")),
    Gathering(
        "measured", "Measured", "What you have measured; it stands before what is assumed.", ("measured",)
    ),
    Gathering(
        "yours", "Your own rows", "Materials and fittings that the catalogue does not have.", ("yours",)
    ),
)
MORE = Gathering("more", "More", "Parts of the plan that stand in no other group.", ())


def gatherings(keys: tuple[str, ...]) -> tuple[Gathering, ...]:
    """The groups that have any of these keys, each with those it has; what none names comes last."""
    named = {key for group in GATHERINGS for key in group.keys}
    all_groups = (*GATHERINGS, MORE._replace(keys=tuple(key for key in keys if key not in named)))
    kept = (group._replace(keys=tuple(key for key in group.keys if key in keys)) for group in all_groups)
    return tuple(group for group in kept if group.keys)
