"""Nothing private is anywhere in what is closed for another reader than the keeper.

Every private field of a small catalogue holds a marker; the closed records are then searched from end to end.
"""

import dataclasses
import tempfile
from collections.abc import Mapping
from pathlib import Path
from string import Template

from hypothesis import given, settings
from hypothesis import strategies as st

from daterun.photos.photo import Photo
from daterun.readers.closing import close_catalogue
from daterun.readers.reader import Reader
from daterun.readers.table import TABLE, Access
from daterun.records.catalogue import read_catalogue
from daterun.records.series import Side

ALONE = frozenset({Reader.KEEPER})
NOT_PUBLIC = frozenset({Reader.CLUB, Reader.KEEPER})

# Which readers see what stands in place of each name below; "money" and "day" in a name say its form.
ONLY_KEEPER = """
source money_price note gave day_acquired kept money_value day_value basis private lot set photo path quantity
owner sale owner_lot owner_note day_until to money_parted day_parted received parted_id parted_notes
number old_number why money_most remark lot_name lot_source money_lot money_share day_lot lot_note
"""
CLUB_TOO = "early reason_early day_early old_by old_problem day_old"
NOBODY = frozenset()
AUDIENCE = {"allowed": NOBODY}
AUDIENCE |= dict.fromkeys(ONLY_KEEPER.split(), ALONE) | dict.fromkeys(CLUB_TOO.split(), NOT_PUBLIC)

FILES = {
    "catalogue.yaml": """
title: Cabinet
readers: {public: {wants: yes, certificate numbers: no}}
may be named: [$allowed]
aims: [{id: all, name: All, series: [ort], leave out: {ort: {1892: $why}}}]
wants: [{slot: ort 1892, at most: $money_most VKR, remark: $remark}]
""",
    "series/vessmark/ort.yaml": "name: Ort\nissuer: vessmark\nissues: {struck: {1891: 341000, 1892: 2310}}\n",
    "coins/held.md": """---
series: ort
date: 1891
grades: [{grade: VF30, on: $day_early, reasons: $reason_early}, {grade: EF45, reasons: $early}]
certificates:
  - {by: $old_by, grade: AU50, number: $old_number, on: $day_old, sealed: no, problem: $old_problem}
  - {by: North Pier Grading, grade: AU55, number: $number, on: 2095-01-01}
set: $set
lot: $lot
quantity: $quantity
acquired:
  {on: $day_acquired, from: $source, how: exchanged, price: $money_price VKR, for: [$gave], note: $note}
provenance: [{owner: $owner, until: $day_until, sale: $sale, lot: $owner_lot, note: $owner_note, since: 1900}]
kept: $kept
value: {amount: $money_value VKR, on: $day_value, basis: $basis}
private: $private
photos: {obverse: $photo.jpg}
---
""",
    "coins/$parted_id.md": """---
series: ort
date: 1891
parted: {on: $day_parted, to: $to, how: exchanged, price: $money_parted VKR, for: [$received]}
---
$parted_notes
""",
    "lots/$lot.yaml": """
name: $lot_name
on: $day_lot
from: $lot_source
how: bought
price: $money_lot VKR
share: {held: $money_share VKR}
note: $lot_note
""",
}


def leaves(value):
    """Walk everything reachable from a value, as texts."""
    if dataclasses.is_dataclass(value):
        for each in dataclasses.fields(value):
            yield from leaves(getattr(value, each.name))
        if not hasattr(value, "__iter__"):
            yield str(value)
    elif isinstance(value, Mapping):
        for key, each in value.items():
            yield from leaves(key)
            yield from leaves(each)
    elif isinstance(value, (tuple, list, set, frozenset)):
        for each in value:
            yield from leaves(each)
    elif value is not None:
        yield str(value)


def mark(numbers):
    """Make a marker for each name out of a number of its own, none of which is part of another."""
    markers = {}
    for name, number in zip(AUDIENCE, numbers, strict=True):
        if name.startswith("money"):
            markers[name] = f"{number}.37"
        elif name.startswith("day"):
            first = 1000 if name == "day_old" else 8000  # an old certificate is older than the one in force
            markers[name] = f"{first + number % 1000}-{1 + number % 11:02}-{1 + number % 27:02}"
        elif name == "quantity":
            markers[name] = str(number)
        else:
            markers[name] = f"qz{number}"
    return markers


numbers = st.lists(
    st.integers(10_000_000, 99_999_999),
    min_size=len(AUDIENCE),
    max_size=len(AUDIENCE),
    unique_by=(lambda each: each, lambda each: each % 1000),
)


def read_marked(markers):
    with tempfile.TemporaryDirectory() as folder:
        for name, text in FILES.items():
            path = Path(folder) / "content" / Template(name).substitute(markers)
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(Template(text).substitute(markers), encoding="utf-8")
        catalogue, problems = read_catalogue(Path(folder))
    assert problems == []
    return catalogue


def records_within(value):
    if type(value) in TABLE:
        yield value
    if dataclasses.is_dataclass(value):
        value = [getattr(value, each.name) for each in dataclasses.fields(value) if each.name != "at"]
    elif isinstance(value, Mapping):
        value = list(value.values())
    if isinstance(value, (tuple, list)):
        for each in value:
            yield from records_within(each)


def test_the_marked_catalogue_fills_every_private_field_of_every_record():
    catalogue = read_marked(mark(range(10_000_000, 10_000_000 + len(AUDIENCE))))
    private = {
        (record.__name__, name)
        for record, fields in TABLE.items()
        for name, access in fields.items()
        if access not in (Access.EVERYONE, Access.NOT_A_FACT)
    }
    filled = {
        (type(record).__name__, each.name)
        for record in records_within(catalogue)
        for each in dataclasses.fields(record)
        if getattr(record, each.name) not in (None, "", (), {}) and each.name != "at"
    }
    assert private - filled == set()


@settings(deadline=None, max_examples=60)
@given(numbers=numbers)
def test_each_reader_finds_what_the_reader_may_see_and_nothing_private(numbers):
    markers = mark(numbers)
    catalogue = read_marked(markers)
    photos = {("held", Side.OBVERSE): Photo("ab" * 16, f"content/photos/{markers['path']}.jpg", 800, 800)}
    for reader in Reader:
        closed = close_catalogue(catalogue, photos, reader)
        whole = "\n".join(leaves(closed))
        unseen = {"photo"}  # the keeper sees the photo by the path at which it was found
        found = {name for name, marker in markers.items() if marker in whole}
        assert found == {name for name in AUDIENCE if reader in AUDIENCE[name] and name not in unseen}


@settings(deadline=None, max_examples=20)
@given(numbers=numbers)
def test_the_day_ages_are_reckoned_to_tells_others_of_no_private_day(numbers):
    catalogue = read_marked(mark(numbers))
    public = close_catalogue(catalogue, {}, Reader.PUBLIC)
    assert str(public.settings.as_of) == "2095-01-01"
