"""Times whole builds, edits in a running preview, and the floor of the pages.

    python tests/bench/bench_build.py [--coins 1000 5000] [--photos 0] [--size 1600x1600]
        [--replaced 1600x1600] [--runs 5] [--only WORD]

Each figure is the median of so many runs after one that warms up: seconds by the clock, of the processor (a
process and its copies), and the most memory that all of them held at once. Commands are fresh processes,
interpreter and all; edits in a preview are timed from the saved file to the browser's being told. The floor is
the rendering of the same pages and the writing of them, in one process, with nothing else counted, and that of
the pictures and plates, where there are photos (``floor.py``; finding the coins is not counted). With several
numbers of coins, it is told how each figure grows from the first to the last. Photos are as many in each; the
one that is replaced may be of another size than the others, and is the one that most pages show of its coin.
"""

import argparse
import json
import os
import platform
import re
import resource
import shutil
import statistics
import subprocess
import sys
import tempfile
import threading
import time
import urllib.request
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from bench_pictures import timed, work_of
from catalogues import coin_id, make_catalogue, photo

DATERUN = (sys.executable, "-m", "daterun")
THEME = Path(__file__).parents[2] / "themes/tray"

FLOOR = """
import gc, sys, time
from pathlib import Path
from daterun.readers.closing import close_catalogue
from daterun.pages.plan import plan_pages
from daterun.press.templates import Press
from daterun.press.theme import find_theme
from daterun.press.words import read_words
from daterun.bundled import themes_folder
from daterun.problems import Place
from daterun.readers.reader import Reader
from daterun.site import check
gc.disable()
folder, root = Path(sys.argv[1]), Path(sys.argv[2])
checked = check(folder)
theme = find_theme("tray", folder, themes_folder(), Place(""))
words = read_words(theme, "en")
plan = plan_pages(close_catalogue(checked.catalogue, checked.photos, Reader.PUBLIC), words)
press = Press(theme, words)
clock, spent = time.perf_counter(), time.process_time()
for page in plan.pages:
    path = root / page.address
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(press.render(page).encode())
print(time.perf_counter() - clock, time.process_time() - spent)
"""


@dataclass(frozen=True, slots=True)
class Figure:
    """Medians of one case: seconds by the clock and of the processor, megabytes at most; 0 where not measured."""

    seconds: float
    processor: float = 0.0
    megabytes: float = 0.0


def held_by(pid: int) -> float:
    """Add up the memory that a process and its children hold, in megabytes; what they share counts once."""
    total = 0.0
    try:
        rollup = Path(f"/proc/{pid}/smaps_rollup").read_text(encoding="ascii")
        total += int(re.search(r"^Pss:\s+(\d+)", rollup, re.MULTILINE)[1]) / 1024  # type: ignore[index]
        children = Path(f"/proc/{pid}/task/{pid}/children").read_text(encoding="ascii").split()
    except (OSError, TypeError):
        return total
    return total + sum(held_by(int(each)) for each in children)


def run(command: tuple[str, ...]) -> Figure:
    """Run a command once."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    start = time.perf_counter()
    process = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    most = [0.0]
    is_over = threading.Event()

    def watch() -> None:
        while not is_over.wait(0.05):
            most[0] = max(most[0], held_by(process.pid))

    watcher = threading.Thread(target=watch)
    watcher.start()
    code = process.wait()
    seconds = time.perf_counter() - start
    is_over.set()
    watcher.join()
    assert code == 0, f"{command} ended with {code}"
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    spent = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    return Figure(seconds, spent, most[0])


def median(figures: list[Figure]) -> Figure:
    """Take medians of all but the first, which warmed up; of memory, the most."""
    counted = figures[1:]
    return Figure(
        statistics.median(each.seconds for each in counted),
        statistics.median(each.processor for each in counted),
        max(each.megabytes for each in counted),
    )


def floor_of_pages(folder: Path) -> Figure:
    """Render and write all pages once, in one process."""
    root = folder / "floor"
    shutil.rmtree(root, ignore_errors=True)
    said = subprocess.run(
        [sys.executable, "-c", FLOOR, str(folder), str(root)], check=True, capture_output=True, text=True
    )
    seconds, processor = said.stdout.split()
    return Figure(float(seconds), float(processor))


def floor_of_pictures(folder: Path, runs: int) -> Figure:
    """Make the pictures and plates of a catalogue with Pillow alone, in processes on all cores."""
    work, out = folder / "work.json", folder / "floor"
    work.write_text(json.dumps(work_of(folder)), encoding="utf-8")
    floor = [
        sys.executable,
        str(Path(__file__).parent / "floor.py"),
        str(work),
        str(out),
        "processes",
        "program",
    ]
    return Figure(*timed(floor, runs, [out]))


class Edits:
    """The edits of a catalogue that are timed; each is another at every number."""

    def __init__(self, folder: Path, coins: int, size: tuple[int, int]) -> None:
        series = len(list((folder / "content/series/vessmark").iterdir()))
        self.folder = folder
        self.size = size
        self.coin = folder / f"content/coins/{coin_id(1, series)}.md"
        self.text = self.coin.read_text(encoding="utf-8")
        self.picture = folder / f"content/photos/{coin_id(0, series)}.reverse.jpg"
        self.template = folder / "themes/tray/templates/coin.html.j2"

    def note(self, nth: int) -> None:
        self.coin.write_text(f"{self.text}Seen again, for the time numbered {nth}.\n", encoding="utf-8")

    def grade(self, nth: int) -> None:
        grade = ("VF20", "VF25", "EF40", "MS60")[nth % 4]
        self.coin.write_text(re.sub("grade: .*", f"grade: {grade}", self.text), encoding="utf-8")

    def one_photo(self, nth: int) -> None:
        self.picture.write_bytes(photo(10_000 + nth, *self.size))

    def one_template(self, nth: int) -> None:
        self.template.parent.mkdir(parents=True, exist_ok=True)
        own = (THEME / "templates/coin.html.j2").read_text(encoding="utf-8")
        begin = "{% block content %}"
        assert begin in own
        own = own.replace(begin, f"{begin}<!-- the time numbered {nth} -->", 1)
        self.template.write_text(own, encoding="utf-8")

    def restore(self) -> None:
        self.coin.write_text(self.text, encoding="utf-8")
        self.template.unlink(missing_ok=True)


@contextmanager
def previewing(folder: Path) -> Iterator[Callable[[], None]]:
    """Run a preview; the work within gets a function that waits until the browser is told of a change."""
    process = subprocess.Popen(
        (*DATERUN, "preview", "--folder", str(folder)), stdout=subprocess.PIPE, text=True
    )
    try:
        assert process.stdout is not None
        said = iter(process.stdout.readline, "")
        address = next(line for line in said if "Showing" in line).split()[-1]
        next(line for line in said if "problem" in line or "error" in line)  # what the first build came to
        drain = threading.Thread(target=process.stdout.read, daemon=True)
        drain.start()
        time.sleep(8)  # until it has made itself ready
        with urllib.request.urlopen(f"{address}.daterun/changes", timeout=600) as told:

            def wait() -> None:
                while not told.readline().startswith(b"data:"):
                    pass

            wait()
            yield wait
    finally:
        process.terminate()
        process.wait()


def time_all(folder: Path, coins: int, chosen: argparse.Namespace) -> dict[str, Figure]:
    """Time every case on one catalogue."""
    width, height = (int(each) for each in chosen.size.split("x"))
    make_catalogue(folder, coins, chosen.photos, width, height)
    replaced_width, replaced_height = (int(each) for each in (chosen.replaced or chosen.size).split("x"))
    edits = Edits(folder, coins, (replaced_width, replaced_height))
    build = (*DATERUN, "build", "--folder", str(folder))

    def fresh(_: int) -> None:
        for name in ("output", ".daterun"):
            shutil.rmtree(folder / name, ignore_errors=True)

    changes = {"one note": edits.note, "one grade": edits.grade, "one template": edits.one_template}
    if chosen.photos:
        changes["one photo"] = edits.one_photo
    cases: dict[str, tuple[tuple[str, ...], Callable[[int], None]]] = {
        "help": ((*DATERUN, "--help"), lambda _: None),
        "first build": (build, fresh),
        "nothing changed": (build, lambda _: None),
        **{f"{name} changed": (build, change) for name, change in changes.items()},
    }
    found: dict[str, Figure] = {}
    time.sleep(2.1)  # what was changed just now is not trusted
    for name, (command, before) in cases.items():
        if not _is_asked_for(name, chosen):
            continue
        runs = []
        for nth in range(chosen.runs + 1):
            before(nth)
            runs.append(run(command))
            if name == "nothing changed" and not nth:
                time.sleep(2.1)
                run(command)
        found[name] = median(runs)
        edits.restore()
    if _is_asked_for("floor of the pages", chosen):
        found["floor of the pages"] = median([floor_of_pages(folder) for _ in range(chosen.runs + 1)])
    if chosen.photos and _is_asked_for("floor of the pictures", chosen):
        found["floor of the pictures"] = floor_of_pictures(folder, chosen.runs)
    if _is_asked_for("preview", chosen):
        run(build)
        with previewing(folder) as wait:
            for name, change in changes.items():
                times = []
                for nth in range(chosen.runs + 1):
                    time.sleep(2 + coins / 2000)  # a keeper's pause, in which it makes itself ready
                    start = time.perf_counter()
                    change(100 + nth)
                    wait()
                    times.append(Figure(time.perf_counter() - start))
                found[f"{name} changed, in a preview"] = median(times)
    return found


def _is_asked_for(name: str, chosen: argparse.Namespace) -> bool:
    return not chosen.only or any(each in name for each in chosen.only)


def main() -> None:
    """Make catalogues, time the cases, print tables and a line of JSON."""
    parser = argparse.ArgumentParser(description="Time whole builds.")
    parser.add_argument("--coins", type=int, nargs="+", default=[1000])
    parser.add_argument("--photos", type=int, default=0)
    parser.add_argument("--size", default="1600x1600")
    parser.add_argument(
        "--replaced", help="the size of the photo that is replaced; that of the others unless said"
    )
    parser.add_argument("--runs", type=int, default=5)
    parser.add_argument("--only", nargs="*", help="only cases with one of these words in their name")
    chosen = parser.parse_args()
    print(f"{platform.machine()}, {os.cpu_count()} cores, Python {platform.python_version()}", flush=True)
    all_found: dict[int, dict[str, Figure]] = {}
    for coins in chosen.coins:
        with tempfile.TemporaryDirectory() as place:
            found = all_found[coins] = time_all(Path(place), coins, chosen)
        print(f"\n{coins:,} coins, {chosen.photos:,} photos of {chosen.size}, medians of {chosen.runs}")
        for name, each in found.items():
            spent = f"{each.processor:8.2f} s" if each.processor else " " * 10
            memory = f"{each.megabytes:8,.0f} MB" if each.megabytes else ""
            print(f"{name:34} {each.seconds:8.2f} s by the clock {spent} of the processor {memory}")
        if "floor of the pages" in found and "first build" in found:
            floors = [each for name, each in found.items() if name.startswith("floor")]
            ratio = found["first build"].seconds / sum(each.seconds for each in floors)
            print(f"first build, to the floor: {ratio:.2f}", flush=True)
    first, last = chosen.coins[0], chosen.coins[-1]
    if first != last:
        print(f"\ngrowth from {first:,} to {last:,} coins, {last / first:.1f} times as many")
        for name, each in all_found[last].items():
            print(f"{name:34} {each.seconds / all_found[first][name].seconds:6.1f} times")
    print(
        json.dumps(
            {
                coins: {name: round(each.seconds, 3) for name, each in found.items()}
                for coins, found in all_found.items()
            }
        )
    )


if __name__ == "__main__":
    main()
