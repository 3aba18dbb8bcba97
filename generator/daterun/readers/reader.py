"""The three readers for whom editions are made."""

from enum import StrEnum


class Reader(StrEnum):
    """For whom an edition is made, from the one who sees least to the one who sees all."""

    PUBLIC = "public"
    CLUB = "club"
    KEEPER = "keeper"
