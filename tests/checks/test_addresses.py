"""Pages and their addresses, where two would meet."""

from daterun.checks.addresses import check_pages
from daterun.problems import Place


def clashes(*pages: tuple[str, str | None]) -> list[tuple[str, list[str]]]:
    found = check_pages((address, Place(path) if path else None) for address, path in pages)
    return [(each.place.path, [other.path for other in each.others]) for each in found]


def test_pages_in_one_folder_do_not_meet():
    assert clashes(("coins/ort/index.html", "a.md"), ("coins/ort/1899/index.html", "b.md")) == []


def test_case_and_composed_letters_do_not_tell_addresses_apart():
    assert clashes(("coins/Ö/index.html", "a.md"), ("coins/o\u0308/index.html", "b.md")) == [
        ("b.md", ["a.md"])
    ]


def test_a_page_cannot_lie_where_another_needs_a_folder():
    pages = (("coins/x/index.html/index.html", "a.md"), ("coins/x/index.html", "b.md"))
    assert clashes(*pages) == [("a.md", ["b.md"])]
    assert clashes(*reversed(pages)) == [("a.md", ["b.md"])]


def test_a_page_of_our_own_is_never_the_one_at_fault():
    pages = (("coins/index.html", None), ("coins/index.html/index.html", "a.md"))
    assert clashes(*pages) == [("a.md", [])]


def test_a_coin_and_an_essay_may_be_called_index(rules_of, coin):
    essay = "---\ntitle: One\n---\n"
    assert rules_of({"content/coins/index.md": coin("1891"), "content/pages/index.md": essay}) == []


def test_names_keep_their_letters_whatever_the_script(rules_of, coin):
    files = {f"content/coins/{name}.md": coin("1891") for name in ("år 1891", "1891+b", "ort_1891,a", "日本")}
    assert rules_of(files) == []


def test_names_that_some_machine_or_address_refuses_are_told(rules_of, coin):
    names = ("50%", "what?", "a\\b", "1891.", "x /y", "con\u202eman", "a[1]")
    assert rules_of({f"content/coins/{name}.md": coin("1891") for name in names}) == ["address"] * len(names)
