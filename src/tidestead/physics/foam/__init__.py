"""How a fractionator earns its place: bubbles, columns, foam, removal."""
