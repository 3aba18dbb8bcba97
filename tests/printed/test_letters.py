"""Letters of every script in every text that is printed: as typed, or told with the coin's name."""

import re

import pytest

SERIES = """name: Ort {x}
issuer: vessmark
face: 1 ort
standards:
  - {{dates: 1891–1906, metal: silver, fineness: .750, weight: 9.000 g, diameter: 26.5 mm, edge: milled {x},
     source: Law {x}}}
types:
  - {{id: t, name: Type {x}, dates: 1891–1906, monarch: ingrith, note: Note {x},
     obverse: {{legend: LEGEND {x}, design: Head {x}, designer: Cutter {x}}},
     reverse: {{legend: REALM {x}, design: Spruce {x}}}}}
varieties:
  - {{id: v, name: Variety {x}, dates: 1891–1906, side: reverse, reading: reading {x}}}
  - {{id: w, dates: 1891–1906, side: reverse, reading: other {x}}}
issues:
  source: Reports {x}
  note: Remark {x}
  struck: {{1891–1906: 1000}}
"""

COIN = """---
series: ort
date: 1891
variety: v
grade: {{grade: VF30, reasons: flat {x}}}
problem: [cleaned]
design: strong {x}
references: [Vide {x}]
provenance:
  - {{owner: Owner {x}, sale: Sale {x}, publish: yes}}
kept: tray {x}
value: {{amount: 80 VKR, on: 2026-01-10, basis: sales {x}}}
---
A note {x}, *told {x}* and `code {x}`.

- item {x}

> quoted {x}

| head {x} |
| --- |
| cell {x} |

A footnote[^1].

[^1]: At the foot {x}.
"""

SETTINGS = """title: Cabinet {x}
keeper: Keeper {x}
summary: Summary {x}
as of: 2026-11-01
currency: VKR
readers: {{public: {{wants: yes}}}}
aims:
  - {{id: a, name: Aim {x}, series: [ort], one per: [date], at least: VF20}}
wants:
  - {{slot: ort 1892, at most: 400 VKR, remark: ask {x}}}
"""

ESSAY = "---\ntitle: Essay {x}\n---\nText {x}.\n"

ISSUER = """name: Realm {x}
money: {{daler: 4 ort, ort: 24 skilling}}
mints: {{none: Mint {x}}}
monarchs:
  ingrith: {{name: Queen {x}, reign: {{from: 1869-05-02, to: 1910-11-20}}}}
"""

TOLD = {
    "catalogue": (
        "Cabinet", "Keeper", "Summary", "Essay", "Text", "Ort", "milled", "Law", "Type", "Note", "LEGEND", "Head",
        "Cutter", "REALM", "Spruce", "Variety", "reading", "Reports", "Remark", "flat", "strong", "Vide",
        "Owner", "Sale", "note", "told", "code", "item", "quoted", "head", "cell", "foot", "Realm", "Queen",
    ),
    "wants": ("Cabinet", "Ort", "ask"),
    "labels": ("Ort", "Queen", "tray"),
    "schedule": (
        "Cabinet", "Keeper", "Ort", "milled", "LEGEND", "REALM", "Head", "Spruce", "reading", "flat", "strong",
        "sales", "note", "told", "foot", "Realm", "Queen",
    ),
}  # fmt: skip
"""Words of the files that stand in each printed thing, each typed before the letters in question."""


@pytest.fixture
def written(catalogue_folder):
    """Write a catalogue with the same letters in every text, kept on the line of the word before them."""

    def write(letters):
        texts = {
            "content/catalogue.yaml": SETTINGS,
            "content/issuers/vessmark.yaml": ISSUER,
            "content/series/vessmark/ort.yaml": SERIES,
            "content/coins/ort/1891.md": COIN,
            "content/pages/essay.md": ESSAY,
        }
        return catalogue_folder(
            {name: text.replace(" {x}", "\u00a0{x}").format(x=letters) for name, text in texts.items()}
        )

    return write


def squeezed(pages):
    return re.sub(r"[\s\u200b]", "", "".join(pages))


@pytest.mark.parametrize("what", TOLD)
@pytest.mark.parametrize("letters", ["Ἀθῆναι", "Россія", "Łódź", "Þórr ½", "a#b $x$ @c <d> \\e"])
def test_letters_that_the_fonts_have_are_printed_as_typed(written, printed, texts, what, letters):
    result = printed(written(letters), what, **({"introduction": "essay"} if what == "catalogue" else {}))
    assert result.advice == ()
    found = squeezed(texts(result.files[0]))
    for word in TOLD[what]:
        assert squeezed(f"{word} {letters}") in found, word


@pytest.mark.parametrize("what", TOLD)
@pytest.mark.parametrize("letters", ["مصر", "明治", "תל", "🪙"])
def test_letters_that_the_fonts_lack_are_told_with_the_coins_name(written, printed, texts, what, letters):
    result = printed(written(letters), what, **({"introduction": "essay"} if what == "catalogue" else {}))
    told = [each for each in result.advice if each.startswith("the fonts have no letter")]
    for letter in letters:
        assert all(f"{letter} (U+{ord(letter):04X})" in each for each in told)
    assert any("in the catalogue;" in each for each in told)
    assert what == "wants" or any(re.search(rf"in Ort\s{letters} 1891", each) for each in told)
    found = squeezed(texts(result.files[0]))
    for word in TOLD[what]:
        assert squeezed(f"{word} {'¤' * len(letters)}") in found, word
    assert not set(letters) & set(found)


@pytest.mark.parametrize("what", TOLD)
def test_letters_that_turn_the_line_about_are_taken_out(written, printed, texts, what):
    result = printed(written("\u202eabc\u2066d"), what)
    assert "abcd" in squeezed(texts(result.files[0]))
    assert not {"\u202e", "\u2066"} & set("".join(texts(result.files[0])))
    assert result.advice == ()
