"""Whatever a slip or a stranger makes of a file, reading and checking come to an end and nothing escapes them."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

from changes import TREES, write_tree
from material import FILES, PHOTO
from spreading import READING, spread

from daterun.checks.catalogue import check_catalogue
from daterun.checks.photos import PhotoFacts
from daterun.records.catalogue import read_catalogue

CASES = int(os.environ.get("DATERUN_MUTATIONS", "20000"))
"""Files changed at random; DATERUN_MUTATIONS asks for another number."""

POSIX = pytest.mark.skipif(
    sys.platform == "win32", reason="Windows bounds neither memory nor time of a process"
)


def test_the_catalogue_to_be_changed_has_no_fault(catalogue_folder):
    catalogue, problems = read_catalogue(catalogue_folder(FILES, base={}))
    assert [*problems, *check_catalogue(catalogue, PhotoFacts((PHOTO,), {}))] == []


@pytest.mark.parametrize("blocks", [False, True])
def test_a_tree_written_back_unchanged_has_no_fault(catalogue_folder, blocks):
    files = {name: write_tree(name, tree, blocks) for name, tree in TREES.items()}
    catalogue, problems = read_catalogue(catalogue_folder(files, base={}))
    found = [*problems, *check_catalogue(catalogue, PhotoFacts((PHOTO,), {}))]
    assert [each for each in found if each.is_error] == []


@POSIX
def test_no_change_to_any_file_lets_an_exception_escape():
    took = spread(CASES, 1891)
    assert took["cases"] >= CASES
    assert CASES // 2 < took["problems"] + took["cannot continue"] < took["cases"]


@POSIX
@pytest.mark.parametrize(
    ("fault", "said"),
    [
        ("raise ValueError('planted')", "ValueError: planted"),
        ("while True: pass", "TooSlowError"),
        ("return list(range(10**9))", "MemoryError"),
    ],
)
def test_a_planted_fault_is_found(fault, said):
    planted = (
        "import sys; sys.path.insert(0, sys.argv[1]); import reading\n"
        f"def faulty(*_):\n    {fault}\n"
        "reading.MOST_SECONDS = 1; reading.check_catalogue = faulty; reading.main(20, 1)"
    )
    done = subprocess.run(
        [sys.executable, "-c", planted, str(READING.parent)], capture_output=True, text=True, timeout=600
    )
    assert done.returncode != 0
    assert said in done.stderr
