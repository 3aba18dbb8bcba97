import csv
import io
import json
from dataclasses import replace

import jsonschema
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from daterun.exchange.coinfile import KEYS, read_text, with_coins, write_coin
from daterun.exchange.csvtext import write_csv
from daterun.exchange.guessing import guess_columns
from daterun.exchange.intake import take_in
from daterun.exchange.jsontext import write_json
from daterun.exchange.linked import write_linked
from daterun.exchange.mapping import ColumnMapping
from daterun.exchange.outgoing import coins_for
from daterun.exchange.schemas import all_schemas
from daterun.exchange.tables import read_table
from daterun.readers.closing import close_catalogue
from daterun.readers.reader import Reader
from daterun.records.catalogue import read_catalogue
from daterun.records.coins import GRAVITY
from daterun.records.opinions import CERTIFICATE, OWN_GRADE, VALUE
from daterun.records.ownership import ACQUIRED, OWNER, PARTED
from daterun.records.photographed import CROP, NAMED_PHOTO, PHOTOS

TEXT = st.text(
    st.characters(blacklist_categories=("Cs",), blacklist_characters="\ue000"), min_size=1, max_size=25
).filter(lambda text: text.strip())
FORMULAS = st.sampled_from(
    ["=1+1", "+1", "-x", "@a", "'=1", "''", "a;b", "[a", "{a: b}", '"a"', "NO", "0640", "a\tb"]
)
WORD = TEXT | FORMULAS
PRICE = st.sampled_from(["45.00 VKR", "45", "1,250 EUR", "0.5 GBP"])
DAY = st.sampled_from(["2019-04-03", "2019-04", "2019"])
GRADE = st.sampled_from(["VF30", "GVF/EF", "VF30–EF40", "UNC, 50% lustre", "about EF"])


def some(**fields):
    return st.fixed_dictionaries({}, optional=fields)


VALUES = st.fixed_dictionaries(
    {
        "series": st.sampled_from(["ort", "vessmark/ort"]),
        "date": st.sampled_from(["1891", "1897", "1895-96", "1900"]),
    },
    optional={
        "strike": st.just("ordinary"),
        "struck in": WORD,
        "grades": st.lists(
            GRADE | some(reasons=WORD, on=DAY).map(lambda rest: {"grade": "VF20", **rest}), max_size=2
        ),
        "problem": WORD | st.lists(WORD, min_size=1, max_size=3),
        "certificate": some(number=WORD, on=DAY).map(
            lambda rest: {"by": "North Pier", "grade": "EF40", **rest}
        ),
        "weight": st.sampled_from(["8.97 g", "9 g"]),
        "diameter": st.sampled_from(["26.4 mm", "26.5 mm"]),
        "thickness": st.just("1.9 mm"),
        "axis": st.sampled_from(["12h", "180°"]),
        "gravity": st.just({"dry": "8.97 g", "wet": "8.08 g"}),
        "design": WORD,
        "references": st.lists(WORD, min_size=1, max_size=2),
        "quantity": st.sampled_from(["1", "12"]),
        "set": st.just("year-set"),
        "added": st.sampled_from(["2020-01-02", "2021"]),
        "acquired": some(**{"on": DAY, "from": WORD, "price": PRICE, "note": WORD}),
        "parted": some(**{"to": WORD, "price": PRICE}).map(
            lambda rest: {"on": "2024-05-01", "how": "sold", **rest}
        ),
        "photos": some(obverse=st.just("a.jpg"), reverse=st.just({"file": "b.jpg"})),
        "provenance": st.lists(some(note=WORD).map(lambda rest: {"owner": "Hallin", **rest}), max_size=2),
        "kept": WORD,
        "private": WORD,
        "value": st.fixed_dictionaries({"amount": PRICE}, optional={"basis": WORD}),
    },
)
NOTES = st.just("") | TEXT.map(lambda text: text.replace("\r", "\n")) | FORMULAS
"""A file's line ends are made plain as it is read, so that no notes hold others."""


def plain_coin(coin):
    """A coin but for the lines and spaces of its file."""
    return replace(coin, notes_line=0, notes=coin.notes.removesuffix("\n"))


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None, max_examples=60)
@given(st.lists(st.tuples(VALUES, NOTES), min_size=1, max_size=4))
def test_what_goes_out_to_the_keeper_comes_in_again_without_loss(catalogue_folder, tmp_path, coins):
    folder = catalogue_folder({})
    empty, _ = read_catalogue(folder)
    for values, _ in coins:
        if "certificate" in values:
            values["certificate"].pop("number", None)  # two coins of one number are no sound catalogue
    read = [read_text(f"a/{nth}", write_coin(*each), empty).coin for nth, each in enumerate(coins)]
    full = with_coins(empty, read)
    data = write_csv(coins_for(full, close_catalogue(full, {}, Reader.KEEPER)))
    path = tmp_path / "out.csv"
    path.write_bytes(data)
    table = read_table(path)
    intake = take_in(folder, empty, table, ColumnMapping(guess_columns(table)))
    assert intake.rejects == ()
    assert [plain_coin(each.coin) for each in intake.taken] == [plain_coin(each) for each in full.coins]


FULL = {
    "a/first": (
        {
            "series": "ort",
            "date": "1899",
            "variety": ["old-spelling", "nine-over-eight"],
            "type": "torvald",
            "standard": "1891–1903",
            "strike": "proof",
            "struck in": "1900",
            "grades": [{"grade": "PF63", "on": "2024-02-11", "reasons": "hair; flat"}, "PF64"],
            "problem": ["cleaned", "hole, plugged"],
            "certificates": [
                {
                    "by": "North Pier Grading",
                    "grade": "PF62",
                    "number": "0640",
                    "on": "2025-05-02",
                    "sealed": "yes",
                    "problem": ["cleaned"],
                },
                {"by": "Old Tower", "grade": "PF61"},
            ],
            "weight": "8.97 g",
            "diameter": "26.4 mm",
            "thickness": "1.9 mm",
            "axis": "180°",
            "gravity": {"dry": "8.97 g", "wet": "8.08 g", "reading": "0.01 g"},
            "design": "=weak on the date",
            "references": ["Report of 1899; plate 3", "another"],
            "quantity": "1",
            "set": "year-set",
            "lot": "fair",
            "added": "2019-04-10",
            "acquired": {
                "on": "2019-04-03",
                "from": "R. Tarn",
                "how": "exchanged",
                "for": ["a/second"],
                "note": "-",
            },
            "provenance": [
                {
                    "owner": "Hallin",
                    "since": "1960",
                    "until": "1988",
                    "sale": "Autumn sale",
                    "lot": "212",
                    "note": "NO",
                    "publish": "yes",
                }
            ],
            "kept": "cabinet 2, tray 4",
            "value": {"amount": "80 VKR", "on": "2026-01-10", "basis": "two sales"},
            "private": "+ a hoard",
            "photos": {
                "obverse": {"file": "a.jpg", "crop": {"x": "812", "y": "790", "diameter": "1480"}},
                "reverse": "b.jpg",
                "edge": "c.jpg",
            },
        },
        "Sharp.\n\n- a list; with signs",
    ),
    "a/second": (
        {
            "series": "vessmark/ort",
            "date": "1902",
            "mint": "K",
            "kind": "error",
            "departs": "struck twice",
            "grade": "GVF/EF",
            "certificate": {"by": "North Pier Grading", "grade": "EF40", "number": "7"},
            "acquired": {"on": "2018", "price": "1,250.00 VKR"},
            "parted": {
                "on": "2019-04-03",
                "to": "R. Tarn",
                "how": "exchanged",
                "price": "5 VKR",
                "for": ["a/first"],
            },
        },
        "",
    ),
}
"""Two invented coins that use every field, and every part of one, between them."""


def parts_of(value):
    if isinstance(value, dict):
        return set(value) | {part for each in value.values() for part in parts_of(each)}
    return {part for each in value for part in parts_of(each)} if isinstance(value, list) else set()


def test_every_field_and_every_part_of_one_comes_in_as_it_went_out(catalogue_folder, tmp_path):
    folder = catalogue_folder({"content/lots/fair.yaml": "name: The fair\n"})
    empty, problems = read_catalogue(folder)
    assert problems == []
    used = {key for values, _ in FULL.values() for key in values}
    assert used == set(KEYS)
    parts = {part for values, _ in FULL.values() for value in values.values() for part in parts_of(value)}
    forms = (OWN_GRADE, CERTIFICATE, GRAVITY, ACQUIRED, PARTED, OWNER, VALUE, PHOTOS, NAMED_PHOTO, CROP)
    assert {field.key for form in forms for field in form.fields} <= parts
    read = [read_text(coin_id, write_coin(*each), empty) for coin_id, each in FULL.items()]
    assert [problem for each in read for problem in each.problems] == []
    full = with_coins(empty, [each.coin for each in read])
    schema = all_schemas(full)["export.schema.json"]
    for reader in Reader:
        jsonschema.Draft202012Validator(schema).validate(exported(full, reader))
    path = tmp_path / "out.csv"
    path.write_bytes(write_csv(coins_for(full, close_catalogue(full, {}, Reader.KEEPER))))
    table = read_table(path)
    mapping = guess_columns(table)
    assert "ignored" not in mapping.values()
    intake = take_in(folder, empty, table, ColumnMapping(mapping))
    assert intake.rejects == ()
    assert [plain_coin(each.coin) for each in intake.taken] == [plain_coin(each) for each in full.coins]


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None, max_examples=40)
@given(VALUES, NOTES)
def test_no_cell_of_an_export_is_a_formula(catalogue_folder, values, notes):
    empty, _ = read_catalogue(catalogue_folder({}))
    full = with_coins(empty, [read_text("=a", write_coin(values, notes), empty).coin])
    data = write_csv(coins_for(full, close_catalogue(full, {}, Reader.KEEPER)))
    for row in csv.reader(io.StringIO(data.decode("utf-8-sig"), newline="")):
        assert all(not cell.lstrip().startswith(("=", "+", "-", "@")) for cell in row)


@pytest.fixture
def catalogue(catalogue_folder, coin):
    folder = catalogue_folder(
        {
            "content/coins/ort/1891.md": coin(
                "1891",
                "grades: [{grade: F12, on: 2019-01-01}, {grade: VF30, on: 2020-01-01, reasons: hair}]",
                "problem: [cleaned]",
                "weight: 8.97 g",
                "diameter: 26.4 mm",
                "acquired: {on: 2019-04-03, from: R. Tarn, price: 45.00 VKR}",
                "kept: cabinet 2",
                "private: a hoard",
                "provenance: [{owner: Hallin, publish: yes}, {owner: Pask}]",
                notes="Sharp lettering.",
            ),
            "content/coins/ort/1897.md": coin(
                "1897",
                "certificate: {by: North Pier, grade: EF40, number: 4417, on: 2021-01-01}",
                "grade: VF30",
            ),
            "content/coins/ort/1900.md": coin("1900", "parted: {on: 2024-01-01, to: M. Ash, how: sold}"),
            "content/pages/essay.md": "---\ntitle: An essay\n---\nText.\n",
        }
    )
    found, problems = read_catalogue(folder)
    assert problems == []
    return found


def exported(catalogue, reader):
    closed = close_catalogue(catalogue, {}, reader)
    return json.loads(write_json(catalogue, closed, coins_for(catalogue, closed)))


PRIVATE = ("R. Tarn", "45.00", "cabinet 2", "a hoard", "Pask", "M. Ash")


@pytest.mark.parametrize("reader", [Reader.PUBLIC, Reader.CLUB])
def test_others_get_no_private_field_in_any_form(catalogue, reader):
    closed = close_catalogue(catalogue, {}, reader)
    coins = coins_for(catalogue, closed)
    for data in (write_csv(coins), write_json(catalogue, closed, coins), write_linked(closed)):
        text = data.decode("utf-8-sig")
        assert [each for each in (*PRIVATE, "4417", "ort/1900") if each in text] == []
        assert "Sharp lettering." in text


def test_each_reader_gets_what_the_table_of_readers_says(catalogue):
    def coin(reader, coin_id):
        return next(each for each in exported(catalogue, reader)["coins"] if each["id"] == coin_id)

    newest = {"grade": "VF30", "on": "2020-01-01", "reasons": "hair"}
    assert coin(Reader.PUBLIC, "ort/1891")["grades"] == [newest]
    assert len(coin(Reader.CLUB, "ort/1891")["grades"]) == 2
    assert "grades" not in coin(Reader.PUBLIC, "ort/1897")
    assert coin(Reader.CLUB, "ort/1897")["grades"] == [{"grade": "VF30"}]
    assert coin(Reader.PUBLIC, "ort/1897")["certificates"] == [
        {"by": "North Pier", "grade": "EF40", "on": "2021-01-01"}
    ]
    assert coin(Reader.KEEPER, "ort/1897")["certificate"]["number"] == "4417"
    assert coin(Reader.PUBLIC, "ort/1891")["provenance"] == [{"owner": "Hallin", "publish": "yes"}]
    assert len(exported(catalogue, Reader.PUBLIC)["coins"]) == 2
    assert len(exported(catalogue, Reader.KEEPER)["coins"]) == 3
    assert "lots" not in exported(catalogue, Reader.PUBLIC)


@pytest.mark.parametrize("reader", list(Reader))
def test_json_is_as_its_published_schema_says(catalogue, reader):
    schema = all_schemas(catalogue)["export.schema.json"]
    jsonschema.Draft202012Validator(schema).validate(exported(catalogue, reader))


def test_json_with_a_field_too_many_is_against_the_schema(catalogue):
    schema = all_schemas(catalogue)["export.schema.json"]
    whole = exported(catalogue, Reader.PUBLIC)
    whole["coins"][0]["colour"] = "brown"
    assert not jsonschema.Draft202012Validator(schema).is_valid(whole)


def test_linked_data_names_pieces_with_weight_width_and_grade(catalogue):
    whole = json.loads(
        write_linked(close_catalogue(catalogue, {}, Reader.PUBLIC), {"ort/1891": {"obverse": "a.jpeg"}})
    )
    assert (whole["@context"], whole["@type"], whole["collectionSize"]) == (
        "https://schema.org",
        "Collection",
        2,
    )
    piece = whole["hasPart"][0]
    assert piece["@type"] == "IndividualProduct"
    assert piece["name"] == "Ort, Kingdom of Vessmark, 1891"
    assert piece["weight"] == {"@type": "QuantitativeValue", "value": 8.97, "unitCode": "GRM"}
    assert piece["width"]["unitCode"] == "MMT"
    assert piece["image"] == ["a.jpeg"]
    assert {"@type": "PropertyValue", "name": "grade", "value": "VF30"} in piece["additionalProperty"]
    assert piece["material"] == "silver"
