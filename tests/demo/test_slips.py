"""Slips of the demo's pages are read back as the views that they are of."""

import pytest

from daterun.press.fingerprints import mark_page
from daterun.press.slips import Slips, has_slip, read_slip
from daterun.readers.closing import close_catalogue
from daterun.readers.reader import Reader
from daterun.site import check, open_theme, plan_edition


@pytest.mark.parametrize("reader", [Reader.PUBLIC, Reader.KEEPER])
def test_every_slip_of_the_demo_is_read_back(demo, tmp_path, reader):
    checked = check(demo.folder)
    theme, words = open_theme(demo.folder, checked.catalogue)
    plan = plan_edition(close_catalogue(checked.catalogue, checked.photos, reader), words, theme)
    pages = [each for each in plan.pages if has_slip(each)]
    assert len(pages) > 200
    with Slips(tmp_path / "slips") as slips:
        for each in pages:
            slips.add(repr(each))
        slips.take_place()
    for each in pages:
        assert read_slip(tmp_path / "slips", each.address, mark_page(each, "", ""), "") == each
