"""What it costs: prices on lines, ranges, what drives them. `study` answers the question."""
