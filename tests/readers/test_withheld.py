"""Every value that the table keeps from a reader is gathered, with whose it is and where it is written."""

import dataclasses

import pytest

from daterun.readers.reader import Reader
from daterun.readers.table import TABLE
from daterun.readers.withheld import gather_withheld
from daterun.records.catalogue import read_catalogue
from daterun.records.coins import Coin

FILES = {
    "content/catalogue.yaml": (
        "title: Cabinet\naims: [{id: all, name: All, series: [ort], leave out: {ort: {1892: Too dear}}}]\n"
        "wants: [{slot: ort 1897, at most: 400 VKR, remark: Ask Tarn}]\n"
    ),
    "content/coins/held.md": """---
series: ort
date: 1891
grades: [{grade: VF30, reasons: Early thoughts}, {grade: EF45, reasons: Late thoughts}]
certificates: {by: North Pier, grade: AU55, number: 4417-0092, sealed: no}
acquired: {on: 2019-04-03, from: R. Tarn, how: bought, price: 45 VKR, for: [left]}
provenance: [{owner: Hallin, publish: yes}, {owner: Secretive}]
kept: Cabinet 2
quantity: 3
design: Strong
---
Public notes.
""",
    "content/coins/left.md": "---\nseries: ort\ndate: 1900\nparted: {on: 2020-01-01, to: Buyer}\n---\nGone.\n",
    "content/coins/a.md": "---\nseries: ort\ndate: 1900\nlot: hoard\n---\n",
    "content/coins/b.md": "---\nseries: ort\ndate: 1900\nlot: hoard\n---\n",
    "content/lots/hoard.yaml": "name: The hoard\nprice: 9.01 VKR\n",
}


@pytest.fixture
def catalogue(catalogue_folder):
    return read_catalogue(catalogue_folder(FILES))[0]


def gathered(catalogue, reader):
    return {
        (each.whose, each.field, str(each.value)): each for each in gather_withheld(catalogue, {}, reader)
    }


def test_all_that_is_never_for_others_is_gathered_with_its_keys(catalogue):
    found = gathered(catalogue, Reader.PUBLIC)
    assert set(found) == {
        ("aim all", "leave out", "Too dear"),
        ("want ort 1897", "at most", "400 VKR"),
        ("want ort 1897", "remark", "Ask Tarn"),
        ("coin held", "grades reasons", "Early thoughts"),
        ("coin held", "certificates by", "North Pier"),
        ("coin held", "certificates number", "4417-0092"),
        ("coin held", "acquired on", "2019-04-03"),
        ("coin held", "acquired from", "R. Tarn"),
        ("coin held", "acquired price", "45 VKR"),
        ("coin held", "cost", "45 VKR"),
        ("coin held", "provenance owner", "Secretive"),
        ("coin held", "kept", "Cabinet 2"),
        ("coin left", "parted on", "2020-01-01"),
        ("coin left", "parted to", "Buyer"),
        ("coin left", "notes", "Gone.\n"),
        ("coin a", "lot", "hoard"),
        ("coin b", "lot", "hoard"),
        ("coin a", "cost", "4.51 VKR"),
        ("coin b", "cost", "4.50 VKR"),
        ("lot hoard", "id", "hoard"),
        ("lot hoard", "name", "The hoard"),
        ("lot hoard", "price", "9.01 VKR"),
    }


def test_the_club_sees_earlier_grades_and_the_keeper_everything(catalogue):
    club = gathered(catalogue, Reader.CLUB)
    assert ("coin held", "grades reasons", "Early thoughts") not in club
    assert ("coin held", "certificates by", "North Pier") not in club
    assert ("coin held", "certificates number", "4417-0092") in club
    assert gather_withheld(catalogue, {}, Reader.KEEPER) == ()


def test_what_is_hidden_only_because_a_coin_left_is_not_strict(catalogue):
    found = gathered(catalogue, Reader.PUBLIC)
    assert not found["coin left", "notes", "Gone.\n"].is_strict
    assert found["coin left", "parted to", "Buyer"].is_strict
    assert not found["coin held", "grades reasons", "Early thoughts"].is_strict


def test_each_value_points_to_where_it_is_written(catalogue):
    seller = gathered(catalogue, Reader.PUBLIC)["coin held", "acquired from", "R. Tarn"]
    assert (seller.place.path, seller.place.line, seller.place.length) == ("content/coins/held.md", 6, 7)


def test_a_field_that_the_table_does_not_list_is_gathered(catalogue, monkeypatch):
    listed = {name: access for name, access in TABLE[Coin].items() if name != "design"}
    monkeypatch.setattr("daterun.readers.withheld.TABLE", {**TABLE, Coin: listed})
    monkeypatch.setattr("daterun.readers.table.TABLE", {**TABLE, Coin: listed})
    assert "design" in {each.name for each in dataclasses.fields(Coin)}
    assert gathered(catalogue, Reader.PUBLIC)["coin held", "design", "Strong"].is_strict
