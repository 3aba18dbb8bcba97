"""Every printed thing, held to its standards by checkers that know nothing of each other, and by its tags."""

import page as checker
import pikepdf
import pypdf
import pytest

from daterun.readers.reader import Reader

THINGS = [
    ("catalogue", {}, {"plates": ("ort/1891",), "introduction": "on-orts"}),
    ("catalogue", {"columns": 1, "paper": "letter"}, {}),
    ("wants", {}, {}),
    ("wants", {"fold": True}, {}),
    ("labels", {}, {}),
    ("labels", {"is_test": True}, {}),
    ("schedule", {}, {}),
]

every_thing = pytest.mark.parametrize(("what", "form", "chosen"), THINGS)


@every_thing
def test_what_is_printed_answers_to_pdf_ua_1_and_pdf_a_2a(folder, printed, what, form, chosen):
    (path,) = printed(folder, what, form=form, **chosen).files
    for profile in (checker.ValidationProfile.PDF_UA_1, checker.ValidationProfile.PDF_A_2A):
        report = checker.validate_pdf(path, profile=profile)
        assert [(each.rule_id, each.message) for each in report.failures] == []
        assert report.rules.passed > 100


def test_the_checker_finds_what_is_wrong(folder, printed, tmp_path):
    (path,) = printed(folder, "catalogue").files
    with pikepdf.open(path) as pdf:
        del pdf.Root.MarkInfo
        del pdf.Root.Lang
        pdf.save(tmp_path / "untagged.pdf")
    report = checker.validate_pdf(tmp_path / "untagged.pdf", profile=checker.ValidationProfile.PDF_UA_1)
    assert len(report.failures) >= 2


@every_thing
def test_qpdf_finds_nothing_wrong(folder, printed, what, form, chosen):
    (path,) = printed(folder, what, form=form, **chosen).files
    with pikepdf.open(path) as pdf:  # pikepdf is qpdf, and this is what qpdf --check tells
        assert pdf.check_pdf_syntax() == []


@every_thing
def test_every_page_is_in_the_order_of_its_tags_and_has_a_language_and_a_title(
    folder, printed, what, form, chosen
):
    (path,) = printed(folder, what, form=form, **chosen).files
    with pikepdf.open(path) as pdf:
        assert pdf.Root.Lang == "en-GB"
        assert pdf.Root.MarkInfo.Marked
        assert pdf.Root.ViewerPreferences.DisplayDocTitle
        assert str(pdf.docinfo["/Title"]).startswith("A small cabinet: ")
        for each in pdf.pages:
            assert "/Annots" not in each or each.Tabs == "/S"


def elements(path):
    """Walk the tags of a document: the type of each element, its attributes as a dictionary, and its depth."""
    root = pypdf.PdfReader(path).trailer["/Root"]["/StructTreeRoot"]

    def walk(node, depth):
        node = node.get_object()
        if not isinstance(node, dict):
            return
        if "/S" in node:
            yield node["/S"], node, depth
        children = node.get("/K", [])
        for each in children if isinstance(children, list) else [children]:
            yield from walk(each, depth + 1)

    yield from walk(root, 0)


@every_thing
def test_every_figure_says_what_it_shows_and_every_table_has_headings(folder, printed, what, form, chosen):
    (path,) = printed(folder, what, form=form, **chosen).files
    found = list(elements(path))
    figures = [node for kind, node, _ in found if kind == "/Figure"]
    assert all(str(each.get("/Alt", "")).strip() for each in figures)
    assert figures or what == "wants"
    tables = [node for kind, node, _ in found if kind == "/Table"]
    heads = [node for kind, node, _ in found if kind == "/TH"]
    assert bool(tables) == (what in ("catalogue", "schedule"))
    if what == "catalogue":
        assert len(heads) >= len(tables)


@every_thing
def test_headings_go_down_one_level_at_a_time(folder, printed, what, form, chosen):
    (path,) = printed(folder, what, form=form, **chosen).files
    levels = [int(kind[2:]) for kind, _, _ in elements(path) if kind[:2] == "/H" and kind[2:].isdigit()]
    assert levels or what == "labels"
    assert all(after <= before + 1 for before, after in zip([0, *levels], levels, strict=False))


@pytest.mark.parametrize("what", ["catalogue", "wants", "labels"])
@pytest.mark.parametrize("reader", [Reader.PUBLIC, Reader.CLUB])
def test_it_is_so_for_every_reader(folder, printed, what, reader):
    (path,) = printed(folder, what, reader).files
    assert checker.is_pdf_compliant(path, profile=checker.ValidationProfile.PDF_UA_1)
