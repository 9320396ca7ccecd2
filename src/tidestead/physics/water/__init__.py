"""What is dissolved in the water: carbonate, alkalinity and what is dosed, ammonia eaten by bacteria."""
