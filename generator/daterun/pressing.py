"""The pages of one build: made on all cores, searched while they wait, and put in place once all are made."""

from collections.abc import Sequence

from daterun.pages.views import Page
from daterun.press.fingerprints import Mark, mark_shown
from daterun.press.inspection import Inspection
from daterun.press.output import Output
from daterun.press.sheets import Sheets
from daterun.press.slips import Slips, has_slip
from daterun.press.templates import Press
from daterun.result import Progress
from daterun.shares import share_out

_TOGETHER = 16
"""Pages that are made one after another by one process: neighbours show the same cards."""


def print_stale(
    pages: Sequence[Page],
    press: Press,
    inspection: Inspection,
    sheets: Sheets,
    slips: Slips | None,
    progress: Progress,
) -> None:
    """Make the pages that are stale into sheets, which wait apart, and search each as it is made.

    Slips are kept of stale pages and others, where they are given.
    """
    edition, search = inspection.edition, inspection.search

    def make(page: Page) -> tuple[Mark, str, bytes, tuple[int, ...], str]:
        shown = repr(page)
        mark = mark_shown(shown, press.theme.fingerprint, press.base)
        slip = shown if slips is not None and has_slip(page) else ""
        reason = edition.reason(page.address, mark)
        if not reason:
            return mark, "", b"", (), slip
        data = press.render(page).encode()
        finds = search.in_file(page.address, data) if search else []
        return mark, reason, data, search.numbered(finds) if finds else (), slip

    for nth, (mark, reason, data, finds, slip) in share_out(
        pages, make, lambda done: progress("pages", done, len(pages)), together=_TOGETHER
    ):
        if slips is not None and slip:
            slips.add(slip)
        if reason:
            sheets.add(pages[nth].address, data)
            edition.expect(pages[nth].address, mark, reason, data)
            inspection.finds += search.found(pages[nth].address, finds)


def put_in_place(sheets: Sheets, edition: Output, progress: Progress) -> int:
    """Write the waiting sheets where they belong; return how many differ from what was there."""
    written = 0
    for done, (address, data) in enumerate(sheets, start=1):
        written += edition.write(address, data)
        progress("writing", done, len(sheets))
    return written
