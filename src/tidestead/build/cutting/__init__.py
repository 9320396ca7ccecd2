"""How lengths and sheets are cut: plans that are checked, with what is proven of them."""
