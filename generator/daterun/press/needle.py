"""A needle: one way in which a page might tell a private value."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from daterun.readers.withheld import Withheld

Tokens = tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Needle:
    """The words and numbers that are sought, in order; the value is None where it is not at hand.

    Alone tells that it counts only as the whole of an element, an attribute or a text in data. A proper one is
    a single word with a capital letter, which counts only as it was typed.
    """

    tokens: Tokens
    withheld: "Withheld | None"
    is_alone: bool = False
    proper: str = ""
