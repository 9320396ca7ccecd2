"""Change the plan, ask the desk again, compare: remedies and sweeps."""
