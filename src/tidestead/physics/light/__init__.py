"""Light for plants: photons of daylight, how it dies away in the water, what lamps make up."""
