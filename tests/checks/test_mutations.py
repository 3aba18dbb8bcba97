"""Whatever a slip makes of a catalogue, the checks come to an end and every problem has its place."""

import random
import tempfile
from pathlib import Path

import pytest

from daterun.checks.catalogue import check_catalogue
from daterun.checks.rules import RULES
from daterun.problems import CannotContinue
from daterun.records.catalogue import read_catalogue

BAD = Path(__file__).parent.parent / "cases" / "bad"
WORDS = [
    "",
    "0",
    "1899",
    "1898",
    "none",
    "K",
    "ort",
    "[]",
    "{}",
    "[1891, 1891]",
    "{none: 1}",
    "proof",
    "undated",
]
WORDS += ["1891–1906", "9.00 g", "2019-04-03", "equally", "ort/1891", "[[ort 1891]]", "Ω", "-1", "1?9?", "~"]
SETTINGS = """\
title: A small cabinet
currency: VKR
as of: 2020-01-01
metals:
  silver: {price: 0.61 VKR, per: g, on: 2026-10-02, source: evening paper}
aims:
  - id: early
    name: Early dates
    series: [ort, skilling]
    dates: 1891–1897
    one per: [date, variety]
    leave out: {ort: {1892: beyond my means}}
wants:
  - {slot: ort 1892, at most: 400 VKR}
"""


def slip(text: str, chance: random.Random) -> str:
    """Put a stray word in the place of a value, or take a line out or write it twice."""
    lines = text.split("\n")
    at = chance.randrange(len(lines))
    key, colon, _ = lines[at].partition(": ")
    what = chance.randrange(4)
    if what == 0:
        del lines[at]
    elif what == 1:
        lines.insert(at, lines[chance.randrange(len(lines))])
    elif colon:
        lines[at] = f"{key}: {chance.choice(WORDS)}"
    return "\n".join(lines)


@pytest.mark.parametrize("seed", range(40))
def test_the_checks_bear_any_slip(make_rich, seed):
    chance = random.Random(seed)
    with tempfile.TemporaryDirectory() as folder:
        files = make_rich(BAD)
        for _ in range(chance.randrange(1, 6)):
            name = chance.choice(sorted(files))
            files[name] = slip(files[name], chance)
        root = Path(folder)
        for name, text in files.items():
            (root / name).parent.mkdir(parents=True, exist_ok=True)
            (root / name).write_text(text, encoding="utf-8")
        try:
            catalogue, _ = read_catalogue(root)
        except CannotContinue:
            return
        for problem in check_catalogue(catalogue, None):
            assert problem.rule in RULES
            for place in (problem.place, *problem.others):
                lines = files[place.path].split("\n")
                assert place.line <= len(lines)
                if place.line:
                    assert place.column <= len(lines[place.line - 1]) + 1


@pytest.fixture
def make_rich(base_files):
    """Gather the base and the files of all cases, each coin under a name of its own, into one catalogue."""

    def gather(bad: Path) -> dict[str, str]:
        files = dict(base_files)
        for case in sorted(bad.iterdir()):
            for path in sorted((case / "content").rglob("*")):
                if path.is_dir() or case.name in ("encoding", "yaml", "front-matter"):
                    continue
                inside = path.relative_to(case / "content").as_posix()
                folder, _, name = inside.partition("/")
                unique = (
                    f"{folder}/{name}" if folder != "coins" else f"coins/{case.name}-{name.replace('/', '-')}"
                )
                if name:
                    files.setdefault(f"content/{unique}", path.read_text(encoding="utf-8"))
        files["content/catalogue.yaml"] = SETTINGS
        return files

    return gather
