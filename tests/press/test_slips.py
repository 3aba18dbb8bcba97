"""Slips of pages are read back as the views that they were written from, or not at all."""

from dataclasses import replace

import pytest

from daterun.press.fingerprints import mark_page, mark_shown
from daterun.press.slips import Slips, add_slips, has_slip, read_slip
from daterun.readers.closing import close_catalogue
from daterun.readers.reader import Reader
from daterun.site import check, open_theme, plan_edition

BASE = "/coins/"


@pytest.fixture
def pages(catalogue_folder, coin):
    folder = catalogue_folder(
        {
            "content/coins/ort/1891.md": coin("1891", "grade: VF30", notes='It\'s "sharp"\n\\ é\u2028'),
            "content/coins/ort/1900.md": coin(
                "1900",
                "grades: [{grade: EF40, on: 2020-01-01, reasons: worn}, {grade: VF30}]",
                "weight: 8.99 g",
            ),
        }
    )
    checked = check(folder)
    assert not checked.has_errors, checked.problems
    theme, words = open_theme(folder, checked.catalogue)
    plan = plan_edition(close_catalogue(checked.catalogue, checked.photos, Reader.PUBLIC), words, theme)
    return [each for each in plan.pages if has_slip(each)]


def written(path, pages):
    with Slips(path) as slips:
        for each in pages:
            slips.add(repr(each))
        slips.take_place()
    return path


def test_every_page_of_which_a_slip_has_slip_is_read_back(pages, tmp_path):
    path = written(tmp_path / "public.slips", pages)
    assert {each.template for each in pages} == {"coin", "find"}
    for each in pages:
        assert read_slip(path, each.address, mark_page(each, "theme", BASE), BASE) == each
    assert {each.name for each in tmp_path.iterdir()} == {"catalogue", "public.slips"}


def test_a_later_slip_of_a_page_counts(pages, tmp_path):
    path = written(tmp_path / "public.slips", pages)
    page = pages[0]
    later = replace(page, frame=replace(page.frame, site_title="Another cabinet"))
    add_slips(path, [repr(later)])
    assert read_slip(path, page.address, mark_page(later, "theme", BASE), BASE) == later
    assert read_slip(path, page.address, mark_page(page, "theme", BASE), BASE) is None


OTHERS = {
    "another text": lambda shown: shown.replace("site_title='", "site_title='Other "),
    "cut short": lambda shown: shown[:100],
    "nothing": lambda shown: "",
}


@pytest.mark.parametrize("other", OTHERS.values(), ids=OTHERS)
def test_a_slip_that_is_not_as_it_was_is_none(pages, tmp_path, other):
    path = written(tmp_path / "public.slips", pages)
    path.write_text(other(path.read_text(encoding="utf-8")), encoding="utf-8")
    for each in pages:
        assert read_slip(path, each.address, mark_page(each, "theme", BASE), BASE) is None


def test_a_slip_counts_for_its_page_and_the_place_of_its_site_alone(pages, tmp_path):
    path = written(tmp_path / "public.slips", pages)
    mark = mark_page(pages[0], "theme", BASE)
    assert read_slip(path, pages[0].address, mark, "/elsewhere/") is None
    assert read_slip(path, pages[1].address, mark, BASE) is None
    assert read_slip(path, "coins/none/index.html", mark, BASE) is None
    assert read_slip(tmp_path / "none.slips", pages[0].address, mark, BASE) is None


def lies_of(shown: str) -> list[str]:
    """Word views that are well formed, but not the ones that their beginnings tell of, or of other sorts."""
    return [
        shown.replace(", template=", ", address='../../evil.html', template=", 1),
        shown.replace("markdown='", "markdown=5, links='", 1),
        shown.replace("most_held=4", "most_held='4'", 1),
        shown.replace("most_held=4", "most_held=True", 1),
        shown.replace("companions=()", "companions='none'", 1),
        shown.replace("most_held=4", "most_held= 4", 1),
    ]


@pytest.mark.parametrize("nth", range(6))
def test_a_slip_that_is_no_view_as_its_text_says_is_none(pages, tmp_path, nth):
    page = next(each for each in pages if each.template == "coin" and each.body.notes is not None)
    shown = lies_of(repr(page))[nth]
    assert shown != repr(page)
    path = tmp_path / "forged.slips"
    path.write_text(f"\n{shown}", encoding="utf-8")
    assert read_slip(path, page.address, mark_shown(shown, "", BASE), BASE) is None


HOSTILE = (
    "Page(address='a', template=__import__('os').system('true'))",
    "Page(address='a', template=open('x').read())",
    "Page(address='a', template=[1])",
    "Page(address='a', template=Nothing(x=1))",
    "Page(address='a', **{})",
    "Page(address='a', template=" + "(" * 500 + ")" * 500 + ")",
    "Page(address='a', template='x', nothing=1)",
    "Page(address='a', template=1+1)",
    "Page(address='a', template=f'{1}')",
    "Page(address='a', ",
)


@pytest.mark.parametrize("shown", HOSTILE)
def test_nothing_in_a_slip_is_run(tmp_path, shown):
    path = tmp_path / "public.slips"
    path.write_text(f"\n{shown}", encoding="utf-8")
    assert read_slip(path, "a", mark_shown(shown, "", ""), "") is None
