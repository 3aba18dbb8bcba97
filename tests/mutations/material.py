"""The catalogue that is changed at random: small, so that a case is cheap, and with every key that there is.

It has a file of each sort and no fault of its own.
"""

SETTINGS = """\
title: A small cabinet
keeper: Ida Quennell
summary: The ort, by date
language: en-GB
grading: 70-point
theme: tray
web: https://example.org/coins/
currency: VKR
as of: 2026-11-01
metals:
  silver: {price: 0.61 VKR, per: g, on: 2026-10-02, source: evening paper}
readers: {public: {wants: no, certificate numbers: no}, club: {wants: yes}}
may be named: [Hallin]
pictures: {format: jpeg, widths: [1600, 640, 160]}
aims:
  - id: by-date
    name: By date
    series: [ort]
    dates: 1891–1899
    one per: [date, variety]
    strikes: [ordinary, proof]
    at least: F12
    counts: low
    problems: refused
    kinds: [regular]
    leave out: {ort: {1892 old: beyond my means}}
wants:
  - {slot: ort 1892, at most: 400 VKR, remark: ask at the fair}
"""

ISSUER = """\
name: Kingdom of Vessmark
money: {daler: 4 ort, ort: 24 skilling}
decimal: {on: 1919-01-01, daler: 4 kron}
mints: {none: Vessborg, K: Kaldhamn}
monarchs:
  ingrith: {name: Ingrith, reign: {from: 1869-05-02, to: 1893-11-20}}
  torvald-iii: {name: Torvald III, reign: {from: 1893-11-20}}
source: Court almanac
"""

SERIES = """\
name: Ort
issuer: vessmark
face: 1 ort
denomination: ort
labels: {AH 1320: 1902}
standards:
  - {dates: 1891–1902, metal: silver, fineness: .750, weight: 9.000 g, remedy: 0.040 g, diameter: 26.5 mm,
     thickness: 2 mm, edge: milled, axis: 12h, note: none, source: Coinage Law of 1870, checked: yes}
types:
  - id: ingrith
    dates: 1891–1893
    monarch: ingrith
    obverse: {legend: INGRITH QUEEN, design: Crowned head to the left, designer: M. Oskell}
    reverse: {legend: KINGDOM OF VESSMARK, design: A spruce}
  - id: torvald
    dates: 1893–1902
    monarch: torvald-iii
    obverse: {legend: TORVALD III KING}
varieties:
  - {id: old, dates: 1891–1899, side: reverse, reading: value spelt OORT}
  - {id: new, dates: [1899, 1902], side: reverse, reading: value spelt ORT, source: Report of 1899}
issues:
  source: Mint reports
  struck:
    1891: 341,000
    1892: {mintage: 2310, scarce: yes}
    1893: {by type: {ingrith: 10, torvald: 20}}
    1894: {proofs: 60}
    1895-96: 120,000
    1897: {mintage: 98000, melted: 21000, source: Report of 1898, note: melted}
    1899: {mintage: 298000, proofs: 40, by variety: {old: 210000, new: 88000}}
    1900: {mintage: [764, 1128]}
    1901: {issues: [{mint: K, mintage: 10, checked: no}, {mint: none, mintage: 12}]}
    AH 1320: unknown
  not struck: [1898]
"""

RICH = """\
---
series: ort
date: 1899
variety: [old]
type: torvald
standard: 1891–1902
strike: ordinary
kind: regular
grades:
  - {grade: VF30–EF40, on: 2024-02-11, reasons: hair is flat}
problem: [cleaned]
certificates:
  - {by: North Pier Grading, grade: AU55, number: 4417-0092, on: 2025-05-02, sealed: yes}
weight: 8.97 g
diameter: 26.4 mm
axis: 12h
gravity: {dry: 8.97 g, wet: 8.08 g, reading: 0.01 g}
design: Weak on the date
references: [Report of 1899 plate 3]
quantity: 1
set: year-set
lot: fair
added: 2019-04-10
acquired: {on: 2019-04-03, from: R. Tarn, how: bought, note: with its ticket}
provenance:
  - {owner: Hallin collection, until: 1988, sale: Kaldhamn autumn sale, lot: 212, publish: yes}
kept: cabinet 2, tray 4
value: {amount: 80 VKR, on: 2026-01-10, basis: two sales}
private: seller hinted at a hoard
photos: {obverse: {file: a.jpg, crop: {x: 812, y: 790, diameter: 1480}}}
---
Sharp; compare [[plain both]] and the date [[ort 1893]], *said* [elsewhere](https://example.org "x").[^1]

[^1]: A remark.
"""

PLAIN = """\
---
series: ort
date: 1892
grade: GVF/EF
parted: {on: 2024-05-01, to: J. Lund, how: exchanged, price: 12.00 VKR, for: [rich]}
---
"""

MULE = """\
---
series: ort
date: 18?1
kind: mule
departs: obverse of the daler
struck in: 1908
lot: fair
set: year-set
---
"""

LOT = """\
name: A tin
on: 2019-04-03
from: R. Tarn
how: bought
price: 40 VKR
share: {rich: 30 VKR, mule: 10 VKR}
note: unsorted
"""

ESSAY = """\
---
title: The two spellings
summary: How the ort lost a letter
on: 2024-01-02
order: 2
part of: letters
---
The [[rich reverse]] has it, and [[plain]].

| a | b |
| --- | --- |
| 1 | 2 |
"""

FILES: dict[str, str] = {
    "content/catalogue.yaml": SETTINGS,
    "content/issuers/vessmark.yaml": ISSUER,
    "content/series/vessmark/ort.yaml": SERIES,
    "content/coins/rich.md": RICH,
    "content/coins/plain.md": PLAIN,
    "content/coins/mule.md": MULE,
    "content/lots/fair.yaml": LOT,
    "content/pages/spellings.md": ESSAY,
}

PHOTO = "content/photos/a.jpg"
