"""What every printed thing says of itself: whose it is, for whom, and as of which day."""

from daterun.pages.binder import Binder
from daterun.pages.printpieces import Title
from daterun.pages.wording import say_day
from daterun.readers.reader import Reader


def title_of(binder: Binder, what: str) -> Title:
    """Make the title of a printed thing: catalogue, wants, labels or schedule."""
    words, settings, reader = binder.words, binder.catalogue.settings, binder.catalogue.reader
    day = settings.as_of
    return Title(
        settings.title,
        words.say(f"print.{what}"),
        settings.summary,
        settings.keeper,
        "" if reader is Reader.PUBLIC else words.say(f"notice.{reader.value}"),
        words.say("print.as-of", day=say_day(day, words)) if day is not None else "",
        (day.year, day.month or 1, day.day or 1) if day is not None else (),
        settings.language,
    )
