"""Sheets of labels by their measures in millimetres, as the maker of the sheets gives them."""

import re
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation

from daterun.problems import Misread, meant

PAPERS = {"a4": (210, 297), "letter": (216, 279)}
"""Width and height in whole millimetres: ISO 216, and 8 1/2 by 11 inches (215.9 by 279.4)."""


@dataclass(frozen=True, slots=True)
class LabelSheet:
    """How labels lie on a sheet. All lengths are in millimetres; gaps are those between labels."""

    across: int
    down: int
    width: Decimal
    height: Decimal
    left: Decimal
    top: Decimal
    gap_across: Decimal
    gap_down: Decimal

    @property
    def right_end(self) -> Decimal:
        return self.left + self.across * self.width + (self.across - 1) * self.gap_across

    @property
    def lower_end(self) -> Decimal:
        return self.top + self.down * self.height + (self.down - 1) * self.gap_down

    def as_data(self) -> dict[str, object]:
        """Give the measures as the templates take them: lengths in hundredths of a millimetre."""
        return {
            "across": self.across,
            "down": self.down,
            **{
                name: round(getattr(self, name) * 100)
                for name in ("width", "height", "left", "top", "gap_across", "gap_down")
            },
        }


PRESETS = {
    "small": LabelSheet(5, 13, *(Decimal(each) for each in ("35", "20", "12", "16", "2", "0"))),
    "medium": LabelSheet(4, 10, *(Decimal(each) for each in ("45", "25", "11", "20", "2", "0"))),
    "large": LabelSheet(2, 7, *(Decimal(each) for each in ("90", "35", "12", "18", "4", "0"))),
}
"""Three plain sheets that fit A4 and Letter, by the size of a label. They are of no maker."""

_MEASURES = ("across", "down", "width", "height", "left", "top", "gap")
_PART = re.compile(r"\s*([a-z]+)\s*=\s*([0-9.x]+)\s*(?:mm)?\s*")


def read_label_sheet(text: str, paper: str) -> LabelSheet:
    """Read a sheet: small, medium or large, or its measures.

    ``across=3,down=8,width=63.5,height=33.9,left=7.2,top=13,gap=2.5x0`` gives every length in millimetres; the
    gap is that across and that down. Raise Misread where it cannot be read, or does not fit the paper.
    """
    sheet = PRESETS.get(text) or _read(text)
    wide, high = PAPERS[paper]
    if sheet.right_end > wide or sheet.lower_end > high:
        raise Misread(
            f"these labels need {sheet.right_end} by {sheet.lower_end} mm, and the paper has {wide} by {high}"
        )
    return sheet


def _read(text: str) -> LabelSheet:
    if "=" not in text:
        raise Misread(f'"{text}" is no sheet of labels', meant(text, PRESETS))
    found: dict[str, str] = {}
    for part in text.split(","):
        match = _PART.fullmatch(part)
        if match is None or match[1] not in _MEASURES or match[1] in found:
            raise Misread(f'"{part.strip()}" is no measure of a sheet', "known here: " + ", ".join(_MEASURES))
        found[match[1]] = match[2]
    if missing := [each for each in _MEASURES if each not in found and each != "gap"]:
        raise Misread(f"the sheet needs {' and '.join(missing)}")
    across, _, down = found.get("gap", "0").partition("x")
    try:
        counts = [int(found[each]) for each in ("across", "down")]
        lengths = [Decimal(found[each]) for each in ("width", "height", "left", "top")]
        gaps = [Decimal(across), Decimal(down or across)]
    except (ValueError, InvalidOperation) as error:
        raise Misread(f'"{text}" holds a measure that is no number') from error
    if min(counts) < 1 or min(lengths[:2]) < 10 or max(counts) > 60:
        raise Misread("a sheet has at least one label across and down, of 10 by 10 mm or more")
    return LabelSheet(counts[0], counts[1], *lengths, *gaps)
