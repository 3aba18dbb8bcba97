"""The two scales of grades: the 70-point scale with its 30 steps, and the British ladder.

How a grade is written on a ticket is left to ``grading.py``.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType

TOP = 70


class Habit(StrEnum):
    """The habit of the trade in which a bare word such as EF is meant."""

    SEVENTY = "70-point"
    BRITISH = "british"


@dataclass(frozen=True, slots=True, order=True)
class Step:
    """One of the 30 numbers in use on the 70-point scale."""

    number: int
    abbreviation: str
    name: str

    def __str__(self) -> str:
        return f"{self.abbreviation}{self.number}"


# The numbers: https://en.wikipedia.org/wiki/Sheldon_coin_grading_scale for 1 to 8, common practice of the
# trade for the rest. Adjectives from "Choice" upward vary between guides; the number is what counts.
STEPS: tuple[Step, ...] = (
    Step(1, "PO", "Poor"),
    Step(2, "FR", "Fair"),
    Step(3, "AG", "About Good"),
    Step(4, "G", "Good"),
    Step(6, "G", "Choice Good"),
    Step(8, "VG", "Very Good"),
    Step(10, "VG", "Choice Very Good"),
    Step(12, "F", "Fine"),
    Step(15, "F", "Choice Fine"),
    Step(20, "VF", "Very Fine"),
    Step(25, "VF", "Very Fine plus"),
    Step(30, "VF", "Choice Very Fine"),
    Step(35, "VF", "Choice Very Fine plus"),
    Step(40, "EF", "Extremely Fine"),
    Step(45, "EF", "Choice Extremely Fine"),
    Step(50, "AU", "About Uncirculated"),
    Step(53, "AU", "About Uncirculated plus"),
    Step(55, "AU", "Choice About Uncirculated"),
    Step(58, "AU", "Very Choice About Uncirculated"),
    Step(60, "MS", "Mint State"),
    Step(61, "MS", "Mint State"),
    Step(62, "MS", "Mint State"),
    Step(63, "MS", "Choice Mint State"),
    Step(64, "MS", "Choice Mint State"),
    Step(65, "MS", "Gem Mint State"),
    Step(66, "MS", "Gem Mint State"),
    Step(67, "MS", "Superb Gem Mint State"),
    Step(68, "MS", "Superb Gem Mint State"),
    Step(69, "MS", "Nearly Perfect Mint State"),
    Step(70, "MS", "Perfect Mint State"),
)
STEP_BY_NUMBER: Mapping[int, Step] = MappingProxyType({step.number: step for step in STEPS})

# The British ladder on the 70-point scale, lowest first. Common practice, no published source, approximate:
# a British grade is stricter than the same American word. It serves to compare and to sort; a grade is
# always shown as it was written. The names are those of the Royal Mint's page on coin grading,
# https://www.royalmint.com/our-coins/ranges/historic-coins/coin-grading/, from NF to UNC. That page puts
# About above Nearly; many use the two alike, and so does this table. NVG, GVG, NF and NFDC are placed here
# between their neighbours, without any source.
CORRESPONDENCE: Mapping[str, tuple[int, int]] = MappingProxyType(
    {
        "P": (1, 2),
        "Fair": (2, 4),
        "NVG": (4, 8),
        "AVG": (4, 8),
        "VG": (6, 10),
        "GVG": (8, 12),
        "NF": (10, 12),
        "AF": (10, 12),
        "F": (12, 15),
        "GF": (15, 20),
        "NVF": (20, 25),
        "AVF": (20, 25),
        "VF": (25, 35),
        "GVF": (35, 45),
        "NEF": (40, 50),
        "AEF": (40, 50),
        "EF": (50, 55),
        "GEF": (55, 58),
        "NUNC": (58, 60),
        "AUNC": (58, 60),
        "UNC": (60, 63),
        "BU": (63, 65),
        "NFDC": (65, 66),
        "AFDC": (65, 66),
        "FDC": (66, 70),
    }
)

BRITISH_NAMES: Mapping[str, str] = MappingProxyType(
    {
        "P": "Poor",
        "Fair": "Fair",
        "VG": "Very Good",
        "F": "Fine",
        "VF": "Very Fine",
        "EF": "Extremely Fine",
        "UNC": "Uncirculated",
        "BU": "Brilliant Uncirculated",
        "FDC": "Fleur de coin",
    }
)

_PREFIXES = {"N": "Nearly", "A": "About", "G": "Good"}


def in_full(word: str) -> str:
    """Write a word of the British ladder in full: Nearly Very Fine for NVF."""
    if word in BRITISH_NAMES:
        return BRITISH_NAMES[word]
    return f"{_PREFIXES[word[0]]} {BRITISH_NAMES[word[1:]]}"


def steps_of(abbreviation: str) -> tuple[int, int]:
    """Find the lowest and highest number of a word of the 70-point scale, such as 40 and 45 of EF."""
    numbers = [step.number for step in STEPS if step.abbreviation == abbreviation]
    return min(numbers), max(numbers)


def nearest_step(number: float) -> Step:
    """Find the step nearest to a number, the lower of two that are equally near."""
    return min(STEPS, key=lambda step: (abs(step.number - number), step.number))


def neighbours(number: float) -> tuple[Step, Step]:
    """Find the steps just below and just above a number that lies between two of them."""
    below = max(step for step in STEPS if step.number < number)
    above = min(step for step in STEPS if step.number > number)
    return below, above
