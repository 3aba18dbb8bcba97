from daterun.checks.catalogue import check_catalogue
from daterun.checks.misfits import find_misfits
from daterun.records.catalogue import read_catalogue


def misfits(folder):
    catalogue, problems = read_catalogue(folder)
    return {
        each.coin: each.why
        for each in find_misfits(catalogue, [*problems, *check_catalogue(catalogue, None)])
    }


def test_a_coin_of_a_date_never_struck_is_left_out_and_why_is_said(catalogue_folder, coin):
    found = misfits(
        catalogue_folder({"content/coins/ort/a.md": coin("1898"), "content/coins/b.md": coin("1891")})
    )
    assert found == {"ort/a": "none of the series Ort was struck with the date 1898"}


def test_two_coins_with_one_certificate_are_both_left_out(catalogue_folder, coin):
    certificate = "certificate: {by: North Pier Grading, grade: AU55, number: 4417}"
    found = misfits(
        catalogue_folder(
            {"content/coins/a.md": coin("1891", certificate), "content/coins/b.md": coin("1892", certificate)}
        )
    )
    assert set(found) == {"a", "b"}


def test_a_coin_that_cannot_be_read_is_named_too(catalogue_folder, coin):
    found = misfits(
        catalogue_folder({"content/coins/a.md": "no front matter", "content/coins/b.md": coin("18991")})
    )
    assert set(found) == {"a", "b"}


def test_advice_and_what_is_beside_the_point_leave_no_coin_out(catalogue_folder, coin):
    files = {
        "content/coins/a.md": coin("1891", notes="See [[ort/9999]]."),
        "content/coins/b.md": coin("1892", "lot: nowhere"),
        "content/coins/c.md": coin("1893", "set: alone"),
    }
    assert misfits(catalogue_folder(files)) == {}


def test_a_file_that_is_no_coin_is_not_taken_for_one(catalogue_folder):
    assert misfits(catalogue_folder({"content/coins/ort/notes.txt": "to buy: nothing"})) == {}
