"""Which fields a reader may see, and the closed records made from them."""
