"""What a reader is told anyway: names, amounts and days of what is shown, and the names of all issues."""

from daterun.readers.closing import close_catalogue
from daterun.readers.reader import Reader
from daterun.readers.said import gather_said
from daterun.records.catalogue import read_catalogue
from daterun.site import build


def test_the_names_of_all_that_was_struck_are_known(catalogue_folder):
    catalogue, _ = read_catalogue(catalogue_folder())
    said = gather_said(close_catalogue(catalogue, {}, Reader.PUBLIC))
    assert {"Ort 1892", "ort 1892", "Ort 1895-96"} <= said.known


def test_a_lot_called_as_a_date_that_every_grid_shows_is_no_find(catalogue_folder, coin):
    folder = catalogue_folder(
        {
            "content/coins/a.md": coin("1891", "lot: one"),
            "content/lots/one.yaml": "name: Ort 1891\nnote: Ort 1892 from Orlanda\nprice: 9 VKR\n",
        }
    )
    assert not build(folder, Reader.PUBLIC).has_errors
