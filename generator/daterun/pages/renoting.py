"""Other notes put on the page of a coin, and among the words by which it is found, from what was made before."""

from collections.abc import Iterable
from dataclasses import replace

from daterun.pages.findtexts import put_text, text_with
from daterun.pages.findviews import DataFile, FindView
from daterun.pages.pieces import Note
from daterun.pages.views import CoinView, Page


def notes_on(page: Page) -> str:
    """Give the notes on the page of a coin; "" where there are none."""
    return page.body.notes.markdown if isinstance(page.body, CoinView) and page.body.notes else ""


def renote(page: Page, notes: str) -> Page | None:
    """Put other notes on the page of a coin; None where those before or after may bear on more than that.

    Notes with a link or a picture do.
    """
    body = page.body
    if "[" in notes_on(page) or "[" in notes or not isinstance(body, CoinView):
        return None
    return replace(page, body=replace(body, notes=Note(notes, ()) if notes.strip() else None))


def reword(texts: DataFile, place: int, before: str, after: str) -> DataFile | None:
    """Have a coin found by the words of other notes; None where its words do not end in those before."""
    text = text_with(str(texts.rows[place]), before, after)
    return put_text(texts, place, text) if text is not None else None


def find_by_texts(page: Page, before: Iterable[DataFile], after: Iterable[DataFile]) -> Page:
    """Have the page on which coins are found lead to other words, in the place of those before."""
    assert isinstance(page.body, FindView), "coins are found on this page"
    new = {each.address: then.address for each, then in zip(before, after, strict=True)}
    texts = tuple(new.get(each, each) for each in page.body.texts)
    return replace(page, body=replace(page.body, texts=texts))
