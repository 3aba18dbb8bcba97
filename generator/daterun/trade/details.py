"""The words for what makes a coin a problem coin, whose grade is given as "details".

The list is from memory, not checked; other words may be used, and are then only remarked on.
"""

from collections.abc import Mapping
from types import MappingProxyType

PROBLEM_GROUPS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "surface": (
            "cleaned",
            "lightly cleaned",
            "harshly cleaned",
            "dipped",
            "wiped",
            "polished",
            "burnished",
            "whizzed",
            "altered surface",
            "artificial toning",
            "recoloured",
            "lacquered",
            "gilded",
            "plated",
        ),
        "marks": (
            "scratched",
            "graffiti",
            "bag marks",
            "contact damage",
            "dented",
            "gouged",
            "bent",
            "cracked",
            "counterstamped",
            "chopmarked",
        ),
        "rim and edge": (
            "rim damage",
            "rim nicks",
            "rim knock",
            "rim filed",
            "edge damage",
            "edge knock",
            "clipped",
        ),
        "holes and mounts": ("holed", "plugged", "mounted", "mount removed", "ex-jewellery", "solder"),
        "environment": (
            "environmental damage",
            "corrosion",
            "verdigris",
            "PVC residue",
            "water damage",
            "fire damage",
        ),
        "alteration": ("tooled", "repaired", "re-engraved", "altered date", "altered mint mark"),
    }
)
PROBLEM_REASONS: tuple[str, ...] = tuple(word for group in PROBLEM_GROUPS.values() for word in group)

# Faults of making and of age that are no problem in this sense; from memory, not checked.
NO_PROBLEMS: tuple[str, ...] = ("weak strike", "planchet flaw", "die crack", "natural toning", "toned")
