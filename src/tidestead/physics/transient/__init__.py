"""What stops, and what the waters do then: heat, oxygen, ammonia, levels and salinity in one run."""
