"""A page that the preview shows, in a browser that nobody touches: it follows what each build came to."""

import pytest

from daterun.command.report import report_text
from daterun.command.sources import Sources
from daterun.preview.loop import Preview
from daterun.readers.reader import Reader
from daterun.site import build

PATIENCE_MS = 60_000


@pytest.fixture
def folder(catalogue_folder, coin):
    return catalogue_folder({"content/coins/ort/1891.md": coin("1891", "grade: VF30", notes="As found.")})


def test_an_open_page_shows_a_mistake_with_its_line_and_then_what_was_mended(browser, folder, coin):
    preview = Preview(folder, Reader.PUBLIC, lambda problems: report_text(problems, Sources(folder)))
    file = folder / "content/coins/ort/1891.md"

    def save(*lines, notes):
        file.write_text(coin("1891", *lines, notes=notes), encoding="utf-8")
        preview.show(build(folder, Reader.PUBLIC))

    save("grade: VF30", notes="As found.")
    with preview.serving(0) as address:
        page = browser.new_page()
        complaints = []
        page.on("console", lambda said: complaints.append(said.text) if said.type == "error" else None)
        page.on("pageerror", lambda error: complaints.append(str(error)))
        with page.expect_request(lambda request: request.url.endswith("/.daterun/changes")):
            page.goto(f"{address}coins/ort/1891/", wait_until="load")
        assert page.locator("#daterun-problems").count() == 0

        save("grade: MS-72", notes="As found.")
        panel = page.locator("#daterun-problems")
        panel.wait_for(state="visible", timeout=PATIENCE_MS)
        assert 'content/coins/ort/1891.md:4:8: error: grade "MS-72"' in panel.inner_text()
        assert page.get_by_text("As found.").is_visible()
        assert panel.evaluate("each => getComputedStyle(each).position") == "fixed"

        save("grade: VF30", notes="As mended <b>now</b>.")
        page.get_by_text("As mended").wait_for(state="visible", timeout=PATIENCE_MS)
        assert page.locator("#daterun-problems").count() == 0
        assert complaints == []
        page.close()
