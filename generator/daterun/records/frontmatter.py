"""A Markdown file parted into its YAML front matter and its text, with the lines on which each begins."""

import hashlib
from dataclasses import dataclass

from daterun.problems import Place, Problem

RULE = "front matter"


@dataclass(frozen=True, slots=True)
class PartedText:
    """Front matter and text of one file, and the line of the file on which each begins, from 1."""

    matter: str
    matter_line: int
    text: str
    text_line: int

    @property
    def digest(self) -> str:
        """A digest of the front matter as it was typed."""
        return digest_of_text(self.matter)


def digest_of_text(text: str) -> str:
    """Give the digest by which a text is told to be as it was."""
    return hashlib.blake2b(text.encode("utf-8", "surrogatepass"), digest_size=12).hexdigest()


def part_front_matter(whole: str, path: str) -> PartedText | Problem:
    """Part a file at its two rows of three hyphens; a problem where they are not there."""
    lines = whole.split("\n")
    if not lines or lines[0].rstrip() != "---":
        return Problem(
            RULE,
            "the file does not begin with front matter",
            Place(path, 1, 1, 1),
            "begin with a row of three hyphens, then series: and date:, then three hyphens again",
        )
    for number, line in enumerate(lines[1:], start=1):
        if line.rstrip() in ("---", "..."):
            matter = "\n".join(lines[1:number]) + "\n"
            return PartedText(matter, 2, "\n".join(lines[number + 1 :]), number + 2)
    return Problem(
        RULE,
        "the front matter has no end",
        Place(path, 1, 1, 3),
        "close it with a row of three hyphens before the notes",
    )
