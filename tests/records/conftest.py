"""Small catalogues written from a dictionary of file names and texts."""

import pytest

from daterun.records.catalogue import read_catalogue

SERIES = """
name: Ort
issuer: vessmark
issues: {struck: {1899: 298000, 1900–1903: unknown}}
"""


@pytest.fixture
def read(tmp_path):
    """Read a catalogue whose files, by path under content, are given as texts or bytes."""

    def reading(files):
        together = {
            "catalogue.yaml": "title: Cabinet\n",
            "issuers/vessmark.yaml": "name: Kingdom of Vessmark\n",
            "series/vessmark/ort.yaml": SERIES,
            **files,
        }
        for name, text in together.items():
            path = tmp_path / "content" / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(text if isinstance(text, bytes) else text.encode("utf-8"))
        return read_catalogue(tmp_path)

    return reading


def said(problems):
    """Write each problem as its line, column, rule and sentence."""
    return [
        f"{each.place.path.removeprefix('content/')}:{each.place.line}:{each.place.column}:"
        f" {each.sentence} [{each.rule}]"
        for each in problems
    ]


@pytest.fixture
def problems_of(read):
    """Read a catalogue and give what is said of it."""
    return lambda files: said(read(files)[1])


@pytest.fixture
def coin_of(read):
    """Read one coin of the ort from its front matter below series and date; there must be no problem."""

    def reading(matter, notes="", date="1899", series=SERIES):
        text = f"---\nseries: ort\ndate: {date}\n{matter}\n---\n{notes}"
        catalogue, problems = read({"coins/a.md": text, "series/vessmark/ort.yaml": series})
        assert said(problems) == []
        return catalogue.coins[0]

    return reading


@pytest.fixture
def series_of(read):
    """Read one series from what stands below its name and issuer; there must be no problem."""

    def reading(text):
        catalogue, problems = read({"series/vessmark/ort.yaml": f"name: Ort\nissuer: vessmark\n{text}"})
        assert said(problems) == []
        return catalogue.series["vessmark/ort"]

    return reading
