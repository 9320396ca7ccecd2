"""What the plan takes, by geometry and by what the studies found."""
