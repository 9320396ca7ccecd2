"""Sets of answers to the questions of a first plan: scenarios of our own, metric and in US units.

METRIC and US answer every blank there is, also those that the others leave unasked, so that one may be turned at a
time. NEEDED and NEEDED_US are a small tank of which its builder knows what is needed, and no more.
"""

from __future__ import annotations

METRIC = {
    "name": "Harbour basin", "show": "metric", "gallons": "imperial",
    "place": "lean-to behind the net store", "latitude": "57.2", "longitude": "-6.1", "elevation": "12 m",
    "weather": "figures", "winter": "4 degC", "summer": "14.5 degC", "cold_spell": "-7 degC", "heat_wave": "23 degC",
    "dark_sun": "0.4 kWh/m2/day", "bright_sun": "5.0 kWh/m2/day",
    "length": "3.2 m", "width": "1.6 m", "height": "1.10 m", "water": "0.96 m", "brim": "1.05 m",
    "rules": "EC5", "grade": "C24", "studs": "47 x 120 mm", "spacing": "300 mm",
    "sheathing": "birch-plywood-18", "lining": "liquid-rubber", "coats": "5", "seams": "reinforced",
    "rim": "2 of 47 x 170 mm", "rim_lies": "flat", "ties": "yes", "tie": "47 x 145 mm", "tie_count": "2",
    "window": "yes", "pane": "acrylic-cast", "plies": "two", "thickness": "45 mm",
    "window_width": "1.5 m", "window_height": "0.70 m", "sill": "0.20 m",
    "edges": "seats", "seat_width": "46 mm", "bed": "8 mm", "sill_held_by": "jambs",
    "crosspiece": "2 of 47 x 165 mm", "jambs": "3 of 47 x 120 mm",
    "stands_on": "slab", "slab": "150 mm", "soil": "gravel", "floor": "garage-eu",
    "carried_by": "anchors", "foot_spacing": "350 mm", "capacity": "6 kN", "anchor": "12 mm", "bears_on": "steel",
    "floor_tie": "47 x 95 mm",
    "house": "lean-to", "house_length": "6.5 m", "house_width": "4.2 m", "eaves": "2.2 m", "ridge": "3.3 m",
    "faces": "south-west", "glazing": "pc-16-triple", "room": "18 degC",
    "life": "soft", "depth": "0.3 to 0.6 m", "lamps": "410 W", "keep": "24 to 27 degC",
    "heater": "1.2 kW", "heater_count": "3",
    "sump": "yes", "turnover": "1.25", "pump_flow": "8 m3/h", "pump_lift": "5 m", "needs_head": "1.9 m",
    "sump_length": "1.4 m", "sump_width": "0.8 m", "sump_height": "0.72 m", "sump_water": "0.35 m",
    "pipe": "pvc-63-pn10", "drain": "pvc-110-pn10",
}  # fmt: skip

US = {
    "name": "Barn reef", "show": "us", "gallons": "us",
    "place": "north bay of the barn", "latitude": "44.6", "longitude": "-68.4", "elevation": "60 ft",
    "weather": "figures", "winter": "22 degF", "summer": "67 degF", "cold_spell": "-4 degF", "heat_wave": "82 degF",
    "dark_sun": "1.4 kWh/m2/day", "bright_sun": "5.9 kWh/m2/day",
    "length": "10 ft", "width": "4 ft 6 in", "height": "3 ft 6 in", "water": "37 in", "brim": "40 in",
    "rules": "NDS", "grade": "dfl-no2", "studs": "2x6", "spacing": "12 in",
    "sheathing": "plywood-23/32", "lining": "epdm-45-mil", "coats": "4", "seams": "reinforced",
    "rim": "3-2x8", "rim_lies": "flat", "ties": "yes", "tie": "2x6", "tie_count": "2",
    "window": "yes", "pane": "acrylic-cast", "plies": "three", "thickness": "1 3/4 in",
    "window_width": "5 ft", "window_height": "26 in", "sill": "8 in",
    "edges": "seats", "seat_width": "2 in", "bed": "5/16 in", "sill_held_by": "jambs",
    "crosspiece": "2-2x8", "jambs": "3-2x6",
    "stands_on": "slab", "slab": "5 in", "soil": "sand", "floor": "garage-us",
    "carried_by": "anchors", "foot_spacing": "14 in", "capacity": "1200 lbf", "anchor": "1/2 in", "bears_on": "steel",
    "floor_tie": "2x4",
    "house": "room", "house_length": "24 ft", "house_width": "14 ft", "eaves": "7 ft 6 in", "ridge": "11 ft",
    "faces": "south", "glazing": "pc-8-twin", "room": "66 degF",
    "life": "fish", "depth": "12 to 24 in", "lamps": "300 W", "keep": "75 to 80 degF",
    "heater": "800 W", "heater_count": "3",
    "sump": "no", "turnover": "1.5", "pump_flow": "2400 gal/h", "pump_lift": "16 ft", "needs_head": "6 ft",
    "sump_length": "5 ft", "sump_width": "30 in", "sump_height": "28 in", "sump_water": "14 in",
    "pipe": "pvc40-2in", "drain": "pvc40-3in",
}  # fmt: skip

NEEDED = {
    "name": "Window seat", "show": "metric",
    "length": "3 m", "width": "1.2 m", "height": "1 m", "water": "0.85 m",
    "rules": "EC5", "grade": "C24", "studs": "47 x 120 mm", "spacing": "300 mm",
    "sheathing": "birch-plywood-18", "lining": "liquid-rubber",
    "rim": "2 of 47 x 170 mm", "rim_lies": "flat", "ties": "no",
    "window": "yes", "pane": "acrylic-cast", "thickness": "40 mm",
    "window_width": "1.4 m", "window_height": "0.6 m", "sill": "0.2 m", "edges": "seats",
    "stands_on": "slab", "carried_by": "anchors", "house": "later",
}  # fmt: skip

NEEDED_US = {
    "name": "Porch tank", "show": "us",
    "length": "9 ft", "width": "4 ft", "height": "3 ft", "water": "32 in",
    "rules": "NDS", "grade": "dfl-no2", "studs": "2x6", "spacing": "12 in",
    "sheathing": "plywood-23/32", "lining": "epdm-45-mil",
    "rim": "3-2x8", "rim_lies": "flat", "ties": "no",
    "window": "yes", "pane": "acrylic-cast", "thickness": "1 3/4 in",
    "window_width": "4 ft", "window_height": "22 in", "sill": "8 in", "edges": "seats",
    "stands_on": "slab", "carried_by": "anchors", "house": "later",
}  # fmt: skip

OTHERWISE = {
    "name": "Other basin", "show": "us", "gallons": "us", "place": "elsewhere", "latitude": "-34.5",
    "longitude": "18.2", "elevation": "90 m", "weather": "fetch", "winter": "3 degC", "summer": "15.5 degC",
    "cold_spell": "-9 degC", "heat_wave": "24 degC", "dark_sun": "0.5 kWh/m2/day", "bright_sun": "5.1 kWh/m2/day",
    "length": "3.3 m", "width": "1.7 m", "height": "1.12 m", "water": "0.95 m", "brim": "1.04 m",
    "studs": "47 x 145 mm", "spacing": "280 mm", "grade": "C30", "sheathing": "birch-plywood-21",
    "lining": "polyurethane", "coats": "6", "seams": "plain", "rim": "3 of 47 x 170 mm", "rim_lies": "on edge",
    "ties": "no", "tie": "2 of 47 x 145 mm", "tie_count": "3", "window": "no", "pane": "acrylic-extruded",
    "thickness": "50 mm", "window_width": "1.4 m", "window_height": "0.65 m", "sill": "0.22 m", "edges": "rim",
    "seat_width": "50 mm", "bed": "9 mm", "sill_held_by": "base", "crosspiece": "3 of 47 x 165 mm",
    "jambs": "4 of 47 x 120 mm", "stands_on": "ground", "slab": "160 mm", "soil": "clay", "carried_by": "ledger",
    "foot_spacing": "300 mm", "capacity": "7 kN", "anchor": "16 mm", "bears_on": "wood", "house": "gable",
    "house_length": "6.6 m", "house_width": "4.3 m", "eaves": "2.3 m", "ridge": "3.4 m", "faces": "north",
    "glazing": "glass-4", "life": "large-polyp", "depth": "0.3 to 0.5 m", "lamps": "500 W", "keep": "23 to 26 degC",
    "heater": "1.5 kW", "heater_count": "4", "sump": "no", "turnover": "1.4", "pump_flow": "9 m3/h",
    "pump_lift": "6 m", "needs_head": "2.1 m", "sump_length": "1.5 m", "sump_width": "0.9 m",
    "sump_height": "0.74 m", "sump_water": "0.36 m", "pipe": "pvc-75-pn10", "drain": "pvc-125-pn10",
}  # fmt: skip
"""For each blank of the metric scenario another good answer; the rules of timber apart, which take the grade along."""
