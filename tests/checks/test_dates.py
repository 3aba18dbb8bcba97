"""What is said of a date that a series does not have, beside that it does not have it."""

import pytest

from daterun.checks.dates import hint_for_date
from daterun.records.catalogue import read_catalogue
from daterun.trade.dates import parse_coin_date

STRUCK = """  struck:
    1891: 341000
    1893: 2310
    1895-96: 120000
    1899: 298000
  not struck: [1892]
  not known: [1898]
"""


@pytest.fixture
def hint(catalogue_folder, base_files):
    name = "content/series/vessmark/ort.yaml"
    text = base_files[name]
    folder = catalogue_folder({name: text[: text.index("  struck:")] + STRUCK})
    series = read_catalogue(folder)[0].series["vessmark/ort"]
    return lambda typed: hint_for_date(series, parse_coin_date(typed))


@pytest.mark.parametrize(
    ("date", "said"),
    [
        ("1870", "its run goes from 1891 to 1899"),
        ("1900", "its run goes from 1891 to 1899"),
        ("1870-71", "its run goes from 1891 to 1899"),
        ("undated", "its run goes from 1891 to 1899"),
        ("1?70", "its run goes from 1891 to 1899"),
        ("1892", "1892 is listed as not struck"),
        ("1898", "whether 1898 was struck is not known here"),
        ("1895", "a coin of that year bears the double date 1895-96"),
        ("1896", "a coin of that year bears the double date 1895-96"),
        ("1894", "its nearest dates are 1893 and 1895-96"),
        ("1893-94", "its nearest dates are 1893 and 1895-96"),
        ("1?94", "of the years of its run only 1894 would fit, which is not listed as struck"),
    ],
)
def test_the_run_is_told_of_dates_outside_it_alone(hint, date, said):
    assert hint(date) == said
