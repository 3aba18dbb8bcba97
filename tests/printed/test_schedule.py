"""The schedule for the insurer, front page and entries."""

import re

CATEGORIES = (
    "Type of object:",
    "Materials and technique:",
    "Measurements:",
    "Inscriptions and markings:",
    "Title:",
    "Subject:",
    "Date or period:",
    "Maker:",
    "Photographs:",
    "Description",
)
"""Those of the Object ID checklist (ICOM); distinguishing features stand only where there are any."""


def test_the_front_page_tells_what_the_schedule_covers_and_leaves_lines_to_fill_in(folder, printed, texts):
    front = texts(printed(folder, "schedule").files[0])[0]
    for told in (
        "Owner Ida Quennell",
        "Items 4 coins (4 pieces)",
        "With photographs 1 coin",
        "With a value 1 coin",
        "VKR 1 80.29 VKR",
        "no value told 3",
        "Kept at",
        "Policy",
        "Signed, with the date",
    ):
        assert told in front.replace("\u00a0", " "), told


def test_every_page_says_that_it_is_private(folder, printed, texts):
    pages = texts(printed(folder, "schedule").files[0])
    assert len(pages) > 1
    assert all(each.lower().startswith("private and confidential") for each in pages)


def test_an_entry_has_every_category_of_object_id_in_order(folder, printed, texts):
    text = " ".join(texts(printed(folder, "schedule").files[0])[1:])
    entry = text[text.index("1 Ort 1891") : text.index("2 Ort 1893")]
    places = [entry.index(each) for each in CATEGORIES]
    assert places == sorted(places)
    assert "Photographs: obverse and reverse" in entry
    assert re.search(r"80\.29.VKR", entry)
    assert "two sales in 2025" in entry


def test_what_sets_a_coin_apart_is_among_its_features(folder, printed, coin, texts):
    text = coin("1899", "variety: new-spelling", "grade: VF20", "problem: [scratched]", "design: weak date")
    (folder / "content/coins/ort/1899.md").write_text(text, encoding="utf-8")
    found = " ".join(texts(printed(folder, "schedule", coins=("ort/1899",)).files[0]))
    assert "Distinguishing features: value spelt ORT; scratched; weak date" in found


def test_a_schedule_of_many_coins_comes_in_volumes_that_say_so(folder, printed, texts, monkeypatch):
    monkeypatch.setattr("daterun.pages.printschedule.ITEMS_OF_A_VOLUME", 3)
    first, second = printed(folder, "schedule").files
    assert "Volume 1 of 2" in texts(first)[0] and "Volume 2 of 2" in texts(second)[0]
    assert "4 Ort 1900" in texts(second)[1]
    assert "80.29" in texts(second)[0]
