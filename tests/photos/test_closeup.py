"""A closer look at parts of a photo."""

from PIL import Image

from daterun.photos.circle import Circle
from daterun.photos.closeup import Lens


def test_circles_that_show_the_same_part_are_looked_at_once():
    lens = Lens(Image.effect_noise((500, 480), 40))
    whole = lens.look(Circle(250, 240, 230))
    assert whole is not None
    assert lens.look(Circle(251, 238, 232)) is whole
    part = lens.look(Circle(150, 140, 60))
    assert part is not whole
    assert (part.left, part.top, part.factor) == (54, 44, 1)
    assert part.picture.tobytes() == lens.image.crop((54, 44, 247, 237)).tobytes()


def test_a_circle_outside_the_photo_has_no_part():
    assert Lens(Image.new("L", (100, 100))).look(Circle(300, 300, 20)) is None
