"""Where the formulas of stock, nutrients, alkalinity, ammonia and new filters come from."""

from __future__ import annotations

from tidestead.core.source import Known, Source

MERINO = Source(
    "Merino, Piedrahita and Conklin (2009), Aquacultural Engineering 41:166, abstract",
    "fed flatfish of 3 to 166 g: 15.08*W**-0.245 g/(kg day) on the mean, 17.27*W**-0.203 at most",
    Known.READ,
)
STOICHIOMETRY = Source("exact stoichiometry", known=Known.COMPUTED)
BALANCE = Source("balance of matter", known=Known.COMPUTED)
EBELING = Source(
    "Ebeling, Timmons and Bisogni (2006), Aquaculture 257:346, equation 1",
    "0.092 of the protein",
    Known.QUOTED,
)
RUSTEN = Source(
    "Rusten et al. (2006), Aquacultural Engineering 34:322",
    "0.50*S**0.7 at 15 degC, times 1.09 for each kelvin; half of it in seawater lies between two works",
    Known.QUOTED,
)
NIJHOF = Source(
    "Nijhof and Bovendeur (1990), Aquaculture, abstract",
    "at most 0.28 g N/(m2 day) in seawater of 24 degC",
    Known.READ,
)
EPA = Source("EPA 440/5-88-004 (1989), saltwater ammonia", "pKa after Khoo et al. (1977)", Known.QUOTED)
DICKSON = Source(
    "Dickson, Sabine and Christian (2007), Guide to Best Practices for Ocean CO2 Measurements",
    "as test values and public code quote it",
    Known.QUOTED,
)
MILLER = Source("Miller et al. (1990), abstract", "NH3 does more harm at pH 7 than at 8", Known.READ)
