"""Views and photos made into HTML and pictures, and written to disk."""
