from dataclasses import replace

from daterun.press.fingerprints import Mark, mark_page, reason_for


def test_a_page_s_mark_changes_with_its_view_its_theme_and_the_base(essay_page):
    page = essay_page()
    first = mark_page(page, "theme", "")
    assert mark_page(essay_page(), "theme", "") == first
    others = [
        mark_page(essay_page("Other."), "theme", ""),
        mark_page(replace(page, template="coin"), "theme", ""),
        mark_page(page, "another", ""),
        mark_page(page, "theme", "/coins/"),
    ]
    assert len({first, *others}) == 5


def test_the_reason_names_what_changed():
    before = Mark("a", "b", "c")
    assert reason_for(before, before) == ""
    assert reason_for(before, Mark("x", "b", "c")) == "what it shows has changed"
    assert reason_for(before, Mark("a", "x", "c")) == "the theme has changed"
    assert reason_for(before, Mark("a", "b", "x")) == "the program has changed"
