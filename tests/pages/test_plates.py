"""Which coins have a plate, and by what a page is shown elsewhere where they have none."""

SETTINGS = "title: A small cabinet\nweb: https://example.org/coins/\n"
PHOTOS = {("a", "obverse"): "o", ("a", "reverse"): "r"}


def made(planned, coin, photo, *lines):
    return planned(
        {
            "content/catalogue.yaml": SETTINGS + "".join(f"{each}\n" for each in lines),
            "content/coins/a.md": coin("1891", "added: 2020-01-02", "grade: VF30"),
            "content/coins/b.md": coin("1892"),
            "content/pages/on-orts.md": "---\ntitle: On orts\n---\nHere is [[b]], and [[a both]].\n",
            "content/pages/bare.md": "---\ntitle: Bare\n---\nHere is [[b]].\n",
        },
        photos={key: photo(name * 32) for key, name in PHOTOS.items()},
    )


def picture_of(found, address):
    return found.pages[address].frame.tags.picture


def test_a_coin_with_a_photo_has_a_plate_to_which_its_page_leads(planned, coin, photo):
    found = made(planned, coin, photo)
    (plate,) = found.plan.plates
    assert found.coin("a").plate.address == plate.address
    assert found.coin("b").plate.address == ""


def test_without_plates_none_is_made_and_no_page_leads_to_one(planned, coin, photo):
    found = made(planned, coin, photo, "pictures: {plates: no}")
    assert found.plan.plates == ()
    assert found.coin("a").plate.address == ""


def test_home_monarch_denomination_and_essay_are_shown_by_a_coin_on_them(planned, coin, photo):
    found = made(planned, coin, photo)
    (plate,) = found.plan.plates
    for address in (
        "index.html",
        "monarchs/vessmark/ingrith/index.html",
        "denominations/vessmark/ort/index.html",
        "essays/on-orts/index.html",
        "coins/a/index.html",
    ):
        picture = picture_of(found, address)
        assert picture.url == f"https://example.org/coins/{plate.address}", address
        assert (picture.width_px, picture.height_px) == (1920, 1080)
    assert picture_of(found, "essays/bare/index.html") is None
    assert picture_of(found, "coins/b/index.html") is None


def test_without_plates_a_page_is_shown_by_the_side_that_tells_most(planned, coin, photo):
    found = made(planned, coin, photo, "pictures: {plates: no}")
    picture = picture_of(found, "index.html")
    reverse = found.coin("a").sides[1].picture
    assert picture.url == f"https://example.org/coins/{reverse.largest.address}"
    assert picture.text == "Ort 1891, reverse"
    (arrival,) = found.plan.announcements.arrivals
    assert arrival.picture == picture.url
