"""Measures how long the table of coins takes to load, filter, sort and draw in the machine's Chromium.

    python tests/bench/filtering.py [HOW MANY]

The coins are invented by arithmetic; the page is the theme's own, made from its sample, opened from a folder.
"""

import platform
import shutil
import statistics
import sys
import tempfile
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "themes"))
import finding
import rendering
from playwright.sync_api import sync_playwright

from daterun.pages.findrows import PART, RANKED, rank
from daterun.pages.findviews import Cell, DataFile
from daterun.press.datafiles import write_data

WORDS = (
    "lustre",
    "hairline",
    "toned",
    "spruce",
    "weak",
    "rim",
    "sharp",
    "field",
    "anchor",
    "die",
    "nick",
    "straw",
)

QUESTIONS = {
    "one monarch": {"monarch": "Torvald III"},
    "words in the notes": {"words": "lustre nick"},
    "a span of grades": {"from": "30", "to": "45"},
    "all at once": {"monarch": "Ingrith", "words": "toned", "from": "12", "to": "58", "problem": "none"},
    "everything again": {},
}

MEASURE = """
([asked, by]) => {
  const form = document.querySelector("form.find");
  for (const field of form.elements) if (field.name) field.value = asked[field.name] || "";
  const head = by && document.querySelector(`[data-sort="${by}"]`);
  const start = performance.now();
  if (head) head.click(); else form.dispatchEvent(new Event("input", { bubbles: true }));
  document.body.offsetHeight;
  return [performance.now() - start, document.querySelector(".find-sum").textContent];
}
"""

READ = """
() => new Promise(resolve => {
  const start = performance.now(), form = document.querySelector("form.find");
  form.elements.words.dispatchEvent(new Event("focus"));
  new MutationObserver(() => resolve(performance.now() - start)).observe(form, { attributes: true });
})
"""


def row(n: int) -> tuple[Cell, ...]:
    year, low = 1871 + n % 47, 4 + n * 7 % 60
    monarch = ("Ingrith", "Torvald III", "Sunniva")[n % 3]
    problem = "cleaned" if n % 9 == 0 else ""
    return (
        f"ort/{n}", f"Ort {year}, {n}", "Ort", str(year), year, monarch, "silver", f"VF{low}", low * 100,
        (low + 4) * 100, problem, (), 0, "silver",
    )  # fmt: skip


def text(n: int) -> str:
    return f"ort {1871 + n % 47} " + " ".join(WORDS[(n * 7 + k * (n % 5)) % len(WORDS)] for k in range(60))


def main(many: int) -> None:
    chromium = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
    with tempfile.TemporaryDirectory() as made, sync_playwright() as play:
        folder = Path(made)
        shutil.copytree(rendering.THEME / "assets", folder / "assets")
        rows = [row(n) for n in range(many)]
        ranks = list(zip(*(rank(str(each[place]) for each in rows) for place in RANKED), strict=True))
        data, texts = [], []
        for nth, start in enumerate(range(0, many, PART)):
            flat = tuple(one for each in ranks[start : start + PART] for one in each)
            part = tuple(rows[start : start + PART])
            data.append(DataFile(f"find/coins-{nth}.js", "daterunCoins", nth, part))
            data.append(DataFile(f"find/orders-{nth}.js", "daterunOrders", nth, flat))
            said = tuple(text(n) for n in range(start, min(start + PART, many)))
            texts.append(DataFile(f"find/texts-{nth}.js", "daterunTexts", nth, said))
        (folder / "find").mkdir()
        for file in (*data, *texts):
            (folder / file.address).write_bytes(write_data(file))
        page = finding.find_page(*(tuple(each.address for each in files) for files in (data, texts)))
        path = folder / page.address
        path.write_text(rendering.render(rendering.theme_environment(), page), encoding="utf-8")
        weights = [
            sum((folder / each.address).stat().st_size for each in files) / 1e6 for files in (data, texts)
        ]
        browser = play.chromium.launch(executable_path=chromium, args=["--no-sandbox", "--disable-gpu"])
        loads = []
        for _ in range(5):
            shown = browser.new_page()
            shown.goto(path.as_uri())
            loads.append(shown.evaluate("performance.getEntriesByType('navigation')[0].loadEventEnd"))
        print(
            f"{many:,} coins, {weights[0]:.1f} MB of rows and ranks, {weights[1]:.1f} MB of texts, "
            f"Chromium {browser.version}, {platform.machine()}"
        )
        print(f"  loaded and drawn: {statistics.median(loads):.0f} ms, slowest {max(loads):.0f} ms")
        for by in ("grade", "name"):
            first, _ = shown.evaluate(MEASURE, [{}, by])
            again, _ = shown.evaluate(MEASURE, [{}, by])
            print(f"  sorted by {by}: {first:.1f} ms the first time, {again:.1f} ms the second")
        shown.evaluate(MEASURE, [{}, "name"])
        took = shown.evaluate(READ)
        print(f"  texts read when words are first looked for: {took:.0f} ms")
        for name, asked in QUESTIONS.items():
            times = []
            for _ in range(9):
                took, said = shown.evaluate(MEASURE, [asked, ""])
                times.append(took)
            print(f"  {name}: {statistics.median(times):.1f} ms, slowest {max(times):.1f} ms ({said})")
        browser.close()


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 10_000)
