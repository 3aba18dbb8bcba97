"""Daterun publishes a coin collection as a checked record, a web site and grids of its dates."""

__version__ = "0.1.0"
