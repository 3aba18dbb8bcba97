"""Many coins are read on all cores, and come out as if one process had read them all."""

import os
import sys

import pytest

from daterun.records import catalogue as reading
from daterun.records.catalogue import read_catalogue
from daterun.records.remembered import RecordMemory

pytestmark = pytest.mark.skipif(
    not hasattr(os, "fork") or sys.platform == "darwin", reason="this machine copies no processes"
)


@pytest.fixture
def folder(catalogue_folder, coin):
    """Coins of which some cannot be read, and some have something wrong with them."""
    files = {f"content/coins/ort/c{nth:03}.md": coin("1891", f"kept: tray {nth}") for nth in range(40)}
    files["content/coins/ort/c007.md"] = "no front matter\n"
    files["content/coins/ort/c008.md"] = coin(
        "1891", "grade: VF31", "certificate: {by: North Pier, grade: AU55}"
    )
    files["content/coins/ort/c021.md"] = coin("18x1")
    files["content/coins/ort/c038.md"] = coin("1891", "grade: {of: VF30}", "kep: tray 1")
    return catalogue_folder(files)


@pytest.fixture
def two_processes(monkeypatch):
    """Have every bundle of three coins read by one of two processes."""
    monkeypatch.setattr(reading, "_BUNDLE", 3)
    monkeypatch.setattr("daterun.shares._shares", lambda things: 2)


def told(read):
    catalogue, problems = read
    return catalogue, sorted(map(repr, problems)), [repr(each.at) for each in catalogue.coins]


def test_what_copies_read_is_what_one_process_reads(folder, two_processes):
    whole = told(read_catalogue(folder, RecordMemory()))  # which no copies are made for
    shared = told(read_catalogue(folder))
    assert shared == whole
    assert len(shared[0].broken) == 2
    assert shared[1]


def test_coins_are_read_by_two_processes_and_have_let_go_of_their_text(folder, two_processes, monkeypatch):
    real = reading.read_coin

    def noted(*args):
        found = real(*args)
        return None if found is None else reading.replace(found, kept=str(os.getpid()))

    monkeypatch.setattr(reading, "read_coin", noted)
    catalogue, _ = read_catalogue(folder)
    assert len({each.kept for each in catalogue.coins}) == 2
    monkeypatch.setattr("daterun.records.located._Reading", None)
    assert all("series" in each.at for each in catalogue.coins)


def test_what_a_copy_does_not_come_to_read_is_read_all_the_same(folder, two_processes, monkeypatch):
    real, here = reading.read_coin, os.getpid()

    def dying(coin_id, *args):
        if os.getpid() != here and coin_id == "ort/c022":
            os._exit(1)
        return real(coin_id, *args)

    whole = told(read_catalogue(folder))
    monkeypatch.setattr(reading, "read_coin", dying)
    assert told(read_catalogue(folder)) == whole


def test_a_fault_of_the_program_in_a_copy_is_met_in_the_first_process(folder, two_processes, monkeypatch):
    real = reading.read_coin

    def faulty(coin_id, *args):
        if coin_id == "ort/c022":  # which is of the copy's share
            raise ZeroDivisionError(coin_id)
        return real(coin_id, *args)

    monkeypatch.setattr(reading, "read_coin", faulty)
    with pytest.raises(ZeroDivisionError, match="ort/c022"):
        read_catalogue(folder)
