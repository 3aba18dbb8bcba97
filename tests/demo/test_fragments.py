"""Pages come out the same whether fragments of them are kept or not."""

import pytest

from daterun.press.fragments import Fragments
from daterun.press.templates import Press
from daterun.readers.closing import close_catalogue
from daterun.readers.reader import Reader
from daterun.site import check, open_theme, plan_edition


def call_anew(self, macro, eval_ctx, args, named):
    return macro(eval_ctx, *args, **named)


@pytest.mark.parametrize("reader", [Reader.PUBLIC, Reader.KEEPER])
def test_a_page_is_the_same_whether_fragments_are_kept_or_not(demo, monkeypatch, reader):
    checked = check(demo.folder)
    theme, words = open_theme(demo.folder, checked.catalogue)
    plan = plan_edition(close_catalogue(checked.catalogue, checked.photos, reader), words, theme)
    kept = Press(theme, words)
    pages = {each.address: kept.render(each) for each in plan.pages}
    backwards = Press(theme, words)
    assert {each.address: backwards.render(each) for each in reversed(plan.pages)} == pages
    monkeypatch.setattr(Fragments, "call", call_anew)
    anew = Press(theme, words)
    for each in plan.pages:
        assert anew.render(each) == pages[each.address], each.address
