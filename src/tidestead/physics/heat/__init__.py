"""Warmth: evaporation, films of air, the sky, the ground, cooling down and heating up."""
