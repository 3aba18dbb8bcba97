"""A closer look at one part of a photo, no larger than measuring needs, and the way back to the whole."""

from dataclasses import dataclass

from PIL import Image

from daterun.photos.circle import Circle

_FINE = 110  # least radius in pixels at which a rim is measured, if the photo is large enough
_ROOM = 1.6  # how far the part reaches, as a share of the radius


@dataclass(frozen=True, slots=True)
class CloseUp:
    """A part of a photo, reduced by a whole factor, with the place of its corner in the photo."""

    picture: Image.Image
    factor: int
    left: int
    top: int

    def seen(self, circle: Circle) -> Circle:
        """Give a circle of the photo as it lies in the part."""
        return Circle(
            (circle.x - self.left) / self.factor,
            (circle.y - self.top) / self.factor,
            circle.radius / self.factor,
        )

    def placed(self, circle: Circle) -> Circle:
        """Give a circle of the part as it lies in the photo."""
        return Circle(
            circle.x * self.factor + self.left,
            circle.y * self.factor + self.top,
            circle.radius * self.factor,
        )


class Lens:
    """Looks closer at parts of one photo, and keeps what it saw: circles near each other show the same part."""

    def __init__(self, image: Image.Image) -> None:
        self.image = image
        self._seen: dict[tuple[int, int, int, int, int], CloseUp] = {}

    def look(self, circle: Circle) -> CloseUp | None:
        """Cut out the surroundings of a circle; None where they lie outside the photo or are too small."""
        image, reach = self.image, circle.radius * _ROOM
        left, top = max(0, int(circle.x - reach)), max(0, int(circle.y - reach))
        right = min(image.width, int(circle.x + reach) + 1)
        bottom = min(image.height, int(circle.y + reach) + 1)
        if min(right - left, bottom - top) < 16:
            return None
        box = (left, top, right, bottom)
        factor = max(1, int(circle.radius / _FINE))
        if (seen := self._seen.get((factor, *box))) is None:
            part = image.reduce(factor, box=box) if factor > 1 else image.crop(box)
            seen = self._seen[factor, *box] = CloseUp(part, factor, left, top)
        return seen
