"""The printed catalogue as a reader of it goes about: by contents, heads, numbers and index."""

import re

import pypdf
import pytest

from daterun.readers.reader import Reader

DATES = ("1891", "1892", "1893", "1897", "1899", "1900", "1901", "1902", "1903", "1904", "1905", "1906")
NOTE = "Struck on a full flan, with wear on the highest points alone and a little dust in the legend. " * 3


@pytest.fixture
def full(folder, coin):
    """A catalogue of more pages: twelve dates under two monarchs, and a pattern of no type."""
    owner = "provenance: [{owner: Ostrey cabinet, publish: yes}]"
    for date in DATES[1:]:
        path = folder / f"content/coins/ort/{date}.md"
        lines = [owner] if date in ("1892", "1906") else []
        lines += ["variety: new-spelling"] if date == "1899" else []
        lines += ["mint: K"] if date == "1902" else []
        path.write_text(coin(date, "grade: VF20", *lines, notes=NOTE), encoding="utf-8")
    pattern = coin("1870", "kind: pattern", "departs: no waves", "grade: EF40")
    (folder / "content/coins/ort/1870-pattern.md").write_text(pattern, encoding="utf-8")
    return folder


def bookmarks(pdf):
    """Give every bookmark with its level from 1 and its page from 1."""

    def walk(outline, level):
        for each in outline:
            if isinstance(each, list):
                yield from walk(each, level + 1)
            else:
                yield level, re.sub(r"\s+", " ", each.title), pdf.get_destination_page_number(each) + 1

    return list(walk(pdf.outline, 1))


@pytest.mark.parametrize("form", [{}, {"columns": 1}, {"paper": "letter"}])
def test_the_contents_name_every_chapter_and_reign_with_its_page(full, printed, texts, form):
    (path,) = printed(full, "catalogue", form=form, introduction="on-orts").files
    marks = bookmarks(pypdf.PdfReader(path))
    pages = texts(path)
    listed = [(title, page) for level, title, page in marks if level < 3 and title != "What was struck"]
    assert len(listed) > 7
    at = 0
    for title, page in listed:
        found = re.compile(rf"{re.escape(title)}[ .]*?\b{page}\b").search(pages[2], at)
        assert found, title
        at = found.end()
        assert title in pages[page - 1]


@pytest.mark.parametrize("form", [{}, {"columns": 1}, {"paper": "letter"}])
def test_the_index_names_for_every_term_the_pages_of_its_coins(full, printed, texts, form):
    (path,) = printed(full, "catalogue", form=form).files
    marks = bookmarks(pypdf.PdfReader(path))
    page_of = {title.partition(" ")[2]: page for level, title, page in marks if level == 3}
    assert len(page_of) == 13
    index = texts(path)[next(page for _, title, page in marks if title == "Index") - 1]
    coins = {
        "Ostrey cabinet": ("Ort 1892", "Ort 1906"),
        "Hallin collection": ("Ort 1891",),
        "new spelling": ("Ort 1899, new spelling",),
        "pattern": ("Ort 1870, pattern",),
        "Kaldhamn (K)": ("Ort 1902, Kaldhamn (K)",),
        **{date: tuple(each for each in page_of if each.startswith(f"Ort {date}")) for date in DATES},
    }
    for term, names in coins.items():
        pages = sorted({page_of[name] for name in names})
        assert names and re.search(rf"{re.escape(term)} {', '.join(map(str, pages))}(?!,)\b", index), term


def test_reigns_follow_each_other_and_a_piece_of_no_type_stands_in_its_time(full, printed):
    (path,) = printed(full, "catalogue").files
    marks = bookmarks(pypdf.PdfReader(path))
    titles = [title for _, title, _ in marks]
    assert titles.count("Ingrith") == titles.count("Torvald III") == 1
    order = ["Ingrith", "1 Ort 1870, pattern", "2 Ort 1891", "4 Ort 1893", "Torvald III", "5 Ort 1897"]
    assert [title for title in titles if title in order] == order
    (path,) = printed(full, "catalogue", monarchs=("ingrith",)).files
    assert [title for _, title, _ in bookmarks(pypdf.PdfReader(path)) if " Ort " in title] == [
        "1 Ort 1870, pattern",
        "2 Ort 1891",
        "3 Ort 1892",
        "4 Ort 1893",
    ]


def test_the_head_of_a_page_tells_its_denomination_reigns_and_numbers(full, printed, texts):
    (path,) = printed(full, "catalogue", form={"columns": 1}).files
    pages = texts(path)
    marks = bookmarks(pypdf.PdfReader(path))
    begins = next(page for _, title, page in marks if title == "Ort")
    ends = next(page for _, title, page in marks if title == "Former collections")
    assert ends - begins > 2
    for page in range(begins + 1, ends):
        own = [int(title.split()[0]) for level, title, at in marks if level == 3 and at == page]
        numbers = f"{min(own)}–{max(own)}" if len(own) > 1 else str(own[0])
        assert re.match(rf"ORT .*{numbers} ", pages[page - 1], re.IGNORECASE), page
    turning = next(page for _, title, page in marks if title == "Torvald III")
    assert re.match(r"ort (Ingrith – )?Torvald III", pages[turning - 1], re.IGNORECASE)


def test_a_side_is_described_once_and_then_named_by_its_number(full, printed, texts):
    (path,) = printed(full, "catalogue", Reader.PUBLIC).files
    text = " ".join(texts(path))
    entries = text[text.index("2 Ort 1891") : text.index("Former collections", text.index("2 Ort 1891"))]
    assert entries.count("INGRITH QUEEN OF VESSMARK") == 1
    assert entries.count("TORVALD III KING OF VESSMARK") == 1
    assert entries.count("Obverse and reverse: as 2.") == 2
    assert "Reverse: as 2." in entries
    assert "Obverse: as 5. Reverse: as 2." in entries


def test_the_table_of_dates_gives_the_number_under_which_a_coin_is_described(full, printed, texts):
    (path,) = printed(full, "catalogue").files
    text = " ".join(texts(path))
    assert "VF30 · no. 2" in text.replace("\u00a0", " ")


def test_no_page_of_the_catalogue_is_empty(full, printed, texts):
    (path,) = printed(full, "catalogue", plates=("ort/1891",), introduction="on-orts").files
    assert min(len(each) for each in texts(path)) > 60


def test_a_volume_describes_each_side_itself_and_numbers_on(full, printed, texts, monkeypatch):
    monkeypatch.setattr("daterun.pages.printcatalogue.COINS_OF_A_VOLUME", 8)
    first, second = printed(full, "catalogue").files
    assert "INGRITH QUEEN" not in texts(second)[3]
    pages = texts(second)
    text = " ".join(pages)
    assert "Obverse: TORVALD III KING OF VESSMARK" in text
    assert "as 9." in text and "as 5." not in text
    assert any(re.match(r"Ort Torvald III 9–", each, re.IGNORECASE) for each in pages) or "9 Ort 1902" in text
    assert len(pypdf.PdfReader(first).pages) > 4


def test_a_long_entry_goes_on_in_the_next_column_and_a_short_one_does_not(full, printed, coin, texts):
    path = full / "content/coins/ort/1904.md"
    path.write_text(coin("1904", "grade: VF20", notes="Long and longer. " * 600), encoding="utf-8")
    (made,) = printed(full, "catalogue").files
    pages = texts(made)
    assert sum("Long and longer." in each for each in pages) > 1
    for number, date in enumerate(DATES, start=2):
        if date != "1904":
            page = next(each for each in pages if f"{number} Ort {date}" in each)
            assert "dust in the legend" in page or number == 2
