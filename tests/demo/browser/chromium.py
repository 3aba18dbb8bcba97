"""The machine's own Chromium, driven without a window, for every test that walks pages."""

import os
import shutil
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, sync_playwright

NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome", "msedge")

ARGUMENTS = (
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)


def find_browser() -> str | None:
    return next((found for name in NAMES if (found := shutil.which(name))), None)


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    """A running browser; where there is none, the test is passed over, but fails where one is asked for.

    It is closed with the module, for no two can be driven at once by one process.
    """
    path = find_browser()
    if path is None:
        said = "no Chromium or Chrome was found on this machine, so no page was walked"
        if os.environ.get("CI") == "true" or os.environ.get("DATERUN_NEEDS_BROWSER"):
            pytest.fail(said)
        pytest.skip(said)
    with sync_playwright() as playwright:
        running = playwright.chromium.launch(executable_path=path, args=list(ARGUMENTS))
        yield running
        running.close()
