"""Units, answer types, sources, scenes, errors: what every floor above may use."""
