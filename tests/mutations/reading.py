"""Reads and checks catalogues with one file changed at random; nothing but CannotContinue may come out of it.

Where a change left no error, the pages of a reader are planned too, as a build would go on to do.

    python tests/mutations/reading.py CASES SEED

Prints the cases, their processor time, the slowest and the memory as JSON. A case that takes ten seconds of the
processor, or a process that needs a gigabyte, is a failure. Hypothesis makes a failing case small and prints it.
"""

import functools
import gc
import json
import re
import resource
import signal
import sys
import tempfile
import time
from pathlib import Path

from changes import mutated_files
from hypothesis import HealthCheck, given, seed, settings
from material import FILES, PHOTO

import daterun.records.catalogue as records
from daterun.bundled import themes_folder
from daterun.checks.catalogue import check_catalogue
from daterun.checks.claims import claimed_photos
from daterun.checks.photos import PhotoFacts
from daterun.pages.plan import plan_pages
from daterun.pages.words import Words
from daterun.photos.photo import Disc, Photo
from daterun.press.theme import find_theme
from daterun.press.words import read_words
from daterun.problems import CannotContinue, Misread, Place, Problem
from daterun.readers.closing import close_catalogue
from daterun.readers.reader import Reader

MOST_SECONDS = 10
"""Of the processor, for one case; a usual one takes some thousandths."""

MOST_BYTES = 1 << 30
"""For the process: an address space in which Python with its libraries has some 300 MB."""

AT_ONCE = 500
"""Cases of one run of Hypothesis, which remembers all that it drew in one."""

READERS = tuple(Reader)
SEEN = Photo("0" * 32, PHOTO, 2000, 2000, Disc(1000, 1000, 1500))


class TooSlowError(BaseException):
    """A case that took more of the processor than it may; nothing on the way catches it."""


def _stop(*_: object) -> None:
    raise TooSlowError(f"more than {MOST_SECONDS} s of the processor")


def read_and_check(root: Path, words: Words, reader: Reader) -> list[Problem]:
    """Read and check a catalogue as a build does, with a photo that needs no decoding."""
    catalogue, problems = records.read_catalogue(root)
    claimed = claimed_photos(catalogue, (PHOTO,))
    facts = PhotoFacts((PHOTO,), dict.fromkeys(claimed.values(), SEEN))
    found = [*problems, *check_catalogue(catalogue, facts)]
    if not any(each.is_error for each in found):
        assert plan_pages(close_catalogue(catalogue, dict.fromkeys(claimed, SEEN), reader), words).pages
    return found


def read_theme_words(root: Path) -> Words:
    """Read the words of the theme that comes with the program."""
    theme = find_theme("tray", root, themes_folder(), Place("content/catalogue.yaml"))
    return read_words(theme, "en-GB")


def share_parsing() -> None:
    """Parse each text once: of a catalogue of eight files one alone is new in each case."""
    whole = records.read_located

    @functools.lru_cache(64)
    def once(text: str, path: str, first_line: int):
        return whole(text, path, first_line)

    def shared(text: str, path: str, first_line: int = 1):
        node, problems = once(text, path, first_line)
        return node, list(problems)

    records.read_located = shared


def run(cases: int, start: int, root: Path) -> dict[str, float]:
    """Run so many cases in a folder; an exception that escapes is raised with the case that made it."""
    took = {"cases": 0, "cannot continue": 0, "problems": 0, "seconds": 0.0, "slowest": 0.0}

    words = read_theme_words(root)

    def one(changed: tuple[str, bytes]) -> None:
        name, data = changed
        (root / name).write_bytes(data)
        signal.setitimer(signal.ITIMER_VIRTUAL, MOST_SECONDS)
        begun = time.process_time()
        try:
            found = read_and_check(root, words, READERS[len(data) % len(READERS)])
            assert all(each.sentence and each.place.path for each in found), (
                "a problem without words or place"
            )
            assert all(each.place.path in FILES or not each.place.line for each in found)
            took["problems"] += bool(found)
        except CannotContinue:
            took["cannot continue"] += 1
        except Misread as misread:
            raise AssertionError(f"a misread text has no place: {misread}") from misread
        finally:
            signal.setitimer(signal.ITIMER_VIRTUAL, 0)
            spent = time.process_time() - begun
            took["cases"] += 1
            took["seconds"] += spent
            took["slowest"] = max(took["slowest"], spent)
            (root / name).write_bytes(FILES[name].encode())

    for nth, begin in enumerate(range(0, cases, AT_ONCE)):
        steady = settings(
            max_examples=min(AT_ONCE, cases - begin),
            deadline=None,
            derandomize=True,
            database=None,
            suppress_health_check=list(HealthCheck),
        )
        seed(start * 1_000_000 + nth)(steady(given(mutated_files())(one)))()
    return took


def most_memory() -> int:
    """Tell the most memory that this process had, in kB; what the system says of usage can be its parent's."""
    status = Path("/proc/self/status")
    if status.is_file() and (found := re.search(r"VmHWM:\s*(\d+)", status.read_text())):
        return int(found[1])
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss


def main(cases: int, start: int) -> None:
    resource.setrlimit(resource.RLIMIT_AS, (MOST_BYTES, MOST_BYTES))
    signal.signal(signal.SIGVTALRM, _stop)
    share_parsing()
    gc.freeze()
    memory = Path("/dev/shm")
    with tempfile.TemporaryDirectory(dir=memory if memory.is_dir() else None) as folder:
        root = Path(folder)
        for name, text in FILES.items():
            (root / name).parent.mkdir(parents=True, exist_ok=True)
            (root / name).write_text(text, encoding="utf-8")
        took = run(cases, start, root)
    took["all seconds"] = time.process_time()
    took["MB"] = most_memory() // 1024
    print(json.dumps(took))


if __name__ == "__main__":
    main(int(sys.argv[1]), int(sys.argv[2]))
