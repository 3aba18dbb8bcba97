"""What a catalogue looks like once it is closed for a reader."""

from pathlib import Path
from string import Template

import pytest

from daterun.photos.photo import Disc, Photo
from daterun.readers.closing import close_catalogue
from daterun.readers.reader import Reader
from daterun.records.attribution import attribute
from daterun.records.catalogue import read_catalogue
from daterun.records.series import Side

EXAMPLE = Path(__file__).parents[1] / "records" / "example"
SERIES = """
name: Ort
issuer: vessmark
types: [{id: ingrith, dates: 1891–1893}]
issues: {struck: {1891: 341000, 1892: 2310, 1893: unknown}}
"""
OTHERS = (Reader.PUBLIC, Reader.CLUB)


@pytest.fixture
def close(tmp_path):
    """Close a small catalogue of one series for a reader, its files given by path under content."""

    def closed(files, reader, photos=None):
        together = {
            "catalogue.yaml": "title: Cabinet\ncurrency: VKR\n",
            "series/vessmark/ort.yaml": SERIES,
            **files,
        }
        for name, text in together.items():
            path = tmp_path / "content" / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, encoding="utf-8")
        catalogue, problems = read_catalogue(tmp_path)
        assert problems == []
        return close_catalogue(catalogue, photos or {}, reader)

    return closed


def coin(matter, notes=""):
    return f"---\nseries: ort\ndate: 1891\n{matter}\n---\n{notes}"


@pytest.mark.parametrize("reader", Reader)
def test_everyone_sees_what_the_coin_is(reader):
    catalogue, _ = read_catalogue(EXAMPLE)
    found = close_catalogue(catalogue, {}, reader).coin("ort/1899")
    assert found.series == "vessmark/ort"
    assert (found.date.key, found.varieties, found.mint) == (
        "1899",
        ("old-spelling", "nine-over-eight"),
        "none",
    )
    assert (found.grade.text, found.graded_by, str(found.graded_on)) == (
        "AU55",
        "North Pier Grading",
        "2025-05-02",
    )
    assert (str(found.weight), str(found.diameter), str(found.axis)) == ("8.97 g", "26.4 mm", "12h")
    assert str(found.gravity.wet) == "8.08 g"
    assert (found.problems, found.is_problem) == (("cleaned",), True)
    assert (found.design, found.references) == (
        "Strong strike on the spruce, weak on the date",
        ("Report of 1899 plate 3",),
    )
    assert (str(found.added), [each.owner for each in found.provenance]) == (
        "2019-04-10",
        ["Hallin collection"],
    )
    assert found.notes.startswith("Sharp lettering")


@pytest.mark.parametrize("reader", OTHERS)
def test_others_see_nothing_of_what_was_paid_where_it_is_and_who_sold_it(reader):
    catalogue, _ = read_catalogue(EXAMPLE)
    closed = close_catalogue(catalogue, {}, reader)
    assert closed.coin("ort/1899").private is None
    assert closed.lots == {}


def test_the_keeper_sees_all_of_it():
    catalogue, _ = read_catalogue(EXAMPLE)
    closed = close_catalogue(catalogue, {}, Reader.KEEPER)
    private = closed.coin("ort/1899").private
    assert (private.acquired.source, private.kept, private.note) == (
        "R. Tarn",
        "cabinet 2, tray 4",
        "seller hinted at a hoard",
    )
    assert (str(private.value.amount), private.set, private.lot, private.quantity) == (
        "80 VKR",
        "year-set-1899",
        "fair-2019",
        1,
    )
    assert list(closed.lots) == ["fair-2019"]


def test_a_coin_costs_its_own_price_or_else_its_part_of_the_lot():
    catalogue, _ = read_catalogue(EXAMPLE)
    closed = close_catalogue(catalogue, {}, Reader.KEEPER)
    costs = {each.id: str(each.private.cost) for each in closed.coins}
    assert costs == {"ort/1892": "72.51 VKR", "ort/1899": "45.00 VKR"}


def test_a_closed_coin_is_attributed_by_the_rule_for_records(close):
    closed = close({"coins/ort/1891.md": coin("grade: VF30")}, Reader.PUBLIC)
    found = attribute(closed.coin("ort/1891"), closed.find_series("ort"), None)
    assert (found.type.id, found.issue.figures.mintage) == ("ingrith", (341000,))


def test_a_coin_out_of_its_holder_shows_the_newest_own_grade_and_its_reasons(close):
    text = coin(
        "grades:\n  - {grade: VF30, on: 2020-01-01, reasons: early guess}\n"
        "  - {grade: EF45, on: 2024-02-11, reasons: bold}\n"
        "certificate: {by: North Pier Grading, grade: AU50, number: 0640, on: 2022-05-02, sealed: no}"
    )
    found = close({"coins/ort/1891.md": text}, Reader.PUBLIC).coin("ort/1891")
    assert (found.grade.text, found.graded_by, str(found.graded_on), found.grade_reasons) == (
        "EF45",
        "",
        "2024-02-11",
        "bold",
    )
    assert (found.certificates, found.own_grades, found.certificate_number) == ((), (), "")


def test_club_and_keeper_see_earlier_own_grades_beside_certificates(close):
    text = coin(
        "grades: [{grade: VF30, reasons: early guess}, {grade: EF45}]\n"
        "certificates:\n"
        "  - {by: Quay Grading, grade: EF40, number: 12, on: 2019, sealed: no}\n"
        "  - {by: North Pier Grading, grade: AU50, number: 0640, on: 2022-05-02}"
    )
    files = {"coins/ort/1891.md": text}
    public, club, keeper = (close(files, reader).coin("ort/1891") for reader in Reader)
    assert [each.by for each in public.certificates] == ["North Pier Grading"]
    assert public.own_grades == ()
    assert public.grade_reasons == ""
    assert [each.by for each in club.certificates] == ["Quay Grading", "North Pier Grading"]
    assert [each.grade.text for each in club.own_grades] == ["VF30", "EF45"]
    assert [each.number for each in club.certificates] == ["", ""]
    assert [each.number for each in keeper.certificates] == ["12", "0640"]
    assert (club.certificate_number, keeper.certificate_number) == ("", "0640")


def test_certificate_numbers_are_shown_where_they_are_turned_on(close):
    files = {
        "catalogue.yaml": "title: Cabinet\n"
        "readers: {public: {certificate numbers: yes}, club: {certificate numbers: no}}\n",
        "coins/ort/1891.md": coin("certificate: {by: North Pier Grading, grade: AU50, number: 0640}"),
    }
    public, club = (close(files, reader) for reader in OTHERS)
    assert public.settings.shows_certificate_numbers
    assert public.coin("ort/1891").certificate_number == "0640"
    assert not club.settings.shows_certificate_numbers
    assert club.coin("ort/1891").certificate_number == ""


def test_a_problem_is_told_once_whoever_tells_it(close):
    text = coin(
        "grade: VF30 details, cleaned\nproblem: [Scratched]\n"
        "certificate: {by: North Pier Grading, grade: 'AU50 details, scratched, holed', problem: cleaned}"
    )
    found = close({"coins/ort/1891.md": text}, Reader.PUBLIC).coin("ort/1891")
    assert (found.problems, found.is_problem) == (("Scratched", "cleaned", "holed"), True)


def test_the_problem_of_a_certificate_no_longer_in_force_is_not_the_coins(close):
    text = coin(
        "grade: VF30\ncertificate: {by: North Pier Grading, grade: AU50, problem: cleaned, sealed: no}"
    )
    found = close({"coins/ort/1891.md": text}, Reader.PUBLIC).coin("ort/1891")
    assert (found.problems, found.is_problem) == ((), False)


def test_a_coin_without_any_grade_has_none_in_force(close):
    found = close({"coins/ort/1891.md": coin("")}, Reader.PUBLIC).coin("ort/1891")
    assert (found.grade, found.graded_by, found.graded_on, found.grade_reasons) == (None, "", None, "")


def test_parted_coins_do_not_exist_for_others(close):
    files = {
        "coins/ort/1891.md": coin("parted: {on: 2024-05-01, to: M. Orre, how: sold, price: 90 VKR}"),
        "coins/ort/1891-b.md": coin("grade: VF30"),
    }
    public, club, keeper = (close(files, reader) for reader in Reader)
    assert [each.id for each in public.coins] == ["ort/1891-b"]
    assert club.coin("ort/1891") is None
    assert keeper.coin("ort/1891").private.parted.to == "M. Orre"
    assert [each.is_held for each in keeper.coins] == [False, True]


def test_former_owners_are_shown_to_others_only_where_the_keeper_says_so(close):
    text = coin("provenance: [{owner: Hallin, publish: yes}, {owner: Orre, publish: no}, {owner: Tarn}]")
    files = {"coins/ort/1891.md": text}
    public, club, keeper = (close(files, reader).coin("ort/1891") for reader in Reader)
    assert [each.owner for each in public.provenance] == ["Hallin"]
    assert public.provenance == club.provenance
    assert [each.owner for each in keeper.provenance] == ["Hallin", "Orre", "Tarn"]


def test_others_see_that_a_slot_is_left_out_but_not_why():
    catalogue, _ = read_catalogue(EXAMPLE)
    public, club, keeper = (close_catalogue(catalogue, {}, reader).settings.aims[0] for reader in Reader)
    assert public.leave_out == club.leave_out == {"ort": {"1892": ""}}
    assert keeper.leave_out == {"ort": {"1892": "beyond my means"}}
    assert (public.name, public.at_least.text, public.span) == (
        "Silver by date, Fine or better",
        "F12",
        keeper.span,
    )


def test_the_club_sees_what_is_wanted_and_the_keeper_at_what_price():
    catalogue, _ = read_catalogue(EXAMPLE)
    public, club, keeper = (close_catalogue(catalogue, {}, reader).settings for reader in Reader)
    assert (public.shows_wants, club.shows_wants, keeper.shows_wants) == (False, True, True)
    assert public.wants == ()
    assert [(each.slot, each.at_most, each.remark) for each in club.wants] == [("ort 1892", None, "")]
    assert [(each.slot, str(each.at_most), each.remark) for each in keeper.wants] == [
        ("ort 1892", "400 VKR", "ask at the Kaldhamn fair")
    ]


def test_wants_turned_on_for_the_public_and_off_for_the_club_are_so(close):
    files = {
        "catalogue.yaml": "title: Cabinet\ncurrency: VKR\n"
        "readers: {public: {wants: yes}, club: {wants: no}}\n"
        "wants: [{slot: ort 1892, at most: 400, remark: ask}]\n"
    }
    public, club = (close(files, reader).settings for reader in OTHERS)
    assert [(each.slot, each.at_most, each.remark) for each in public.wants] == [("ort 1892", None, "")]
    assert (club.shows_wants, club.wants) == (False, ())


DAYS = Template(
    "title: Cabinet\n$as_of\nmetals: {silver: {price: 0.61 VKR, on: 2021-10-02, source: evening paper}}\n"
)


def test_the_day_ages_are_reckoned_to_is_the_latest_that_the_reader_may_see(close):
    files = {
        "catalogue.yaml": DAYS.substitute(as_of=""),
        "coins/ort/1891.md": coin(
            "added: 2022-01-05\nacquired: {on: 2025-03-01}\nvalue: {amount: 80 VKR, on: 2025-06-01}\n"
            "grades: [{grade: VF30, on: 2024-01-01}]\n"
            "certificate: {by: North Pier Grading, grade: AU50, on: 2023-01-01}"
        ),
        "coins/ort/1891-b.md": coin("parted: {on: 2026-05-01}\nadded: 2026-01-01"),
    }
    days = [str(close(files, reader).settings.as_of) for reader in Reader]
    assert days == ["2023-01-01", "2024-01-01", "2026-05-01"]


def test_the_day_in_the_settings_comes_before_the_latest_on_record(close):
    files = {"catalogue.yaml": DAYS.substitute(as_of="as of: 2020-12-31")}
    assert [str(close(files, reader).settings.as_of) for reader in Reader] == ["2020-12-31"] * 3


def test_a_catalogue_without_a_day_has_none_to_reckon_to(close):
    assert close({}, Reader.KEEPER).settings.as_of is None


def test_a_photo_has_the_disc_that_was_found_unless_the_keeper_gives_one(close):
    text = coin("photos: {obverse: {crop: {x: 812, y: 790.5, diameter: 1480}}}")
    found = Disc(400.0, 400.0, 700.0)
    photos = {
        ("ort/1891", Side.OBVERSE): Photo("aa", "content/photos/a.jpg", 1600, 1580, None, "busy background"),
        ("ort/1891", Side.REVERSE): Photo("bb", "content/photos/b.jpg", 800, 800, found),
        ("ort/1891", Side.EDGE): Photo("", "content/photos/c.jpg", 0, 0, None, "", "is broken"),
    }
    closed = close({"coins/ort/1891.md": text}, Reader.KEEPER, photos).coin("ort/1891")
    assert set(closed.photos) == {"obverse", "reverse"}
    obverse, reverse = closed.photos["obverse"], closed.photos["reverse"]
    assert (obverse.key, obverse.width_px, obverse.height_px) == ("aa", 1600, 1580)
    assert (obverse.disc, obverse.fallback) == (Disc(812.0, 790.5, 1480.0), "")
    assert reverse.disc == found
    assert closed.private.photo_files["obverse"] == "content/photos/a.jpg"


def test_essays_are_for_everyone():
    catalogue, _ = read_catalogue(EXAMPLE)
    for reader in Reader:
        (essay,) = close_catalogue(catalogue, {}, reader).essays
        assert (essay.id, essay.title, str(essay.on)) == (
            "spellings",
            "Two spellings of one value",
            "2025-11-02",
        )
