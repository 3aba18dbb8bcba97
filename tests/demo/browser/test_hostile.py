"""Hostile text in every field and in the theme's words runs nothing, and behind that stands the pages' policy."""

from pathlib import Path

import pytest
from playwright.sync_api import Browser

from daterun.readers.reader import Reader
from daterun.site import build

BASE = Path(__file__).parent.parent.parent / "cases" / "base"

RUN = "document.documentElement.dataset.ran='yes'"
HOSTILE = (
    f"\"><script>{RUN}</script><img src=x onerror={RUN}>'><svg onload={RUN}>"
    f"</title></textarea></script><script>{RUN}</script><!-- ]]> {{{{7*7}}}} ${{1}} \\\\u003cscript>"
)
IN_YAML = "'" + HOSTILE.replace("'", "''") + "'"

NOTES = f"""{HOSTILE}

[a](javascript:{RUN}) [b](JaVaScRiPt&colon;{RUN}) <a href="javascript:{RUN}" onclick="{RUN}">c</a>
![d](x" onerror="{RUN}) <iframe srcdoc="<script>parent.{RUN}</script>"></iframe>
<base href="https://example.org/">
<style>body {{ display: none }}</style> <form action="https://example.org">
<button formaction="javascript:{RUN}">e</button>
</form> <meta http-equiv="refresh" content="0;url=https://example.org/"> [e]: javascript:{RUN}
<object data="data:text/html,<script>{RUN}</script>"></object> [f](data:text/html,<script>{RUN}</script>)
<math><mtext><table><mglyph><style><img src=x onerror={RUN}></style></mglyph></table></mtext></math>
[[held|<img src=x onerror={RUN}>]] `<script>{RUN}</script>`
"""

FILES = {
    "content/catalogue.yaml": f"""
title: {IN_YAML}
keeper: {IN_YAML}
summary: {IN_YAML}
web: https://example.org/coins/
metals: {{silver: {{price: 0.61 VKR, per: g, on: 2026-10-02, source: {IN_YAML}}}}}
readers: {{public: {{wants: yes, certificate numbers: yes}}}}
aims: [{{id: all, name: {IN_YAML}, series: [ort]}}]
wants: [{{slot: ort 1892, remark: {IN_YAML}}}]
""",
    "content/coins/held.md": f"""---
series: ort
date: 1891
kind: error
departs: {IN_YAML}
struck in: {IN_YAML}
grades: [{{grade: VF30, reasons: {IN_YAML}}}, {{grade: EF45, reasons: {IN_YAML}}}]
problem: [{IN_YAML}]
certificates: {{by: {IN_YAML}, grade: AU55, number: {IN_YAML}, sealed: no}}
design: {IN_YAML}
references: [{IN_YAML}]
acquired: {{from: {IN_YAML}, how: bought, note: {IN_YAML}}}
provenance: [{{owner: {IN_YAML}, sale: {IN_YAML}, lot: {IN_YAML}, note: {IN_YAML}, publish: yes}}]
kept: {IN_YAML}
value: {{amount: 80 VKR, basis: {IN_YAML}}}
private: {IN_YAML}
added: 2020-01-01
---
{NOTES}
""",
    "content/pages/essay.md": f"---\ntitle: {IN_YAML}\nsummary: {IN_YAML}\n---\n{NOTES}",
    "themes/tray/words/en.yaml": f"nav.home: {IN_YAML}\nmonth.1: {IN_YAML}\ntheme.skip: {IN_YAML}\n",
}


LINKS = """all => all.map(it => it.href?.baseVal !== undefined
  ? new URL(it.href.baseVal, it.baseURI).href
  : it.href ?? it.src ?? it.action)"""


@pytest.fixture(scope="module")
def pages(tmp_path_factory) -> list[Path]:
    root = tmp_path_factory.mktemp("hostile")
    base = {path.relative_to(BASE).as_posix(): path.read_text("utf-8") for path in BASE.rglob("*.yaml")}
    for name, text in {**base, **FILES}.items():
        (root / name).parent.mkdir(parents=True, exist_ok=True)
        (root / name).write_text(text, encoding="utf-8")
    result = build(root, Reader.KEEPER)
    assert [each.sentence for each in result.problems if each.is_error] == []
    return sorted(result.output.rglob("*.html"))


def faults_of(browser: Browser, address: str, clicking: bool = False) -> list[str]:
    """Open a page, press whatever can be pressed, and tell what ran, asked elsewhere or led away."""
    page = browser.new_page()
    faults: list[str] = []
    page.on("console", lambda said: faults.append(said.text) if said.type == "error" else None)
    page.on("pageerror", lambda error: faults.append(str(error)))
    page.on("dialog", lambda dialog: (faults.append(f"dialog: {dialog.message}"), dialog.dismiss()))
    page.on("request", lambda it: None if it.url.startswith("file://") else faults.append(f"asked: {it.url}"))
    page.goto(address)
    if clicking:
        page.evaluate("() => document.querySelectorAll('main a, main button').forEach(it => it.focus())")
    if page.evaluate("() => document.documentElement.dataset.ran || ''"):
        faults.append("it ran")
    page.close()
    return faults


def test_no_hostile_text_runs_or_asks_for_anything(browser, pages):
    assert len(pages) > 8
    found = {each.parent.name: faults_of(browser, each.as_uri(), True) for each in pages}
    assert {name: faults for name, faults in found.items() if faults} == {}


def test_no_link_of_a_hostile_page_runs_a_program(browser, pages):
    page = browser.new_page(java_script_enabled=False)
    for path in pages:
        page.goto(path.as_uri())
        hrefs = page.locator("[href], [src], [action], [formaction]").evaluate_all(LINKS)
        bad = [
            each
            for each in hrefs
            if each and not str(each).startswith(("#", "file:", "https://example.org/"))
        ]
        assert bad == [], path
    page.close()


@pytest.mark.parametrize(
    "smuggled",
    [
        f"<script>{RUN}</script>",
        f'<img src="none.jpg" onerror="{RUN}">',
        f'<svg onload="{RUN}"></svg>',
        f'<iframe srcdoc="<script>parent.{RUN}</script>"></iframe>',
        '<script src="https://example.org/x.js"></script>',
        '<img src="https://example.org/x.png">',
        '<script src="data:text/javascript,document.documentElement.dataset.ran=1"></script>',
        "<style>html { background: red }</style>",
    ],
)
def test_the_policy_of_a_page_stops_what_would_be_smuggled_into_it(browser, pages, tmp_path, smuggled):
    (home,) = [
        each for each in pages if each.name == "index.html" and "output/keeper/index" in each.as_posix()
    ]
    changed = home.with_name("smuggled.html")
    changed.write_text(
        home.read_text(encoding="utf-8").replace('<main id="content">', f'<main id="content">{smuggled}'),
        encoding="utf-8",
    )
    try:
        faults = faults_of(browser, changed.as_uri())
    finally:
        changed.unlink()
    assert any("Content Security Policy" in each for each in faults)
    assert "it ran" not in faults
