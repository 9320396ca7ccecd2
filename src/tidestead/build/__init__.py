"""What it takes to build: the list of everything, how it is cut, what it costs."""
