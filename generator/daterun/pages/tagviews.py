"""The views of what an edition says of itself to other programs; their addresses are whole ones."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class SocialPicture:
    """The picture by which a page is shown elsewhere."""

    url: str
    width_px: int
    height_px: int
    text: str


@dataclass(frozen=True, slots=True)
class Tags:
    """What a page says of itself. The kind is website or article, the linked data JSON, empty but for a coin.

    The feed is an address from the root of the edition, empty where there is none.
    """

    canonical: str
    kind: str
    feed: str
    picture: SocialPicture | None
    linked_data: str


@dataclass(frozen=True, slots=True)
class Arrival:
    """A coin that has come into the catalogue, the day as ISO 8601 has it."""

    title: str
    url: str
    day: str
    summary: str
    picture: str


@dataclass(frozen=True, slots=True)
class Announcements:
    """What the edition tells of itself beside its pages: arrivals, newest first, and the pages' addresses."""

    title: str
    summary: str
    author: str
    language: str
    web: str
    arrivals: tuple[Arrival, ...]
    pages: tuple[str, ...]
