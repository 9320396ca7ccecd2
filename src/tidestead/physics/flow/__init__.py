"""How water goes round: pipes, fittings, pumps, weirs, standpipes, siphons, and the network they make."""
