"""A plan with a photo replaced in it is the plan that is made with that photo from the beginning."""

from dataclasses import replace

import pytest

from daterun.pages.replaced import is_alike, replace_photo
from daterun.pages.shown import Shown
from daterun.photos.photo import Disc, Photo
from daterun.readers.closed import ClosedPhoto
from daterun.readers.reader import Reader
from daterun.records.series import Side

SIDES = [(coin, side) for coin in ("ort/1891", "ort/1900", "ort/1901") for side in ("obverse", "reverse")]


@pytest.fixture
def planned_with(planned, base_files, coin):
    web = base_files["content/catalogue.yaml"] + "web: https://example.org/coins\n"

    def plan(photos, reader, settings=""):
        files = {
            "content/catalogue.yaml": web + settings,
            "content/coins/ort/1891.md": coin("1891", "grade: VF30", "added: 2024-01-02", notes="Sharp."),
            "content/coins/ort/1900.md": coin("1900", "grade: EF40", notes="See [[ort/1891 both]]."),
            "content/coins/ort/1901.md": coin("1901", notes="See [[ort/1891]] and [[ort 1900]]."),
            "content/pages/on-orts.md": "---\ntitle: On orts\n---\n[[ort/1900 obverse]], [[ort 1891]].\n",
        }
        return planned(files, reader, photos).plan

    return plan


FOUND = Disc(900.0, 600.0, 800.0)


def photo(name, width=1800, height=1200, disc=FOUND):
    return Photo(name, f"content/photos/{name}.jpg", width, height, disc, "" if disc else "too dark")


def closed(seen):
    return ClosedPhoto(seen.key, seen.width_px, seen.height_px, seen.disc, seen.fallback)


OTHERS = {
    "of the same size": photo("other"),
    "of a smaller disc": photo("other", disc=Disc(700.0, 500.0, 610.0)),
    "of fewer pictures": photo("other", 90, 80, Disc(45.0, 40.0, 42.0)),
    "of more pictures": photo("other", 4000, 3000, Disc(2000.0, 1500.0, 2500.0)),
}


@pytest.mark.parametrize("settings", ["", "pictures: {format: jpeg, widths: [900, 300, 60], plates: no}\n"])
@pytest.mark.parametrize("reader", Reader)
@pytest.mark.parametrize("other", OTHERS.values(), ids=OTHERS)
def test_a_photo_replaced_gives_the_plan_of_the_other(planned_with, reader, other, settings):
    photos = {key: photo("-".join(key).replace("/", "-")) for key in SIDES}
    plan = planned_with(photos, reader, settings)
    shown = Shown(plan.pages)
    for key in SIDES:
        photos[key] = replace(other, key=f"{other.key}-{key}", path=photos[key].path)
        standing = plan.binder.cabinet.by_id[key[0]]
        replaced = replace_photo(plan, shown, standing, Side(key[1]), closed(photos[key]))
        replaced.settle(shown)
        expected = planned_with(photos, reader, settings)
        assert replaced.plan == expected
        before = {each.address: each for each in plan.pages}
        changed = tuple(each for each in expected.pages if each != before[each.address])
        assert replaced.pages == tuple(sorted(changed, key=lambda each: each.address))
        kept = {id(each) for each in plan.pages}
        assert sum(id(each) not in kept for each in replaced.plan.pages) == len(changed)
        assert set(replaced.gone) == addresses_of(plan) - addresses_of(expected)
        assert plan.binder.sides.orders.keys() == {each.address for each in expected.pictures}
        plan = replaced.plan


def addresses_of(plan):
    return {each.address for each in (*plan.pictures, *plan.plates, *plan.data)}


def test_a_photo_that_no_page_shows_replaces_nothing(planned_with):
    photos = {("ort/1891", "obverse"): photo("one"), ("ort/1891", "edge"): photo("two")}
    plan = planned_with(photos, Reader.PUBLIC)
    shown = Shown(plan.pages)
    standing = plan.binder.cabinet.by_id["ort/1891"]
    assert replace_photo(plan, shown, standing, Side.REVERSE, closed(photo("three"))) is None
    assert replace_photo(plan, shown, standing, Side.EDGE, closed(photo("three"))) is not None


def test_pages_say_the_same_of_photos_in_which_the_coin_was_found_or_missed_alike():
    found, missed = closed(photo("one")), closed(photo("two", disc=None))
    assert is_alike(found, closed(photo("other", disc=Disc(1.0, 1.0, 1.0))))
    assert is_alike(missed, closed(photo("other", disc=None)))
    assert not is_alike(found, missed)
    assert not is_alike(missed, ClosedPhoto("other", 1, 1, None, "too light"))
