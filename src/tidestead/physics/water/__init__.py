"""Seawater made, changed and kept: salt, changes, nutrients, alkalinity, what grows in it."""
