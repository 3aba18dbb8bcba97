"""The darkroom: one photo looked at, its pictures made and its plate drawn, while the pages are made elsewhere.

It has a thread of its own, which keeps the letters of plates and lets go of the interpreter for most of the time.
"""

from collections.abc import Callable, Iterable, Mapping
from concurrent.futures import Future, ThreadPoolExecutor
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path

from daterun.pages.pictures import PictureOrder, order_face
from daterun.pages.plates import PlateOrder
from daterun.photos.examine import examine_quietly
from daterun.photos.opened import BROKEN, Opened
from daterun.photos.photo import Photo
from daterun.press.faces import Faces, FaceStore, make_open
from daterun.press.pictures import make_pictures
from daterun.press.plates import PlatePress
from daterun.problems import Problem


@dataclass(frozen=True, slots=True)
class Chosen:
    """The pictures that are made of a photo, whether they are round, and whether a face for plates is kept."""

    orders: tuple[PictureOrder, ...] = ()
    is_round: bool = False
    with_face: bool = False


Choose = Callable[[Photo], Chosen]
"""Chooses the pictures that are made of a photo, once that has been looked at."""


@dataclass(slots=True)
class Developing:
    """A photo at work: what was seen of it, and by address what was made of it, as each comes to be known."""

    seen: Future[Photo] = field(default_factory=Future)
    made: dict[str, bytes] = field(default_factory=dict)
    done: Future[tuple[Problem, ...]] | None = None


class Darkroom:
    """Makes the pictures and the plate of one photo at a time; faces for plates are put into a store."""

    def __init__(self, store: FaceStore) -> None:
        self.store = store
        self._pool = ThreadPoolExecutor(1, thread_name_prefix="darkroom")

    def develop(self, path: Path, shown: str, choose: Choose) -> Developing:
        """Begin to look at the photo at a path and to make what is chosen; shown is as for ``examine``.

        Warnings are to be kept back meanwhile, as for ``examine_quietly``.
        """
        work = Developing()
        work.done = self._pool.submit(self._develop, work, path, shown, choose)
        return work

    def draw(
        self,
        plate: PlateOrder,
        press: PlatePress,
        root: Path,
        work: Developing,
        orders: Iterable[PictureOrder],
        photos: Mapping[str, tuple[Path, str]],
    ) -> Future[bytes]:
        """Draw a plate after that, of what was made and of the other pictures ordered for the edition."""
        faces = Faces(root, self.store, orders, photos, work.made)
        return self._pool.submit(lambda: press.draw(plate, faces))

    def warm(self, press: PlatePress) -> None:
        """Unpack the letters of plates in the thread that draws them."""
        self._pool.submit(press.warm)

    def _develop(self, work: Developing, path: Path, shown: str, choose: Choose) -> tuple[Problem, ...]:
        chosen = Chosen()

        def put(order: PictureOrder, data: bytes) -> None:
            work.made[order.address] = data

        def use(photo: Photo, opened: Opened) -> None:
            nonlocal chosen
            work.seen.set_result(photo)
            chosen = choose(photo)
            with suppress(*BROKEN):  # whoever makes the picture for good meets it again
                face = order_face(chosen.orders) if chosen.with_face else None
                make_open(opened, chosen.orders, face, chosen.is_round, self.store, put)

        try:
            photo = examine_quietly(path, shown, use=use)
            if not work.seen.done():
                work.seen.set_result(photo)
        except BaseException as error:
            if not work.seen.done():
                work.seen.set_exception(error)
            raise
        left = [each for each in chosen.orders if each.address not in work.made]
        return make_pictures(left, {photo.key: (path, shown)}, work.made.__setitem__)
