"""Watch the catalogue folder, build again, and serve the edition on the loopback address."""
