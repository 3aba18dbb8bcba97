"""Whole prints of small catalogues, read back from their PDFs."""

import io
import re
import shutil

import pypdf
import pytest
from PIL import Image, ImageDraw

from daterun.pages.printchoice import Choice
from daterun.press.labelsheets import read_label_sheet
from daterun.printing import Form, print_sheets
from daterun.problems import CannotContinue
from daterun.readers.reader import Reader
from daterun.site import build

SETTINGS = """title: A small cabinet
keeper: Ida Quennell
as of: 2026-11-01
language: en-GB
currency: VKR
readers: {public: {wants: yes}}
aims:
  - {id: orts, name: Orts by date, series: [ort], one per: [date], at least: VF20, problems: refused}
wants:
  - {slot: ort 1892, at most: 400.00 VKR, remark: ask at the Kaldhamn fair}
"""

PRIVATE = (
    "acquired: {on: 2019-04-03, from: Tarn of Ostrey, price: 45.17 VKR}",
    "kept: the blue strongbox",
    "value: {amount: 80.29 VKR, on: 2026-01-10, basis: two sales in 2025}",
    "private: seller hinted at a hoard",
)

HOSTILE = r"#read(\"/etc/passwd\") $x$ [a] @b <c> \\d ~ * _ `e` #{1+1} </script>"
GREEK = "Ἀθήνη, Россия"


def photograph(colour):
    """A round coin of one colour on a light ground."""
    image = Image.new("RGB", (400, 400), (240, 240, 236))
    ImageDraw.Draw(image).ellipse((60, 60, 340, 340), fill=colour)
    out = io.BytesIO()
    image.save(out, "JPEG", quality=92)
    return out.getvalue()


@pytest.fixture
def folder(catalogue_folder, coin):
    notes = "A *sharp* strike; see [[ort/1900]], and [[ort/1900 both]].\n\n<b>As typed</b> & so on[^1].\n\n"
    notes += "[^1]: At the foot.\n"
    owners = "{owner: Hallin collection, until: 1988, publish: yes}, {owner: Quiet Owner, until: 1999}"
    owner = f"provenance: [{owners}]"
    files = {
        "content/catalogue.yaml": SETTINGS,
        "content/coins/ort/1891.md": coin(
            "1891", "grade: VF30", owner, "added: 2020-01-01", *PRIVATE, notes=notes
        ),
        "content/coins/ort/1897.md": coin("1897", "grade: F12", "kept: tray 4", "added: 2024-05-01"),
        "content/coins/ort/1900.md": coin("1900", "grade: EF40"),
        "content/photos/ort/1891.obverse.jpg": photograph((150, 150, 146)),
        "content/photos/ort/1891.reverse.jpg": photograph((60, 62, 70)),
        "content/pages/on-orts.md": "---\ntitle: On orts\n---\nThe first is [[ort/1891]].\n",
    }
    return catalogue_folder(files)


def printed(folder, what, reader=Reader.PUBLIC, **chosen):
    form = Form(labels=read_label_sheet("medium", "a4"), **chosen.pop("form", {}))
    result = print_sheets(folder, what, reader, Choice(**chosen), form)
    assert not result.has_errors
    return result


def texts(path):
    """The text of each page, with spaces made one, as extraction puts them where letters are set apart."""
    return [
        re.sub(r"\s+", " ", page.extract_text().replace("\u200b", "")) for page in pypdf.PdfReader(path).pages
    ]


def whole_text(path):
    return " ".join(texts(path))


def squeezed(text):
    return re.sub(r"\s", "", text)


def edit(folder, name, before, after):
    path = folder / name
    text = path.read_text(encoding="utf-8")
    assert before in text
    path.write_text(text.replace(before, after), encoding="utf-8")


def test_the_catalogue_has_its_title_language_bookmarks_and_tags(folder):
    (path,) = printed(folder, "catalogue").files
    pdf = pypdf.PdfReader(path)
    root = pdf.trailer["/Root"]
    assert pdf.metadata.title == "A small cabinet: A catalogue"
    assert pdf.metadata.creation_date.date().isoformat() == "2026-11-01"
    assert root["/Lang"] == "en-GB"
    assert root["/MarkInfo"]["/Marked"]
    declared = root["/Metadata"].get_object().get_data().decode()
    assert "pdfuaid:part" in declared and "pdfaid:part" in declared

    def titles(outline):
        for each in outline:
            yield from titles(each) if isinstance(each, list) else [each.title]

    assert {"The coinage by date", "Ort", "What was struck", "Ingrith", "Index"} <= set(titles(pdf.outline))
    assert any(each.endswith("Ort 1900") for each in titles(pdf.outline))


def test_contents_and_index_name_the_pages_on_which_things_stand(folder):
    (path,) = printed(folder, "catalogue").files
    pages = texts(path)
    contents = pages[2]
    for heading in ("Former collections", "Sources", "Index"):
        page = int(re.search(rf"{heading}[ .]*?(\d+)", contents)[1])
        assert heading in pages[page - 1]
    index = next(each for each in reversed(pages) if "Hallin collection" in each and "Index" in each)
    page = int(re.search(r"Hallin collection (\d+)", index)[1])
    assert "Hallin collection, until 1988" in pages[page - 1]
    page = int(re.search(r"\b1897 (\d+)", index)[1])
    assert "Ort 1897" in pages[page - 1]


def test_every_link_in_the_catalogue_leads_to_a_page_of_it_or_to_the_web(folder):
    edit(folder, "content/coins/ort/1891.md", "A *sharp*", "[a report](https://example.org/r) A *sharp*")
    (path,) = printed(folder, "catalogue").files
    pdf = pypdf.PdfReader(path)
    found = set()
    for page in pdf.pages:
        for each in page.get("/Annots", ()):
            link = each.get_object()
            action = link.get("/A", {})
            if "/URI" in action:
                found.add(action["/URI"])
            else:
                target = link.get("/Dest") or action["/D"]
                target = pdf.named_destinations[target].dest_array if isinstance(target, str) else target
                assert target[0].get_object()["/Type"] == "/Page"
                found.add("within")
    assert found == {"https://example.org/r", "within"}


def test_an_entry_tells_what_museum_catalogues_tell(folder):
    (path,) = printed(folder, "catalogue").files
    text = whole_text(path)
    entry = text[text.index("1 Ort 1891") :]
    order = [
        "Obverse:",
        "Reverse:",
        "Weight:",
        "Diameter:",
        "Grade:",
        "Struck:",
        "Provenance:",
        "sharp strike",
    ]
    places = [entry.index(each) for each in order]
    assert places == sorted(places)
    assert "341,000 struck" in entry
    assert "At the foot." in text
    assert squeezed("<b>As typed</b> & so on") in squeezed(text)


@pytest.mark.parametrize("reader", [Reader.PUBLIC, Reader.CLUB])
def test_a_note_that_tells_what_is_private_is_refused_and_the_last_print_stays(folder, reader):
    (path,) = printed(folder, "catalogue", reader).files
    before = path.read_bytes()
    edit(folder, "content/coins/ort/1900.md", "---\n\n", "---\nNext to those in the blue strongbox.\n")
    result = print_sheets(folder, "catalogue", reader)
    assert [each.place.path for each in result.problems if each.is_error] == ["content/coins/ort/1891.md"]
    assert path.read_bytes() == before
    assert not print_sheets(folder, "catalogue", Reader.KEEPER).has_errors


@pytest.mark.parametrize("what", ["catalogue", "wants", "labels"])
def test_nothing_private_is_in_what_the_public_may_have(folder, what):
    (path,) = printed(folder, what).files
    text = squeezed(whole_text(path))
    for secret in (
        "Tarn",
        "45.17",
        "strongbox",
        "80.29",
        "hoard",
        "Quiet Owner",
        "400.00",
        "Kaldhamn fair",
        "tray 4",
    ):
        assert squeezed(secret) not in text


def test_the_keepers_labels_wants_and_schedule_tell_what_only_the_keeper_may_know(folder):
    (labels,) = printed(folder, "labels", Reader.KEEPER).files
    assert "the blue strongbox" in whole_text(labels)
    (wants,) = printed(folder, "wants", Reader.KEEPER).files
    text = whole_text(wants)
    assert "at most 400.00 VKR" in text.replace("\u00a0", " ")
    assert "ask at the Kaldhamn fair" in text
    assert "have F12" in text
    (schedule,) = printed(folder, "schedule", Reader.KEEPER).files
    text = whole_text(schedule)
    for said in (
        "Type of object: coin",
        "Materials and technique: .750 silver, struck",
        "Inscriptions and markings: Obverse: INGRITH",
        "Edge: milled",
        "A sharp strike",
        "80.29 VKR",
    ):
        assert said in text
    assert "two sales in 2025" in text
    assert "Private and confidential" in text or "rivate and confidential" in text.lower()


@pytest.mark.parametrize("reader", [Reader.PUBLIC, Reader.CLUB])
def test_the_schedule_is_refused_to_all_but_the_keeper(folder, reader):
    with pytest.raises(CannotContinue, match="for the keeper alone"):
        printed(folder, "schedule", reader)
    assert not (folder / "output").exists()


def test_the_schedule_adds_up_each_currency_by_itself(folder):
    edit(folder, "content/coins/ort/1897.md", "kept: tray 4", "value: {amount: 10.00 KRU, on: 2026-01-10}")
    edit(folder, "content/coins/ort/1900.md", "grade: EF40", "value: {amount: 19.71 VKR, on: 2026-01-10}")
    (path,) = printed(folder, "schedule", Reader.KEEPER).files
    front = texts(path)[0]
    assert re.search(r"KRU 1 10\.00 KRU", front)
    assert re.search(r"VKR 2 100\.00 VKR", front)


def test_the_want_list_is_refused_where_it_is_not_turned_on(folder):
    edit(folder, "content/catalogue.yaml", "readers: {public: {wants: yes}}\n", "")
    with pytest.raises(CannotContinue, match="wants: yes"):
        printed(folder, "wants")


def test_the_want_list_carries_every_gap_and_upgrade_on_one_sheet(folder):
    (path,) = printed(folder, "wants").files
    (page,) = texts(path)
    for date in ("1892", "1893", "1895–96", "1897", "1899", "1901", "1902", "1903", "1904", "1905", "1906"):
        assert re.search(rf"(?<!\d){date}", page), date
    assert "2,310 struck · scarce" in page
    (folded,) = printed(folder, "wants", form={"fold": True}).files
    box = pypdf.PdfReader(folded).pages[0].mediabox
    assert box.width > box.height


def test_a_choice_prints_only_the_coins_chosen(folder):
    (path,) = printed(folder, "catalogue", since="2024").files
    text = whole_text(path)
    assert "Grade: F12" in text
    assert "Grade: VF30" not in text
    (path,) = printed(folder, "catalogue", monarchs=("ingrith",)).files
    assert "Grade: VF30" in whole_text(path)
    assert "Grade: F12" not in whole_text(path)
    (path,) = printed(folder, "catalogue", coins=("ort/1900",)).files
    assert "Grade: EF40" in whole_text(path)


@pytest.mark.parametrize(
    ("chosen", "sentence"),
    [
        ({"series": ("orts",)}, 'no series "orts"; did you mean "ort"'),
        ({"monarchs": ("ingrid",)}, 'no monarch "ingrid"; did you mean "ingrith"'),
        ({"coins": ("ort/1819",)}, 'no coin that this reader may see "ort/1819"'),
        ({"since": "yesterday"}, '"yesterday" is not a day'),
        ({"since": "2030"}, "no coin answers"),
        ({"introduction": "on-ort"}, 'no essay "on-ort"'),
        ({"coins": ("ort/1900",), "plates": ("ort/1891",)}, "not among the coins chosen"),
    ],
)
def test_a_choice_of_what_is_not_there_is_told(folder, chosen, sentence):
    with pytest.raises(CannotContinue, match=re.escape(sentence)):
        printed(folder, "catalogue", **chosen)


def test_plates_and_an_introduction_stand_in_the_catalogue(folder):
    (path,) = printed(folder, "catalogue", plates=("ort/1891",), introduction="on-orts").files
    text = whole_text(path)
    assert "On orts The first is Ort 1891" in text
    assert "Plates" in text


def test_the_same_catalogue_prints_the_same_bytes_and_writes_them_once(folder, tmp_path):
    first = {}
    for what in ("catalogue", "wants", "labels", "schedule"):
        result = printed(folder, what, Reader.KEEPER)
        assert result.written == (f"{what}.pdf",)
        first[what] = result.files[0].read_bytes()
        assert printed(folder, what, Reader.KEEPER).written == ()
    shutil.copytree(folder / "content", tmp_path / "else" / "content")
    for what, data in first.items():
        assert printed(tmp_path / "else", what, Reader.KEEPER).files[0].read_bytes() == data


def test_with_errors_the_last_print_stays_as_it_was(folder):
    (path,) = printed(folder, "catalogue").files
    before = path.read_bytes()
    edit(folder, "content/coins/ort/1900.md", "grade: EF40", "grade: MS-72")
    assert print_sheets(folder, "catalogue", Reader.PUBLIC).has_errors
    assert path.read_bytes() == before


def test_a_mistake_in_a_template_names_its_file_and_line(folder):
    own = folder / "themes" / "tray" / "print"
    own.mkdir(parents=True)
    (own / "wants.typ").write_text('#import "page.typ": *\n#nothing-of-the-kind\n')
    result = print_sheets(folder, "wants", Reader.PUBLIC)
    (problem,) = [each for each in result.problems if each.is_error]
    assert (problem.place.path, problem.place.line) == ("themes/tray/print/wants.typ", 2)
    assert "nothing-of-the-kind" in problem.sentence


def test_what_is_printed_is_no_stranger_to_a_build_and_is_left_alone(folder):
    (path,) = printed(folder, "catalogue").files
    assert build(folder, Reader.PUBLIC).strangers == ()
    (folder / "output/public/print/mine.pdf").write_bytes(b"mine")
    result = build(folder, Reader.PUBLIC)
    assert result.strangers == ("print/mine.pdf",)
    assert path.is_file()


def test_a_folder_that_is_no_edition_is_never_made_one(folder):
    mine = folder / "output" / "public" / "index.html"
    mine.parent.mkdir(parents=True)
    mine.write_text("mine")
    with pytest.raises(CannotContinue, match="did not make"):
        printed(folder, "wants")
    assert [each.name for each in mine.parent.iterdir()] == ["index.html"]


def test_hostile_text_is_printed_as_it_was_typed(folder, coin):
    text = coin("1903", f'design: "{HOSTILE}"', f"references: ['{GREEK}']", notes=f"{HOSTILE}\n\nA {GREEK} B")
    (folder / "content/coins/ort/1903.md").write_text(text, encoding="utf-8")
    result = printed(folder, "catalogue")
    found = squeezed(whole_text(result.files[0]))
    for typed in ('#read("/etc/passwd")$x$[a]@b<c>', "#{1+1}</script>", squeezed(GREEK)):
        assert squeezed(typed) in found
    assert result.advice == ()


def test_letters_that_the_fonts_lack_are_advice_with_the_coins_name(folder, coin):
    text = coin("1903", "design: struck 明治 and مصر", notes="A note with \u202eمص and 寛永.")
    (folder / "content/coins/ort/1903.md").write_text(text, encoding="utf-8")
    result = printed(folder, "catalogue")
    (advice,) = result.advice
    assert "Ort 1903" in advice
    assert "明 (U+660E)" in advice
    assert "struck ¤¤ and" in whole_text(result.files[0])


def test_a_word_of_any_length_and_a_note_of_ten_thousand_letters_stay_on_the_page(folder, coin):
    text = coin("1903", f"design: {'W' * 400}", notes="Longer and longer. " * 530)
    (folder / "content/coins/ort/1903.md").write_text(text, encoding="utf-8")
    (path,) = printed(folder, "catalogue").files
    assert squeezed(whole_text(path)).count("Longerandlonger") == 530
    assert "W" * 400 in squeezed(whole_text(path))
    for page in pypdf.PdfReader(path).pages:
        reached = []

        def seen(text, cm, tm, font, size, reached=reached):
            if "W" in text:
                reached.append(cm[4] + tm[4] * cm[0])

        page.extract_text(visitor_text=seen)
        assert all(0 <= each <= float(page.mediabox.width) - 40 for each in reached)


def test_a_photo_that_cannot_be_read_is_a_problem_that_names_it(folder):
    path = folder / "content/photos/ort/1891.reverse.jpg"
    path.write_bytes(path.read_bytes()[:900])
    result = print_sheets(folder, "catalogue", Reader.PUBLIC)
    assert result.has_errors
    assert any("1891.reverse.jpg" in each.place.path for each in result.problems if each.is_error)


def test_a_catalogue_of_no_coins_and_no_day_prints(catalogue_folder):
    folder = catalogue_folder({})
    for what in ("catalogue", "labels"):
        (path,) = printed(folder, what).files
        assert len(pypdf.PdfReader(path).pages) >= 1


def test_a_catalogue_of_many_coins_comes_in_volumes_that_number_on(folder, monkeypatch):
    monkeypatch.setattr("daterun.pages.printcatalogue.COINS_OF_A_VOLUME", 2)
    result = printed(folder, "catalogue")
    assert [each.name for each in result.files] == ["catalogue-1.pdf", "catalogue-2.pdf"]
    first, second = (whole_text(each) for each in result.files)
    assert "Volume 1 of 2" in first
    assert "2 Ort 1897" in first
    assert "3 Ort 1900" not in first
    assert "3 Ort 1900" in second
    monkeypatch.undo()
    assert [each.name for each in printed(folder, "catalogue").files] == ["catalogue.pdf"]
    assert [each.name for each in sorted((folder / "output/public/print").iterdir())] == ["catalogue.pdf"]


def test_a_label_whose_text_does_not_fit_is_told(folder, coin):
    long = "a very long place in a cabinet of many drawers, " * 8
    (folder / "content/coins/ort/1903.md").write_text(coin("1903", f"kept: {long}"), encoding="utf-8")
    result = printed(folder, "labels", Reader.KEEPER)
    assert result.advice == ("the text of ort/1903 does not fit its label, and is cut",)
