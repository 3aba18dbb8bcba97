import argparse
import io
import json

import pytest

from daterun.command.gaps import run

SECOND_ISSUER = {
    "content/issuers/norhavn.yaml": "name: Norhavn\n",
    "content/series/norhavn/ort.yaml": "name: Ort\nissuer: norhavn\nissues: {struck: {1900: 500, 1901: 800}}\n",
}


@pytest.fixture
def gaps(catalogue_folder):
    """Run the command over a small catalogue; give its exit code and what it printed."""

    def ask(files=(), as_json=False, encoding="utf-8"):
        raw = io.BytesIO()
        out = io.TextIOWrapper(raw, encoding=encoding)
        code = run(argparse.Namespace(folder=catalogue_folder(dict(files)), json=as_json), out)
        out.flush()
        return code, raw.getvalue().decode(encoding)

    return ask


def aims(*more):
    return "\n".join(
        ["title: A small cabinet", "currency: VKR", "aims:", *(f"  - {each}" for each in more), ""]
    )


def test_the_figures_come_in_the_promised_shape(gaps, coin):
    code, printed = gaps(
        {
            "content/catalogue.yaml": aims(
                "{id: fine, name: Fine or better, series: ort, dates: 1891–1893, at least: F12,"
                " leave out: {ort: {1892: beyond my means}}}"
            ),
            "content/coins/a.md": coin("1891", "grade: VG8"),
        },
        as_json=True,
    )
    assert code == 0
    found = json.loads(printed)
    (ort,), (fine,) = found["series"], found["aims"]
    assert ort == {
        "id": "ort",
        "name": "Ort",
        "slots": 13,
        "filled": 1,
        "missing": 12,
        "missing_dates": [
            *("1892", "1893", "1895-96", "1897", "1899", "1900", "1901"),
            *("1902", "1903", "1904", "1905", "1906"),
        ],
        "mean_grade": 8.0,
        "weakest": ["a"],
        "ungraded": [],
        "longest_stretch": {"slots": 1, "first": "1891", "last": "1891"},
    }
    curve = fine.pop("curve")
    assert fine == {
        "id": "fine",
        "name": "Fine or better",
        "slots": 3,
        "filled": 0,
        "below": 1,
        "missing": 1,
        "left_out": 1,
        "missing_dates": ["ort 1893"],
        "mean_grade": None,
        "weakest": [],
        "ungraded": [],
        "longest_stretch": None,
        "scarcest": [{"slot": "ort 1893", "struck": []}],
        "upgrades": [{"slot": "ort 1891", "coin": "a", "steps": 2, "problem": False}],
        "spares": [],
    }
    assert [each["at_least"] for each in curve[:4]] == [None, 1, 2, 3]
    assert [each["filled"] for each in curve] == [1] * 7 + [0] * 24
    assert found["monarchs"] == [
        {"id": "vessmark/ingrith", "name": "Ingrith", "slots": 3, "filled": 1, "missing": 2},
        {"id": "vessmark/torvald-iii", "name": "Torvald III", "slots": 10, "filled": 0, "missing": 10},
    ]
    assert found["decades"] == [
        {"decade": 1890, "slots": 6, "filled": 1, "missing": 5},
        {"decade": 1900, "slots": 7, "filled": 0, "missing": 7},
    ]
    assert found["years"][:2] == [
        {"year": 1891, "slots": 1, "filled": 1, "missing": 0},
        {"year": 1892, "slots": 1, "filled": 0, "missing": 1},
    ]
    assert (found["spares"], found["not_counted"]) == ([], [])


def test_a_coin_of_a_date_never_struck_is_named_and_not_counted(gaps, coin, capsys):
    files = {
        "content/coins/good.md": coin("1891", "grade: VF30"),
        "content/coins/wrong.md": coin("1898", "grade: MS70"),
    }
    why = "none of the series Ort was struck with the date 1898"
    code, printed = gaps(files, as_json=True)
    found = json.loads(printed)
    assert code == 1
    assert found["not_counted"] == [{"coin": "wrong", "why": why}]
    assert (found["series"][0]["filled"], found["series"][0]["mean_grade"]) == (1, 30.0)
    _, printed = gaps(files)
    assert printed.endswith(f"\nNot counted until their records are mended\n  wrong: {why}\n")
    assert "daterun check tells of them" in capsys.readouterr().err


def test_two_coins_with_one_certificate_are_both_named_and_neither_is_counted(gaps, coin):
    certificate = "certificate: {by: North Pier Grading, grade: AU55, number: 4417}"
    files = {
        "content/coins/a.md": coin("1891", certificate),
        "content/coins/b.md": coin("1892", certificate),
    }
    _, printed = gaps(files, as_json=True)
    found = json.loads(printed)
    assert [each["coin"] for each in found["not_counted"]] == ["a", "b"]
    assert found["series"][0]["filled"] == 0


def test_an_aim_across_series_names_its_slots_without_a_series(gaps, coin):
    daler = "name: Daler\nissuer: vessmark\ntypes: [{id: d, dates: 1891, monarch: ingrith}]\n"
    files = {
        "content/catalogue.yaml": aims(
            "{id: heads, name: Heads, series: [daler, ort], one per: monarch, across series: yes}"
        ),
        "content/series/vessmark/daler.yaml": f"{daler}issues: {{struck: {{1891: 5}}}}\n",
        "content/coins/a.md": coin("1904"),
    }
    _, printed = gaps(files, as_json=True)
    (heads,) = json.loads(printed)["aims"]
    assert (heads["slots"], heads["filled"], heads["missing_dates"]) == (2, 1, ["ingrith"])


def test_a_series_goes_by_its_short_id_only_while_that_is_unique(gaps, coin):
    files = {
        "content/catalogue.yaml": aims("{id: all, name: All, series: [vessmark/ort], dates: 1891–1892}"),
        "content/series/vessmark/daler.yaml": "name: Daler\nissuer: vessmark\nissues: {struck: {1891: 5}}\n",
        **SECOND_ISSUER,
    }
    _, printed = gaps(files, as_json=True)
    found = json.loads(printed)
    assert [each["id"] for each in found["series"]] == ["vessmark/ort", "daler", "norhavn/ort"]
    assert found["aims"][0]["missing_dates"] == ["vessmark/ort 1891", "vessmark/ort 1892"]


def test_a_coin_parted_with_fills_no_slot(gaps, coin):
    files = {"content/coins/a.md": coin("1891", "parted: {on: 2024-05-01, how: sold}")}
    _, printed = gaps(files, as_json=True)
    assert json.loads(printed)["series"][0]["filled"] == 0


def test_a_run_is_drawn_a_decade_a_line_and_its_signs_are_explained(gaps, coin):
    code, printed = gaps({"content/coins/a.md": coin("1891"), "content/coins/b.md": coin("1902", "mint: K")})
    assert code == 0
    assert printed == (
        "Ort (ort)  2 of 13\n"
        "  1890s    ● ○ ○ p ○   ○ · ○\n"
        "  1900s  ○ ○ ● ○ ○ ○ ○\n"
        "  longest unbroken: 1891 alone\n"
        "  missing: 1892, 1893, 1895-96, 1897, 1899, 1900, 1901, 1903, 1904, 1905, 1906\n"
        "\n"
        "● in the cabinet, ○ missing, · none struck, p proofs only\n"
        "\n"
        "By monarch\n"
        "  Ingrith      ██████░░░░░░░░░░░░░░ 1 of 3\n"
        "  Torvald III  ██░░░░░░░░░░░░░░░░░░ 1 of 10\n"
        "\n"
        "By decade\n"
        "  1890s  ███░░░░░░░░░░░░░░░░░ 1 of 6\n"
        "  1900s  ██░░░░░░░░░░░░░░░░░░ 1 of 7\n"
    )


def test_a_long_list_of_missing_dates_is_broken_into_lines(gaps):
    struck = ", ".join(f"{year}: 5" for year in range(1870, 1900))
    ort = f"name: Ort\nissuer: vessmark\nissues: {{struck: {{{struck}}}}}\n"
    _, printed = gaps({"content/series/vessmark/ort.yaml": ort})
    lines = printed.partition("missing: ")[2].partition("\n\n")[0].split("\n")
    assert len(lines) == 3
    assert all(len(each) <= 78 for each in lines)
    assert [each.strip() for each in " ".join(lines).split(",")] == [str(year) for year in range(1870, 1900)]


def test_an_aim_has_a_bar_its_counts_its_grades_and_what_to_look_for(gaps, coin):
    files = {
        "content/catalogue.yaml": aims(
            "{id: fine, name: Fine or better, series: ort, dates: 1891–1895, at least: F12,"
            " leave out: {ort: {1893: beyond my means}}}"
        ),
        "content/coins/a.md": coin("1891", "grade: VF30"),
        "content/coins/b.md": coin("1892", "grade: VG8"),
    }
    _, printed = gaps(files)
    assert printed.endswith(
        "Fine or better\n"
        "  ██████▒▒▒▒▒▒▒░░░░░░░ 1 of 3 filled, 1 below the aim, 1 missing, 1 left out\n"
        "  mean grade 30.0, weakest VF30 (a)\n"
        "  filled by at least: VG8 2, VF30 1\n"
        "  missing, scarcest first: ort 1895-96\n"
        "  to be upgraded: ort 1892\n"
    )


def test_where_the_signs_cannot_be_shown_plain_ones_stand(gaps, coin):
    _, printed = gaps({"content/coins/a.md": coin("1891")}, encoding="ascii")
    assert "  1890s    # o o p o   o . o\n" in printed
    assert "# in the cabinet, o missing, . none struck, p proofs only\n" in printed


def test_a_year_of_which_nothing_is_known_has_a_sign_of_its_own(gaps):
    ort = "name: Ort\nissuer: vessmark\nissues: {struck: {1890: 5, 1892: 5}, not known: [1891]}\n"
    _, printed = gaps({"content/series/vessmark/ort.yaml": ort})
    assert "  1890s  ○ ? ○\n" in printed
    assert "○ missing, ? not known" in printed


def test_two_coins_of_one_year_have_a_sign_each(gaps, coin):
    ort = "name: Ort\nissuer: vessmark\nissues: {struck: {1895: 5, 1895-96: 5, 1897: 5}}\n"
    _, printed = gaps({"content/series/vessmark/ort.yaml": ort, "content/coins/a.md": coin("1895-96")})
    assert "○●" in printed
    assert "1 of 3" in printed


def test_an_issue_without_a_year_is_among_the_missing(gaps):
    ort = "name: Ort\nissuer: vessmark\nissues: {struck: {undated: 5}}\n"
    _, printed = gaps({"content/series/vessmark/ort.yaml": ort})
    assert printed == "Ort (ort)  0 of 1\n  missing: undated\n"


def test_files_with_problems_are_told_of_beside_the_figures(gaps, coin, capsys):
    code, printed = gaps({"content/coins/a.md": coin("18991")}, as_json=True)
    assert code == 1
    assert json.loads(printed)["series"][0]["filled"] == 0
    assert capsys.readouterr().err == (
        "Some files have problems, and what they spoil is not counted; daterun check tells of them.\n"
    )


def test_a_series_whose_issuer_has_no_file_is_shown_all_the_same(gaps, coin):
    code, printed = gaps(
        {"content/issuers/vessmark.yaml": None, "content/coins/a.md": coin("1891")}, as_json=True
    )
    assert code == 0
    assert json.loads(printed)["series"][0]["filled"] == 1


def test_a_catalogue_without_series_has_nothing_to_show(gaps):
    _, printed = gaps({"content/series/vessmark/ort.yaml": None})
    assert printed == "\n"
    _, printed = gaps({"content/series/vessmark/ort.yaml": None}, as_json=True)
    found = json.loads(printed)
    assert (found["series"], found["aims"]) == ([], [])
    assert not any(found.values())
