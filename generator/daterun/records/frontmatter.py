"""A Markdown file parted into its YAML front matter and its text, with the lines on which each begins."""

from dataclasses import dataclass

from daterun.problems import Place, Problem

RULE = "front matter"


@dataclass(frozen=True, slots=True)
class Parted:
    """Front matter and text of one file, and the line of the file on which each begins, from 1."""

    matter: str
    matter_line: int
    text: str
    text_line: int


def part_front_matter(whole: str, path: str) -> Parted | Problem:
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
            return Parted(matter, 2, "\n".join(lines[number + 1 :]), number + 2)
    return Problem(
        RULE,
        "the front matter has no end",
        Place(path, 1, 1, 3),
        "close it with a row of three hyphens before the notes",
    )
