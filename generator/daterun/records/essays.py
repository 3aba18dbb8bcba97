"""An essay: a page of the keeper's own, in Markdown, that can show coins."""

from dataclasses import dataclass, field

from daterun.records.fields import Field, Form, Reading, read_form
from daterun.records.kinds import day, identifier, like, text_kind, whole_number
from daterun.records.located import Mapping
from daterun.trade.dates import Day


@dataclass(frozen=True, slots=True)
class Essay:
    """An essay. The id is its path under ``content/pages`` without ``.md``; the text is Markdown."""

    id: str
    path: str
    title: str
    summary: str
    on: Day | None
    order: int
    part_of: str
    text: str
    text_line: int
    at: Mapping = field(compare=False, repr=False)


ESSAY = Form(
    "an essay",
    (
        Field("title", like(text_kind, "The two spellings"), "the title", required=True),
        Field(
            "summary",
            like(text_kind, "How the ort lost a letter"),
            "one sentence on what it is about",
            default="",
        ),
        Field("on", day, "the day it was written"),
        Field("order", whole_number, "its place among the essays, lowest first", default=1000),
        Field(
            "part of",
            like(identifier, "at-the-mint"),
            "the short name of the set of essays it belongs to",
            default="",
        ),
    ),
)


def read_essay(essay_id: str, node: Mapping, text: str, text_line: int, reading: Reading) -> Essay | None:
    """Read an essay from its front matter and text; None where it has no title."""
    values = read_form(ESSAY, node, reading)
    if values is None:
        return None
    return Essay(id=essay_id, path=reading.path, text=text, text_line=text_line, **values)
