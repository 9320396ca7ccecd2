"""Seawater made, changed and kept: salt, changes, nutrients, carbonate, alkalinity and what is dosed, what grows in it."""
