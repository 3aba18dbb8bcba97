"""Small catalogues read and checked, for the facts about rules that no case folder shows."""

import sys
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest

from daterun.checks.catalogue import check_catalogue
from daterun.problems import sort_problems
from daterun.records.catalogue import read_catalogue

sys.path.insert(0, str(Path(__file__).parent))

Rules = Callable[[Mapping[str, str | None]], list[str]]


@pytest.fixture
def rules_of(catalogue_folder: Callable[..., Path]) -> Rules:
    """Name the rules, in order of place, that a catalogue of these files offends or is advised by."""

    def find(files: Mapping[str, str | None]) -> list[str]:
        catalogue, problems = read_catalogue(catalogue_folder(files))
        return [each.rule for each in sort_problems([*problems, *check_catalogue(catalogue, None)])]

    return find
