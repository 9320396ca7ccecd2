"""What holds water up: plates, frames, timber, fasteners, seals, ground."""
