"""What it costs: prices on lines, ranges, what drives them."""
