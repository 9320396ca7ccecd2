"""Is the water right? Salt, changes, what evaporates, nutrients, alkalinity, ammonia, stock, the first fill."""
