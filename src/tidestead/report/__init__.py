"""Renderers: an answer or a scene in, text out. They know result types, not subjects."""
