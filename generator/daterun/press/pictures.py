"""Pictures made of photos on all cores: each photo is opened once, unless its pictures were made ahead.

Which pictures there are is left to ``pages/pictures.py``, how one is made to ``cutting``.
"""

import os
from collections.abc import Callable, Iterable, Mapping
from concurrent.futures import ThreadPoolExecutor, as_completed
from pathlib import Path

from PIL import Image, UnidentifiedImageError

from daterun.pages.pictures import PictureOrder
from daterun.photos.bound import Bound
from daterun.photos.copied import copied
from daterun.photos.examine import without_warnings
from daterun.photos.opened import BROKEN, decode, held_pixels, open_image
from daterun.press.cutting import check_formats, cut, encode, scale_for
from daterun.problems import Place, Problem

Write = Callable[[str, bytes], object]


def make_pictures(
    orders: Iterable[PictureOrder],
    photos: Mapping[str, tuple[Path, str]],
    write: Write,
    progress: Callable[[int, int], None] = lambda done, total: None,
    hand_over: Callable[[PictureOrder], bool] = lambda order: False,
) -> tuple[Problem, ...]:
    """Make pictures on all cores and hand each to ``write``, which several threads call at once.

    The photos are found by the hash that orders name: the path on disk, and how it is shown to the keeper.
    A photo that cannot be used gives a problem; the others are made all the same. What can be handed over is not
    made. Progress counts pictures.
    """
    ordered = list(orders)
    check_formats(order.format for order in ordered)
    total, done = len(ordered), 0
    by_photo: dict[str, list[PictureOrder]] = {}
    for order in ordered:
        if hand_over(order):
            done += 1
            progress(done, total)
        else:
            by_photo.setdefault(order.photo, []).append(order)
    problems: list[Problem] = []
    if not by_photo:
        return ()
    bound = Bound()

    def make(key: str) -> None:
        _make_of_photo(photos[key][0], by_photo[key], write, bound)

    # One thread more than cores: it reads the next photo while the others are at work on theirs.
    threads = min((os.cpu_count() or 1) + 1, len(by_photo))
    with without_warnings(), ThreadPoolExecutor(threads, thread_name_prefix="pictures") as pool:
        working = {pool.submit(make, key): key for key in by_photo}
        try:
            for finished in as_completed(working):
                key = working[finished]
                try:
                    finished.result()
                except (_Unusable, Image.DecompressionBombError, SyntaxError) as error:
                    shown = photos[key][1]
                    problems.append(
                        Problem("photo", f"no picture can be made of this photo: {error}", Place(shown))
                    )
                done += len(by_photo[key])
                progress(done, total)
        except BaseException:
            pool.shutdown(wait=False, cancel_futures=True)
            raise
    return tuple(sorted(problems, key=lambda each: each.place))


class _Unusable(Exception):
    """A photo that cannot be read."""


def _make_of_photo(path: Path, orders: list[PictureOrder], write: Write, bound: Bound) -> None:
    """Make pictures of a photo, if it is still the one that they were ordered of."""
    try:
        with copied(path) as (source, key):
            if key != orders[0].photo:
                raise _Unusable("it was changed while this build was at work; build again")
            with open_image(source) as image:
                scale = scale_for(orders, image.size)
                with bound.holding(held_pixels(image, scale)):
                    opened = decode(image, scale)
                    pictures = list(cut(opened, orders))
    except UnidentifiedImageError as error:
        raise _Unusable("it is not a picture that can be read") from error
    except BROKEN as error:
        raise _Unusable(str(error)) from error
    for order, picture in pictures:
        write(order.address, encode(picture, order.format))
