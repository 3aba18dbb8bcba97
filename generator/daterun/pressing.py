"""The pages of one build: made on all cores, searched while they wait, and put in place once all are made."""

from collections.abc import Sequence

from daterun.pages.views import Page
from daterun.press.fingerprints import Mark, mark_page
from daterun.press.inspection import Inspection
from daterun.press.output import Output
from daterun.press.searching import Find
from daterun.press.sheets import Sheets
from daterun.press.templates import Press
from daterun.result import Progress
from daterun.shares import share_out

_TOGETHER = 16
"""Pages that are made one after another by one process: neighbours show the same cards."""


def print_stale(
    pages: Sequence[Page], press: Press, inspection: Inspection, sheets: Sheets, progress: Progress
) -> None:
    """Make the pages that are stale into sheets, which wait apart, and search each as it is made."""
    edition, search = inspection.edition, inspection.search

    def make(page: Page) -> tuple[Mark, str, bytes, list[Find]]:
        mark = mark_page(page, press.theme.fingerprint, press.base)
        reason = edition.reason(page.address, mark)
        if not reason:
            return mark, "", b"", []
        data = press.render(page).encode()
        return mark, reason, data, search.in_file(page.address, data) if search else []

    for nth, (mark, reason, data, finds) in share_out(
        pages, make, lambda done: progress("pages", done, len(pages)), together=_TOGETHER
    ):
        if reason:
            sheets.add(pages[nth].address, data)
            edition.expect(pages[nth].address, mark, reason, data)
            inspection.finds += finds


def put_in_place(sheets: Sheets, edition: Output, progress: Progress) -> int:
    """Write the waiting sheets where they belong; return how many differ from what was there."""
    written = 0
    for done, (address, data) in enumerate(sheets, start=1):
        written += edition.write(address, data)
        progress("writing", done, len(sheets))
    return written
