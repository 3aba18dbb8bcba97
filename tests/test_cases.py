"""Every rule at work: each folder of cases/bad is a small catalogue with its exact report.

A case holds what differs from cases/base, and takes its name from its rule, with -- and a word where a rule has
several. What a folder cannot well hold is said by `files.txt` (copy and link) and `photos.txt` (what is known of
a photo: `ort/1899.obverse.jpg 120x120 disc`, with `no disc`, `broken` and `as PATH` for the same bytes).
"""

import shutil
from pathlib import Path

import pytest

from daterun.checks.catalogue import check_catalogue
from daterun.checks.photos import PhotoFacts
from daterun.checks.rules import RULES
from daterun.command.report import report_text
from daterun.photos.photo import Disc, Photo
from daterun.problems import sort_problems
from daterun.records.catalogue import read_catalogue

CASES = Path(__file__).parent / "cases"
BAD = sorted(each for each in (CASES / "bad").iterdir() if each.is_dir())


def lay_out(case: Path, folder: Path) -> None:
    shutil.copytree(CASES / "base", folder)
    if (case / "content").is_dir():
        shutil.copytree(case / "content", folder / "content", dirs_exist_ok=True)
    for line in read_lines(case / "files.txt"):
        what, path, target = line.split()
        place = folder / "content" / path
        place.parent.mkdir(parents=True, exist_ok=True)
        if what == "link":
            place.symlink_to(target)
        else:
            shutil.copy(folder / "content" / target, place)


def read_lines(path: Path) -> list[str]:
    return path.read_text(encoding="utf-8").splitlines() if path.is_file() else []


def read_photos(case: Path) -> PhotoFacts | None:
    photos = [read_photo(line) for line in read_lines(case / "photos.txt")]
    return PhotoFacts(tuple(each.path for each in photos), {each.path: each for each in photos})


def read_photo(line: str) -> Photo:
    name, size, what = line.split(maxsplit=2)
    width, _, height = size.partition("x")
    what, _, same = what.partition(" as ")
    return Photo(
        key=same or name,
        path=f"content/photos/{name}",
        width_px=int(width),
        height_px=int(height),
        disc=Disc(int(width) / 2, int(height) / 2, int(width) * 0.8) if what == "disc" else None,
        fallback="what stands out from the background is not round" if what == "no disc" else "",
        fault="is not a picture that can be read" if what == "broken" else "",
    )


def report_of(case: Path, folder: Path) -> str:
    lay_out(case, folder)
    catalogue, problems = read_catalogue(folder)
    found = sort_problems([*problems, *check_catalogue(catalogue, read_photos(case))])

    def source_line(path: str, line: int) -> str | None:
        lines = (folder / path).read_text(encoding="utf-8", errors="replace").split("\n")
        return lines[line - 1] if line <= len(lines) else None

    return report_text(found, source_line)


def rule_of(case: Path) -> str:
    return case.name.partition("--")[0].replace("-", " ")


@pytest.mark.parametrize("case", BAD, ids=lambda each: each.name)
def test_a_catalogue_with_one_fault_gives_exactly_its_report(case: Path, tmp_path: Path) -> None:
    assert report_of(case, tmp_path / "catalogue") == (case / "expected.txt").read_text(encoding="utf-8")


@pytest.mark.parametrize("case", BAD, ids=lambda each: each.name)
def test_a_case_is_named_after_the_rule_that_it_shows(case: Path) -> None:
    assert f"[{rule_of(case)}]" in (case / "expected.txt").read_text(encoding="utf-8")


def test_every_rule_has_a_case_but_those_of_the_build() -> None:
    assert set(RULES) - {"catalogue", "theme", "photo", "private value"} == {rule_of(each) for each in BAD}


def test_the_base_of_all_cases_is_without_a_problem(tmp_path: Path) -> None:
    assert report_of(CASES / "base", tmp_path / "catalogue") == ""
