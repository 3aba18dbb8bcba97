"""One photo as the rest of the program knows it: its facts, and the circle in which its coin lies.

How the facts are found is left to ``examine`` and ``disc``; how they are kept to ``memory``.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Disc:
    """The circle in which a coin lies, in pixels after orientation.

    The centre is measured from the upper left corner of the frame, so that the middle of the first pixel
    is at 0.5.
    """

    x: float
    y: float
    diameter: float


@dataclass(frozen=True, slots=True)
class Photo:
    """A file of the keeper's that should be a picture.

    The key is the hex BLAKE2b-128 hash of the file's bytes, "" where it could not be read. The path is
    relative to the catalogue folder, with forward slashes. Width and height are those after orientation, 0
    where they are not known. The fallback says why no disc was found, the fault why the photo cannot be
    used at all; both are parts of a sentence in the keeper's words, "" where there is nothing to say.
    """

    key: str
    path: str
    width_px: int
    height_px: int
    disc: Disc | None = None
    fallback: str = ""
    fault: str = ""
