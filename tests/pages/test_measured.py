import pytest


def measured(planned, coin, *lines, date="1891", **files):
    found = planned({"content/coins/a.md": coin(date, *lines), **files})
    table = found.coin("a").measured
    return [[each.text for each in row] for row in table.rows] if table is not None else None


def test_nothing_measured_has_no_table(planned, coin):
    assert measured(planned, coin) is None


@pytest.mark.parametrize(
    ("weight", "shown", "difference"),
    [
        ("8.97 g", "8.97 g", "0.3 % under"),
        ("9.1 g", "9.10 g", "1.1 % over"),
        ("9.000 g", "9.000 g", "at the standard"),
        ("9.002 g", "9.002 g", "at the standard"),
    ],
)
def test_a_weight_is_set_beside_the_standard(planned, coin, weight, shown, difference):
    assert measured(planned, coin, f"weight: {weight}") == [["Weight", "9.000 g", shown, difference]]


def test_size_and_axis_are_set_beside_the_standard(planned, coin):
    assert measured(planned, coin, "diameter: 26.4 mm", "thickness: 1.9 mm", "axis: 6h") == [
        ["Diameter", "26.5 mm", "26.4 mm", ""],
        ["Thickness", "", "1.9 mm", ""],
        ["Die axis", "12h", "6h", "differs"],
    ]
    assert measured(planned, coin, "axis: 0°") == [["Die axis", "12h", "12h", ""]]


def test_a_date_of_two_standards_measures_against_neither_until_the_coin_says_which(
    planned, base_files, coin
):
    ort = base_files["content/series/vessmark/ort.yaml"].replace(
        "dates: 1904–1906, metal", "dates: 1903–1906, metal"
    )
    files = {"content/series/vessmark/ort.yaml": ort}
    assert measured(planned, coin, "weight: 8.97 g", date="1903", **files) == [["Weight", "", "8.97 g", ""]]
    said = measured(planned, coin, "weight: 8.97 g", "standard: 1903–1906", date="1903", **files)
    assert said == [["Weight", "9.000 g", "8.97 g", "0.3 % under"]]


def test_specific_gravity_is_set_beside_that_of_the_alloy(planned, coin):
    row = measured(planned, coin, "gravity: {dry: 8.97 g, wet: 8.08 g, reading: 0.01 g}")[0]
    # Silver of .750 with copper: 1 / (0.75 / 10.49 + 0.25 / 8.96) = 10.06. Weighed: 8.97 / 0.89 = 10.08, and with
    # each weighing half a step of the balance off, 8.975 / 0.90 = 9.97 to 8.965 / 0.88 = 10.19.
    assert row == [
        "Specific gravity",
        "10.06, reckoned from the alloy",
        "10.08",
        "between 9.97 and 10.19, by the balance’s reading",
    ]


def test_an_alloy_is_reckoned_by_its_metals_however_they_are_written(planned, coin, series):
    # Copper 95, tin 4, zinc 1: 100 / (95 / 8.96 + 4 / 7.31 + 1 / 7.14) = 8.86
    standard = "standards: [{dates: 1891, metal: bronze, alloy: {Copper: 95, TIN: 4, zinc: 1}}]"
    files = {"content/series/vessmark/ort.yaml": series("1891: 5", standard)}
    row = measured(planned, coin, "gravity: {dry: 5.00 g, wet: 4.44 g}", **files)[0]
    assert row[1] == "8.86, reckoned from the alloy"


def test_fine_metal_is_reckoned_from_the_coins_own_weight_else_the_standard(planned, coin):
    files = {"content/coins/a.md": coin("1891", "weight: 8.80 g"), "content/coins/b.md": coin("1891")}
    found = planned(files)
    own, standard = (found.fact(each, "Fine silver") for each in "ab")
    assert (own.value, own.remark) == ("6.60 g fine (0.212 oz t)", "from the weight measured")
    assert (standard.value, standard.remark) == ("6.75 g fine (0.217 oz t)", "from the standard weight")
    assert any("Melting coin is against the law in some places" in each for each in found.coin("a").cautions)


def test_base_metal_has_no_content(planned, coin, series):
    bronze = series("1891: 5", "standards: [{dates: 1891, metal: bronze, weight: 5 g}]")
    found = planned({"content/series/vessmark/ort.yaml": bronze, "content/coins/a.md": coin("1891")})
    assert found.fact("a", "Metal").value == "bronze"
    assert not [each for each in found.coin("a").record if each.name.startswith("Fine")]


def test_a_face_value_is_told_in_decimal_money_where_the_rate_is_known(planned, base_files, coin):
    files = {"content/coins/a.md": coin("1891")}
    assert planned(files).fact("a", "Face value").remark == ""
    issuer = base_files["content/issuers/vessmark.yaml"].replace(
        "mints:", "decimal: {on: 1919-01-01, daler: 2 kron}\nmints:"
    )
    fact = planned({**files, "content/issuers/vessmark.yaml": issuer}).fact("a", "Face value")
    assert (fact.value, fact.remark) == ("1 ort", "1/2 kron from 1919")


def test_a_face_value_without_money_to_read_it_by_stands_as_written(planned, series, coin):
    files = {
        "content/issuers/vessmark.yaml": "name: Vessmark\n",
        "content/series/vessmark/ort.yaml": series("1891: 5", "face: 1 ort"),
        "content/coins/a.md": coin("1891"),
    }
    assert planned(files).fact("a", "Face value").value == "1 ort"
