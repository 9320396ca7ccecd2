"""Years of weather made from twelve monthly normals, and cold spells and heat waves laid over years."""
