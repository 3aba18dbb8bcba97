"""What holds of every plan: its addresses lead somewhere, its views are plain, and nothing hangs on chance."""

import dataclasses
import tempfile
from collections.abc import Iterator, Mapping
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from daterun.bundled import content_folder
from daterun.pages.findviews import CompareView, FindView
from daterun.pages.pictures import order_pictures
from daterun.pages.plan import Plan, plan_pages
from daterun.photos.photo import Disc, Photo
from daterun.readers.closed import ClosedCatalogue
from daterun.readers.closing import close_catalogue
from daterun.readers.reader import Reader
from daterun.records.catalogue import Catalogue, read_catalogue
from daterun.records.series import Side

ATOMS = (str, int, bool, type(None))


def walk(value: object) -> Iterator[object]:
    """Walk a view and all that is in it, views and atoms alike."""
    yield value
    if dataclasses.is_dataclass(value):
        for each in dataclasses.fields(value):
            yield from walk(getattr(value, each.name))
    elif isinstance(value, tuple):
        for each in value:
            yield from walk(each)


def addresses_in(value: object) -> Iterator[str]:
    """Find every address that a view names, but for those of pages themselves.

    In a page to find coins on, what columns and choices have in that place are words for its script.
    """
    if isinstance(value, FindView | CompareView):
        value = dataclasses.replace(
            value, columns=(), **({"choices": ()} if isinstance(value, FindView) else {})
        )
    for each in walk(value):
        if dataclasses.is_dataclass(each) and hasattr(each, "address") and not hasattr(each, "template"):
            yield each.address


def photos_of(catalogue: Catalogue) -> dict[tuple[str, Side], Photo]:
    """Give every second coin of a catalogue photos, some without a disc and some too small for most sizes."""
    found = {}
    for nth, coin in enumerate(catalogue.coins):
        if nth % 2 == 0:
            disc = Disc(900.0, 600.0, 800.0) if nth % 4 == 0 else None
            why = "" if disc else "the background is not plain"
            found[coin.id, Side.OBVERSE] = Photo(
                f"{nth:032x}", f"content/photos/{nth}.jpg", 1800, 1200, disc, why
            )
        if nth % 6 == 0:
            found[coin.id, Side.REVERSE] = Photo(f"{nth + 10**6:032x}", f"content/photos/{nth}r.jpg", 300, 90)
    return found


def check(plan: Plan) -> None:
    """Hold a plan to all that must be true of any."""
    addresses = [each.address for each in plan.pages]
    assert len(set(addresses)) == len(addresses), "two pages at one address"
    pictures = {each.address for each in plan.pictures}
    assert [each.address for each in plan.pictures] == sorted(pictures)
    plates = {each.address for each in plan.plates}
    data = {each.address for each in plan.data}
    seen = [each for page in plan.pages for each in (page.frame, page.body)]
    named = {address for each in [*seen, *plan.plates] for address in addresses_in(each) if address}
    named |= {
        each
        for file in plan.data
        for each in walk(file.rows)
        if str(each).startswith(("pictures/", "coins/"))
    }
    ids = {each.address: ids_in(each.body) for each in plan.pages}
    lost = {each for each in named - pictures - plates - data if not leads_to(each, ids)}
    assert lost == set(), "addresses that lead nowhere"
    assert pictures - named == set(), "pictures that no page shows"
    for page in plan.pages:
        assert page.frame.title
        strange = [each for each in walk(page) if not isinstance(each, (*ATOMS, tuple)) and not is_view(each)]
        assert strange == []


def check_alike(plan: Plan, again: Plan) -> None:
    """Hold two plans to be one, and name the pages in which they are not."""
    assert [each.address for each in plan.pages] == [each.address for each in again.pages]
    differing = [one.address for one, other in zip(plan.pages, again.pages, strict=True) if one != other]
    assert differing == []
    assert plan == again


def texts_of(plan: Plan) -> str:
    """Join every text of a plan, its data too."""
    whole = (plan.pages, plan.data)
    return "\n".join(each for part in whole for each in walk(part) if isinstance(each, str))


def ids_in(body: object) -> set[str]:
    """Find the ids of what stands on a page."""
    return {each.id for each in walk(body) if dataclasses.is_dataclass(each) and hasattr(each, "id")}


def leads_to(address: str, ids: Mapping[str, set[str]]) -> bool:
    """Tell whether an address is that of a page, and its fragment an id of that page or of a part of one."""
    page, _, fragment = address.partition("#")
    if page not in ids:
        return False
    return not fragment or any(f"{fragment}-".startswith(f"{each}-") for each in ids[page])


def is_view(value: object) -> bool:
    return dataclasses.is_dataclass(value) and type(value).__module__.startswith("daterun.pages.")


def turned(closed: ClosedCatalogue) -> ClosedCatalogue:
    """Turn round whatever pages are to put in order themselves: coins, and all that goes by name."""
    coins = tuple(
        dataclasses.replace(each, photos=dict(reversed(each.photos.items())))
        for each in reversed(closed.coins)
    )
    named = {key: dict(reversed(getattr(closed, key).items())) for key in ("issuers", "series", "lots")}
    return dataclasses.replace(closed, coins=coins, **named)


def plans(catalogue: Catalogue, reader: Reader, words) -> tuple[Plan, Plan]:
    """Plan a catalogue for a reader, and again with everything turned round."""
    closed = close_catalogue(catalogue, photos_of(catalogue), reader)
    return plan_pages(closed, words), plan_pages(turned(closed), words)


@pytest.fixture(scope="module")
def demo():
    catalogue, problems = read_catalogue(content_folder().parent)
    assert not any(each.is_error for each in problems)
    return catalogue


@pytest.fixture(scope="module")
def edition(demo, words):
    """Plan each edition of the demo once."""
    planned = {reader: plans(demo, reader, words) for reader in Reader}
    return lambda reader: planned[reader][0]


@pytest.mark.parametrize("reader", Reader)
def test_the_demo_has_no_address_that_leads_nowhere_and_no_view_that_is_not_plain(demo, words, reader):
    plan, again = plans(demo, reader, words)
    check(plan)
    check_alike(plan, again)


def test_the_demo_has_a_page_for_each_coin_that_the_reader_sees(demo, edition):
    for reader in Reader:
        pages = {each.address for each in edition(reader).pages}
        seen = {each.id for each in demo.coins if each.is_held or reader is Reader.KEEPER}
        assert {f"coins/{each}/index.html" for each in seen} <= pages
        hidden = {each.id for each in demo.coins} - seen
        assert pages.isdisjoint(f"coins/{each}/index.html" for each in hidden)


@pytest.mark.parametrize("reader", [Reader.PUBLIC, Reader.CLUB])
def test_nothing_of_the_demo_that_is_private_is_in_a_view(demo, edition, reader):
    said = texts_of(edition(reader))
    secrets = set()
    for coin in demo.coins:
        if coin.parted is not None:
            secrets.add(coin.id)
        if coin.acquired is not None:
            secrets |= {str(coin.acquired.price), coin.acquired.note}
        secrets |= {coin.kept, coin.private, coin.lot, str(coin.value.amount) if coin.value else ""}
        secrets |= {each.owner for each in coin.provenance if not each.publish}
    secrets |= {each.name for each in demo.lots.values()} | {each.remark for each in demo.settings.wants}
    secrets |= {
        why for aim in demo.settings.aims for slots in aim.leave_out.values() for why in slots.values()
    }
    secrets -= {"", "None"}
    assert len(secrets) > 100, "the demo has many private things to look for"
    assert [each for each in secrets if each in said] == []
    open_ = texts_of(edition(Reader.KEEPER))
    assert [each for each in secrets if each in open_], "the keeper sees what the others do not"


def test_an_edition_says_whose_it_is_and_the_keepers_keeps_robots_out(edition):
    for reader, notice in (
        (Reader.PUBLIC, ""),
        (Reader.CLUB, "An edition for the club, not for the public."),
        (Reader.KEEPER, "The keeper’s own edition. It is private; keep it to yourself."),
    ):
        pages = edition(reader).pages
        assert {each.frame.notice for each in pages} == {notice}
        assert {each.frame.keeps_robots_out for each in pages} == {reader is Reader.KEEPER}


def test_every_page_marks_the_room_it_is_in(edition):
    for page in edition(Reader.PUBLIC).pages:
        current = [each.link.address for each in page.frame.navigation if each.is_current]
        rooms = {each.link.address.split("/")[0] for each in page.frame.navigation}
        room = page.address.split("/")[0]
        assert [each.split("/")[0] for each in current] == ([room] if room in rooms else [])


def test_the_pictures_of_a_plan_are_those_of_its_photos(demo, edition):
    photos = {each.key: each for each in photos_of(demo).values()}
    widths, picture_format = demo.settings.pictures.widths, demo.settings.pictures.format.value
    for order in edition(Reader.PUBLIC).pictures:
        photo = photos[order.photo]
        assert order in order_pictures(
            photo.key, photo.width_px, photo.height_px, photo.disc, widths, picture_format
        )


# Small catalogues out of parts that fit together well or badly; what is wrong in them stops a build, but a plan
# of them must still be whole.
DATES = ["1890", "1891", "1892", "1894-95", "1895", "1899", "undated"]
FIGURES = [
    *("unknown", "500", "{mintage: 40, scarce: yes, note: few}", "{proofs: 20}", "{mintage: [7, 9]}"),
    *("{by mint: {none: 5, K: unknown}}", "{by mint: {K: {proofs: 4}}}", "{by type: {a: 5, b: 6}}"),
    *(
        "{mintage: 90, by variety: {x: 40, y: 50}}",
        "{issues: [{mint: K, variety: x}, {mint: none, mintage: 8}]}",
    ),
]
LINES = [
    *("type: a", "type: b", "variety: x", "variety: [x, y]", "mint: K", "mint: none", "strike: proof"),
    *("kind: pattern", "kind: forgery\ndeparts: cast", "grade: VF30", "grade: GVF/EF", "grade: VF30 details"),
    *("problem: holed", "weight: 8.97 g", "axis: 6h", "added: 2024-02", "set: s", "quantity: 3"),
    *("parted: {how: sold}", "certificate: {by: Pier, grade: AU55, number: 7}", "struck in: 1900"),
]
NOTES = [
    "[[0]]",
    "[[1 both]]",
    "[[2|words]]",
    "[[one 1891]]",
    "[[two undated]]",
    "[[one 1870]]",
    "[[zero]]",
    "No link.",
]
MONARCHS = "monarchs:\n  m: {name: M, reign: {from: 1880, to: 1894}}\n  n: {name: N, reign: {from: 1894}}\n"
STANDARD = "standards: [{dates: 1890–1894, metal: silver, fineness: .750, weight: 9 g, diameter: 26 mm}]\n"
TYPES = (
    "types: [{id: a, dates: 1890–1894, monarch: m}, {id: b, dates: 1892–1899, monarch: n, name: Second}]\n"
)
VARIETIES = "varieties: [{id: x, dates: 1890–1892}, {id: y, dates: [1891, 1899]}]\n"


@st.composite
def small_catalogues(draw: st.DrawFn) -> Mapping[str, str]:
    files = {"content/catalogue.yaml": "title: Small\nkeeper: Ida Quennell\n"}
    for issuer in draw(st.sampled_from([["v"], ["v", "w"], []])):
        mints = draw(st.sampled_from(["", "mints: {none: Vessborg, K: Kaldhamn}\n"]))
        files[f"content/issuers/{issuer}.yaml"] = "name: V\n" + mints + draw(st.sampled_from(["", MONARCHS]))
    for name in draw(st.lists(st.sampled_from(["one", "two", "three"]), unique=True)):
        issuer = draw(st.sampled_from(["v", "w"]))
        struck = draw(st.dictionaries(st.sampled_from(DATES), st.sampled_from(FIGURES), max_size=5))
        more = "".join(
            draw(st.lists(st.sampled_from([STANDARD, TYPES, VARIETIES, "denomination: D\n"]), unique=True))
        )
        rows = "".join(f"    {date}: {figures}\n" for date, figures in struck.items()) or "    {}\n"
        tail = draw(st.sampled_from(["", "  not struck: [1893]\n", "  not known: [1893, 1896–1898]\n"]))
        text = f"name: {name}\nissuer: {issuer}\n{more}issues:\n  struck:\n{rows}{tail}"
        files[f"content/series/{issuer}/{name}.yaml"] = text
    dates = [*DATES, "18?2", "1870"]
    for nth in range(draw(st.integers(0, 6))):
        lines = draw(st.lists(st.sampled_from(LINES), unique_by=lambda each: each.split(":")[0], max_size=5))
        front = [
            f"series: {draw(st.sampled_from(['one', 'two']))}",
            f"date: {draw(st.sampled_from(dates))}",
            *lines,
        ]
        notes = draw(st.sampled_from(NOTES))
        files[f"content/coins/{nth}.md"] = "\n".join(["---", *front, "---", notes, ""])
    if draw(st.booleans()):
        files["content/pages/e.md"] = "---\ntitle: Essay\n---\n" + " ".join(NOTES)
    return files


@settings(max_examples=80, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(small_catalogues(), st.sampled_from(Reader))
def test_any_small_catalogue_has_a_whole_plan_that_hangs_on_no_order(words, files, reader):
    with tempfile.TemporaryDirectory() as folder:
        for name, text in files.items():
            path = Path(folder) / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, encoding="utf-8")
        catalogue, _ = read_catalogue(Path(folder))
    plan, again = plans(catalogue, reader, words)
    check(plan)
    check_alike(plan, again)
