"""Every field of every record is in the table, and the table names no other."""

import dataclasses
import typing

import pytest

from daterun.readers.reader import Reader
from daterun.readers.table import PERMISSIONS, TABLE, Access, is_turned_on, may_see
from daterun.records.aims import Want
from daterun.records.catalogue import Catalogue
from daterun.records.coins import Coin
from daterun.records.issuers import Issuer
from daterun.records.opinions import Certificate
from daterun.records.ownership import Parted
from daterun.records.series import Series
from daterun.records.settings import Permissions, Settings

NODES = "daterun.records.located"


def types_within(annotation):
    """List the classes that an annotation is made of."""
    if inner := typing.get_args(annotation):
        for each in inner:
            yield from types_within(each)
    elif isinstance(annotation, type):
        yield annotation


def records_from(start):
    """Find every dataclass of the records that can be reached from one, itself included."""
    found, waiting = [], [start]
    while waiting:
        record = waiting.pop()
        if record in found:
            continue
        found.append(record)
        for annotation in typing.get_type_hints(record).values():
            for each in types_within(annotation):
                of_records = each.__module__.startswith("daterun.records.") and each.__module__ != NODES
                if of_records and dataclasses.is_dataclass(each):
                    waiting.append(each)
    return found


RECORDS = records_from(Catalogue)


def test_the_table_lists_every_record_of_a_catalogue_and_no_other():
    assert set(TABLE) == set(RECORDS)


@pytest.mark.parametrize("record", RECORDS, ids=lambda each: each.__name__)
def test_the_table_lists_every_field_of_a_record_and_no_other(record):
    given = {each.name for each in dataclasses.fields(record) if each.init}  # the rest is worked out
    assert set(TABLE[record]) == given


def test_the_walk_reaches_records_deep_within_others():
    names = {each.__name__ for each in RECORDS}
    assert {"Crop", "Figures", "Reign", "Want", "Face", "Permissions"} <= names


@pytest.mark.parametrize(
    "record", [*records_from(Series), *records_from(Issuer)], ids=lambda each: each.__name__
)
def test_series_and_issuers_hold_nothing_private_and_so_are_passed_on_whole(record):
    assert set(TABLE[record].values()) <= {Access.EVERYONE, Access.NOT_A_FACT}


@pytest.mark.parametrize("reader", Reader)
def test_a_field_that_the_table_does_not_list_is_private(reader):
    assert not may_see(reader, Coin, "a field of tomorrow", {})
    assert not may_see(reader, dict, "keys", {})


@pytest.mark.parametrize("reader", Reader)
def test_where_a_record_stands_is_shown_to_nobody(reader):
    assert not any(may_see(reader, Coin, name, {}) for name in ("path", "at", "notes_line"))


def test_what_can_be_turned_on_has_a_usual_state_for_both_other_readers():
    assert set(PERMISSIONS) == {Access.IF_WANTS, Access.IF_NUMBERS}
    for name, usually in PERMISSIONS.values():
        assert name in {each.name for each in dataclasses.fields(Permissions)}
        assert set(usually) == {Reader.PUBLIC, Reader.CLUB}


def test_wants_are_shown_to_the_club_and_to_the_public_only_if_turned_on():
    assert [is_turned_on(Access.IF_WANTS, reader, {}) for reader in Reader] == [False, True, True]


def test_certificate_numbers_are_shown_to_others_only_if_turned_on():
    assert [is_turned_on(Access.IF_NUMBERS, reader, {}) for reader in Reader] == [False, False, True]


@pytest.mark.parametrize(
    ("reader", "record", "name", "seen"),
    [
        (Reader.PUBLIC, Coin, "weight", True),
        (Reader.PUBLIC, Coin, "own_grades", False),
        (Reader.CLUB, Coin, "own_grades", True),
        (Reader.CLUB, Coin, "provenance", False),
        (Reader.CLUB, Coin, "lot", False),
        (Reader.CLUB, Parted, "to", False),
        (Reader.CLUB, Want, "slot", True),
        (Reader.CLUB, Want, "at_most", False),
        (Reader.CLUB, Settings, "readers", False),
        (Reader.KEEPER, Coin, "kept", True),
        (Reader.KEEPER, Certificate, "number", True),
    ],
)
def test_a_reader_may_see_a_field_as_the_design_says(reader, record, name, seen):
    assert may_see(reader, record, name, {}) is seen
