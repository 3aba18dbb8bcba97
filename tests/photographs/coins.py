"""The coins to be photographed, read from the content folder as plain text, and what the dies for each bear."""

from __future__ import annotations

import hashlib
import re
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
import yaml

# coins whose keeper has not photographed them, and why
WITHOUT_PHOTOS = {
    "2-skilling/18x2": "the date cannot be read and a picture would show nothing",
    "quarter-skilling/undated": "worn to a smooth disc",
    "12-skilling/1892": "parted with before it was photographed",
    "ort/1886": "parted with before it was photographed",
    "half-daler/1874": "a pocket piece, waiting its turn",
    "4-skilling/1879": "hardly worth a photograph, the notes say",
    "skilling/1875": "waiting its turn",
    "8-skilling/1887": "waiting its turn",
}

VALUES = {
    "daler": "ONE DALER", "half-daler": "HALF DALER", "12-skilling": "12 SKILLING",
        "8-skilling": "8 SKILLING",
    "4-skilling": "4 SKILLING", "4-skilling-nickel": "4 SKILLING", "2-skilling": "TWO SKILLING",
    "skilling": "ONE SKILLING", "half-skilling": "HALF SKILLING", "quarter-skilling": "QUARTER SKILLING",
}

# the 70-point figure that a bare word of the ladder stands for; common practice, no source, rough
LADDER = {"PO": 1, "FR": 2, "AG": 3, "G": 4, "VG": 8, "F": 12, "VF": 20, "EF": 40, "AU": 50, "UNC": 60,
    "MS": 60, "PF": 60}
# how far nearly, about and good lead towards the next grade
STEPS = {"N": -0.15, "A": -0.15, "G": 0.5}


def grade_number(text: str) -> float:
    """Read the low end of one grade as a number of the 70-point scale; rough, for pictures only."""
    word = re.split(r"[–]", text.strip())[0].split()[0].rstrip("+")
    figures = re.search(r"(\d+)$", word)
    if figures:
        return float(figures[1])
    if word in LADDER:
        return float(LADDER[word])
    prefix, base = word[:1], word[1:]
    if prefix not in STEPS or base not in LADDER:
        raise ValueError(f"no grade {text!r}")
    order = sorted(set(LADDER.values()))
    place = order.index(LADDER[base]) + (1 if STEPS[prefix] > 0 else -1)
    return LADDER[base] + abs(STEPS[prefix]) * (order[min(max(place, 0), len(order) - 1)] - LADDER[base])


@dataclass(frozen=True, slots=True)
class Coin:
    """One coin as far as a photograph shows it."""

    id: str
    series: str
    date: str
    type: str
    obverse_legend: str
    reverse_legend: str
    metal: str
    diameter_mm: float
    mint: str
    varieties: tuple[str, ...]
    strike: str
    kind: str
    problems: tuple[str, ...]
    grades: tuple[float, float]  # obverse, reverse
    colour: str  # RD, RB or BN where the grade says so

    def random(self, *purpose: str) -> np.random.Generator:
        """Give the same stream of chance for the same coin and purpose, on any day."""
        digest = hashlib.sha256(" ".join((self.id, *purpose)).encode()).digest()
        return np.random.default_rng(int.from_bytes(digest[:8], "big"))


def _years(text: str) -> tuple[int, int]:
    found = [int(y) for y in re.findall(r"\d{4}", text)]
    return (found[0], found[-1]) if found else (0, 9999)


def _list(value: Any) -> list[Any]:
    if value is None:
        return []
    return value if isinstance(value, list) else [value]


def read_series(content: Path) -> dict[str, dict[str, Any]]:
    """Read every series of the realm by its id."""
    return {
        path.stem: yaml.load(path.read_text(encoding="utf-8"), yaml.BaseLoader)
        for path in sorted((content / "series").rglob("*.yaml"))
    }


def read_coins(content: Path) -> list[Coin]:
    """Read every coin that has photographs, in order of its id."""
    series = read_series(content)
    coins = []
    for path in sorted((content / "coins").rglob("*.md")):
        name = path.relative_to(content / "coins").with_suffix("").as_posix()
        if name in WITHOUT_PHOTOS:
            continue
        front = yaml.load(path.read_text(encoding="utf-8").split("\n---", 1)[0].removeprefix("---"),
            yaml.BaseLoader)
        coins.append(coin_of(name, front, series[front["series"].rpartition("/")[2]]))
    return coins


def coin_of(name: str, front: dict[str, Any], series: dict[str, Any]) -> Coin:
    """Take from a coin and its series what a photograph shows."""
    date = front["date"]
    year = _years(date.replace("?", "0"))[0]

    def pick(rows: list[dict[str, Any]], wanted: str | None) -> dict[str, Any]:
        for row in rows:
            if wanted and row.get("id") == wanted:
                return row
        if wanted:
            raise ValueError(f"{name}: no type {wanted}")
        for row in rows:
            low, high = _years(row["dates"])
            if low <= year <= high:
                return row
        return rows[0] if year < _years(rows[0]["dates"])[0] else rows[-1]

    kind = pick(series["types"], front.get("type"))
    standard = pick(series["standards"], None)
    written = front.get("grade") or [row["grade"] for row in front.get("grades", [])][-1:] or "VF30"
    grade = written[-1] if isinstance(written, list) else written
    certificates = _list(front.get("certificates") or front.get("certificate"))
    if certificates and certificates[-1].get("sealed") == "yes" and re.search(r"\d",
        certificates[-1].get("grade", "")):
        grade = certificates[-1]["grade"]
    sides = grade.split("/")
    colour = next((word for word in ("RD", "RB", "BN") if word in grade.split()), "")
    diameter = re.match(r"[\d.]+", front.get("diameter") or standard["diameter"])
    varieties = _list(front.get("variety"))
    if not varieties:  # a date that has only one variety of its kind bears that one
        varieties = [row["id"] for row in series.get("varieties",
            []) if _years(row["dates"])[0] <= year <= _years(row["dates"])[1] and "over" not in row["id"]]
    mint = front.get("mint")
    if mint is None:
        struck = series["issues"]["struck"].get(date)
        marks = list(struck.get("by mint", {})) if isinstance(struck, dict) else []
        mint = marks[0] if len(marks) == 1 else "none"
    return Coin(
        id=name,
        series=front["series"].rpartition("/")[2],
        date=date,
        type=kind["id"],
        obverse_legend=kind["obverse"]["legend"],
        reverse_legend=kind["reverse"]["legend"],
        metal=standard["metal"],
        diameter_mm=float(diameter[0]) if diameter else 25.0,
        mint="" if mint == "none" else mint,
        varieties=tuple(varieties),
        strike=front.get("strike", "ordinary"),
        kind=front.get("kind", "regular"),
        problems=tuple(_list(front.get("problem"))),
        grades=(grade_number(sides[0]), grade_number(sides[-1])),
        colour=colour,
    )
