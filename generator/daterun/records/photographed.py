"""The photos that a coin names in its file, and where the keeper says that the coin lies in them."""

from dataclasses import dataclass, field
from decimal import Decimal

from daterun.problems import Misread
from daterun.records.fields import Field, Form, Kind, Reading, read_form
from daterun.records.kinds import (
    decimal_number,
    either,
    empty_at,
    file_name,
    record,
)
from daterun.records.located import Mapping, Node
from daterun.records.series import Side


@dataclass(frozen=True, slots=True)
class Crop:
    """The coin's disc as the keeper gives it: centre and diameter in pixels after orientation."""

    x: Decimal
    y: Decimal
    diameter: Decimal
    at: Mapping = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class NamedPhoto:
    """A photo named in a coin's file, and the disc if the keeper gives it. No file means the one by name."""

    file: str
    crop: Crop | None
    at: Mapping = field(compare=False, repr=False)


CROP = Form(
    "a crop",
    (
        Field("x", decimal_number, "the centre, in pixels from the left", required=True),
        Field("y", decimal_number, "the centre, in pixels from the top", required=True),
        Field("diameter", decimal_number, "the diameter, in pixels", required=True),
    ),
)


def _read_crop(node: Node, reading: Reading) -> Crop:
    crop = record(CROP, Crop, "{x: 812, y: 790, diameter: 1480}").read(node, reading)
    if isinstance(crop, Crop) and crop.diameter <= 0:
        raise Misread("a crop has a diameter of more than nothing")
    return crop


NAMED_PHOTO = Form(
    "a photo",
    (
        Field("file", file_name, "the file, under content/photos", default=""),
        Field(
            "crop",
            Kind(CROP.name, "{x: 812, y: 790, diameter: 1480}", _read_crop, "number"),
            "where the coin is in it",
        ),
    ),
)


_named_photo: Kind[NamedPhoto] = either(
    file_name,
    lambda name, node: NamedPhoto(name, None, empty_at(node)),
    record(NAMED_PHOTO, NamedPhoto, "{file: a.jpg}"),
)


PHOTOS = Form(
    "the list of photos",
    tuple(Field(side.value, _named_photo, f"the photo of the {side.value}") for side in Side),
)


def _read_photos(node: Node, reading: Reading) -> dict[Side, NamedPhoto]:
    if not isinstance(node, Mapping):
        raise Misread("photos are named side by side", "for example {obverse: a.jpg, reverse: b.jpg}")
    values = read_form(PHOTOS, node, reading) or {}
    return {side: values[side.value] for side in Side if values.get(side.value) is not None}
