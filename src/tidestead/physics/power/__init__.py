"""Electric power in bounds: cables, loads, standing leakage, batteries and generators. No wiring instructions."""
