"""Times all that is done with photos: examining, hashing, making pictures, drawing plates; and its floor.

    python tests/bench/bench_pictures.py [--photos 200] [--size 4000x3000] [--runs 5]

Photos are two a coin, each unlike any other. Each figure is the median of so many runs after one that warms up,
each in a fresh process: seconds by the clock, of the processor, and the memory of the largest process. The floor
is told by threads and by processes, and with LANCZOS in place of the program's filters. On a busy machine, go by
the processor.
"""

import argparse
import gc
import json
import os
import platform
import resource
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import PIL
from catalogues import make_catalogue

WIDTHS = (1600, 640, 160, 48)
HERE = Path(__file__).parent


def run_program(folder: Path) -> None:
    """Do with the photos of a catalogue what a first build does with them."""
    from daterun.bundled import themes_folder
    from daterun.checks.claims import claimed_photos
    from daterun.pages.pictures import order_pictures
    from daterun.pages.plates import PlateOrder, PlateSide
    from daterun.photos.memory import PhotoMemory
    from daterun.photos.named import find_photos
    from daterun.press.ahead import Ahead
    from daterun.press.faces import Faces, FaceStore
    from daterun.press.fingerprints import mark_picture
    from daterun.press.inspection import Inspection
    from daterun.press.output import claim, open_output
    from daterun.press.pictures import make_pictures
    from daterun.press.plates import PlatePress, draw_plates
    from daterun.press.searching import Search
    from daterun.press.theme import DEFAULT, find_theme
    from daterun.problems import Place
    from daterun.records.catalogue import read_catalogue

    gc.disable()  # as every command but the preview does
    root = folder / "output/public"
    catalogue, _ = read_catalogue(folder)
    claimed = claimed_photos(catalogue, find_photos(folder))
    spent = time.process_time()
    store = FaceStore(folder / ".daterun/faces")
    ahead = Ahead(folder / ".daterun/public.ahead", root, store)
    memory = PhotoMemory.load(folder / ".daterun/photos.json")
    seen = memory.examine_all(folder, sorted(claimed.values()), use=ahead.making(catalogue, claimed))
    memory.save()
    edition = open_output(root, "public", folder / ".daterun/public.json")
    claim(edition)
    inspection = Inspection(Search(()), edition)
    orders = {
        path: order_pictures(each.key, each.width_px, each.height_px, each.disc, WIDTHS, "jpeg")
        for path, each in seen.items()
    }
    for each in (order for some in orders.values() for order in some):
        edition.expect(each.address, mark_picture(each), "new")
    files = {each.key: (folder / each.path, each.path) for each in seen.values()}
    every = [order for some in orders.values() for order in some]
    make_pictures(every, files, inspection.write, hand_over=ahead.into(inspection))
    press = PlatePress(find_theme(DEFAULT, folder, themes_folder(), Place("")))
    coins: dict[str, list[PlateSide]] = {}
    for (coin, _), path in claimed.items():
        coins.setdefault(coin, []).append(PlateSide(orders[path][-1].address, seen[path].disc is not None))
    plates = [
        PlateOrder(tuple(sides), f"Series 1, {nth}", "VF30", "A bench", f"pictures/plates/{nth}.jpg")
        for nth, sides in enumerate(coins.values())
    ]
    for plate in plates:
        edition.expect(plate.address, press.mark(plate), "new")
    draw_plates(plates, press, Faces(root, store, every, files), inspection.write)
    ahead.clear()
    print(time.process_time() - spent)


def work_of(folder: Path) -> list[list[dict]]:
    """Find the squares that are to be cut, once, for the floor."""
    from daterun.pages.pictures import order_pictures
    from daterun.photos.memory import PhotoMemory
    from daterun.photos.named import find_photos

    seen = PhotoMemory.load(folder / "none").examine_all(folder, find_photos(folder))
    coins: dict[str, list[dict]] = {}
    for path, each in seen.items():
        orders = order_pictures(each.key, each.width_px, each.height_px, each.disc, WIDTHS, "jpeg")
        square = orders[0].square
        coins.setdefault(path.rsplit(".", 2)[0], []).append(
            {
                "photo": str(folder / path),
                "name": each.key,
                "square": [square.left, square.top, square.side],
                "widths": [order.width_px for order in reversed(orders)],
            }
        )
    return list(coins.values())


def timed(command: list[str], runs: int, folders: list[Path]) -> tuple[float, float, float]:
    """Run a command so often into empty folders; give medians of the clock and the processor, and the memory."""
    clock, processor, peak = [], [], 0.0
    for _ in range(runs + 1):
        for each in folders:
            shutil.rmtree(each, ignore_errors=True)
            each.mkdir(parents=True)
        before, start = resource.getrusage(resource.RUSAGE_CHILDREN), time.perf_counter()
        code = (
            "import resource,subprocess,sys; subprocess.run(sys.argv[1:], check=True, stdout=subprocess.DEVNULL);"
            "print(resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss)"
        )
        ran = subprocess.run(
            [sys.executable, "-c", code, *command], check=True, capture_output=True, text=True
        )
        clock.append(time.perf_counter() - start)
        after = resource.getrusage(resource.RUSAGE_CHILDREN)
        processor.append(after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime)
        peak = max(peak, int(ran.stdout) / 1024)
    return statistics.median(clock[1:]), statistics.median(processor[1:]), peak


def main() -> None:
    """Make a catalogue, time the floor and the program, print a table and the ratio."""
    parser = argparse.ArgumentParser(description="Time what is done with photos, and its floor.")
    parser.add_argument("--photos", type=int, default=200)
    parser.add_argument("--size", default="4000x3000")
    parser.add_argument("--runs", type=int, default=5)
    chosen = parser.parse_args()
    width, height = (int(each) for each in chosen.size.split("x"))
    with tempfile.TemporaryDirectory() as place:
        folder = make_catalogue(Path(place, "catalogue"), chosen.photos // 2, chosen.photos, width, height)
        work = Path(place, "work.json")
        work.write_text(json.dumps(work_of(folder)), encoding="utf-8")
        size = sum(each.stat().st_size for each in folder.rglob("*.jpg")) / chosen.photos / 1e6
        out = Path(place, "floor")
        print(f"{chosen.photos} photos of {chosen.size}, {size:.1f} MB each, medians of {chosen.runs}")
        print(
            f"{platform.machine()}, {os.cpu_count()} cores, Python {platform.python_version()},"
            f" Pillow {PIL.__version__}"
        )
        floor = [sys.executable, str(HERE / "floor.py"), str(work), str(out)]
        found = {
            "floor, threads": timed([*floor, "threads", "program"], chosen.runs, [out]),
            "floor, processes": timed([*floor, "processes", "program"], chosen.runs, [out]),
            "LANCZOS, threads": timed([*floor, "threads", "lanczos"], chosen.runs, [out]),
            "program": timed(
                [sys.executable, __file__, "--work", str(folder)],
                chosen.runs,
                [folder / "output", folder / ".daterun"],
            ),
        }
    print(f"load {', '.join(f'{each:.1f}' for each in os.getloadavg())} at the end, of 1, 5 and 15 minutes")
    for name, (clock, processor, peak) in found.items():
        print(f"{name:20} {clock:8.2f} s, of the processor {processor:8.2f} s, {peak:6.0f} MB")
    for nth, what in enumerate(("by the clock", "by the processor")):
        program = found["program"][nth]
        least = min(found["floor, threads"][nth], found["floor, processes"][nth])
        usual = found["LANCZOS, threads"][nth]
        print(
            f"ratio {what}: {program / least:.3f} to the floor, {program / usual:.3f} to LANCZOS throughout"
        )


if __name__ == "__main__":
    if sys.argv[1:2] == ["--work"]:
        run_program(Path(sys.argv[2]))
    else:
        main()
