"""The preview as a keeper has it all day: a process of its own, watched from a browser's side."""

import os
import queue
import re
import shutil
import signal
import socket
import subprocess
import sys
import threading
from contextlib import contextmanager
from pathlib import Path
from urllib.error import HTTPError
from urllib.request import ProxyHandler, build_opener

import pytest
from PIL import Image, ImageDraw

README = (Path(__file__).resolve().parents[2] / "README.md").read_text(encoding="utf-8")
PATIENCE = 90
"""Seconds after which something that was waited for will not come any more, even on a busy machine."""

OPENER = build_opener(ProxyHandler({}))

pytestmark = pytest.mark.skipif(os.name == "nt", reason="Windows has no signal that stands for Ctrl-C alone")


class Previewed:
    """A preview at work: its lines as they come, its pages, and its end."""

    def __init__(self, process):
        self.process = process
        self.lines = queue.SimpleQueue()
        self.errors = []
        for stream, put in ((process.stdout, self.lines.put), (process.stderr, self.errors.append)):
            threading.Thread(target=self._pass_on, args=(stream, put), daemon=True).start()
        self.address = re.search(r"http://127\.0\.0\.1:\d+/", self.line()).group()
        self.said_next = self.line()

    @staticmethod
    def _pass_on(stream, put):
        for line in stream:
            put(line.rstrip("\n"))

    def line(self):
        return self.lines.get(timeout=PATIENCE)

    def build(self):
        """Wait for the next build to be told; give what was said of it."""
        said = []
        while not said or not re.search(r"\bcoins?\b.*\.$|in \d+ files?\.$|^No problems", said[-1]):
            said.append(self.line())
        return "\n".join(said)

    def page(self, address=""):
        try:
            with OPENER.open(self.address + address, timeout=PATIENCE) as answer:
                return answer.status, answer.read().decode("utf-8")
        except HTTPError as answer:
            return answer.code, answer.read().decode("utf-8")

    def until(self, is_so):
        """Wait, build by build, until something is so; give how many builds it took."""
        for builds in range(50):
            if is_so():
                return builds
            self.build()
        raise AssertionError("this never came to be so")

    def stop(self, to_all=False):
        """Press Ctrl-C; give the exit code as a shell does. A terminal sends it to every process of the group."""
        if to_all:
            os.killpg(self.process.pid, signal.SIGINT)
        else:
            self.process.send_signal(signal.SIGINT)
        code = self.process.wait(timeout=PATIENCE)
        return 130 if code == -signal.SIGINT else code  # Python dies of the signal where it came into an exec


@contextmanager
def previewing(*arguments, cwd=None):
    process = subprocess.Popen(
        [sys.executable, "-m", "daterun", "preview", *map(str, arguments)],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        encoding="utf-8",
        cwd=cwd,
        env={**os.environ, "PYTHONIOENCODING": "utf-8"},
        start_new_session=True,
    )
    try:
        yield Previewed(process)
    finally:
        if process.poll() is None:
            process.kill()
            process.wait()
        process.stdout.close()
        process.stderr.close()


@pytest.fixture
def folder(catalogue_folder, coin):
    return catalogue_folder({"content/coins/ort/1891.md": coin("1891", "grade: VF30", notes="As found.")})


@pytest.fixture
def shown(folder):
    with previewing("--folder", folder, "--port", free_port()) as preview:
        preview.build()
        yield preview


def free_port():
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


COIN = "coins/ort/1891/index.html"


def draw_photo(path, tone):
    path.parent.mkdir(parents=True, exist_ok=True)
    picture = Image.new("RGB", (300, 300), (235, 235, 235))
    ImageDraw.Draw(picture).ellipse((30, 30, 270, 270), fill=tone)
    picture.save(path, quality=95)


def test_it_says_its_address_and_that_it_follows(folder):
    port = free_port()
    with previewing("--folder", folder, "--port", port) as preview:
        assert preview.address == f"http://127.0.0.1:{port}/"
        assert preview.said_next == "It follows your changes. Stop it with Ctrl-C."
        assert preview.build() == "No problems in 1 coin."
        assert preview.page()[0] == 200
        assert "As found." in preview.page(COIN)[1]


def test_a_port_that_is_taken_gives_way_to_another(folder):
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        with previewing("--folder", folder, "--port", port) as preview:
            assert preview.address != f"http://127.0.0.1:{port}/"
            preview.build()
            assert "As found." in preview.page(COIN)[1]


def test_two_previews_of_one_folder_go_side_by_side(folder, shown):
    port = int(shown.address.rpartition(":")[2].strip("/"))
    with previewing("--folder", folder, "--port", port) as other:
        assert other.address != shown.address
        other.build()
        assert other.page(COIN)[0] == shown.page(COIN)[0] == 200


def test_a_mistake_shows_over_the_last_good_page_with_its_line_and_goes_when_it_is_mended(folder, shown):
    file = folder / "content/coins/ort/1891.md"
    good = file.read_text(encoding="utf-8")
    file.write_text(good.replace("VF30", "MS-72"), encoding="utf-8")
    shown.until(lambda: "daterun-problems" in shown.page(COIN)[1])
    page = shown.page(COIN)[1]
    assert "content/coins/ort/1891.md:4:8: error: grade &quot;MS-72&quot; is above the top" in page
    assert "  4 | grade: MS-72\n    |        ^^^^^" in page
    assert "As found." in page
    file.write_text(good.replace("As found.", "As mended."), encoding="utf-8")
    shown.until(lambda: "As mended." in shown.page(COIN)[1])
    assert "daterun-problems" not in shown.page(COIN)[1]


def test_ten_quick_saves_are_one_build_or_two(folder, shown, coin):
    file = folder / "content/coins/ort/1891.md"
    for number in range(10):
        file.write_text(coin("1891", notes=f"Save number {number}."), encoding="utf-8")
    builds = shown.until(lambda: "Save number 9." in shown.page(COIN)[1])
    file.write_text(coin("1891", notes="The last."), encoding="utf-8")
    builds += shown.until(lambda: "The last." in shown.page(COIN)[1]) - 1
    assert builds <= 2


def test_a_coin_that_is_new_renamed_or_gone_is_seen(folder, shown, coin):
    file = folder / "content/coins/silver/1900.md"
    file.parent.mkdir()
    file.write_text(coin("1900", notes="A new one."), encoding="utf-8")
    shown.until(lambda: "A new one." in shown.page("coins/silver/1900/index.html")[1])
    file.rename(file.with_name("first.md"))
    shown.until(lambda: shown.page("coins/silver/first/index.html")[0] == 200)
    assert shown.page("coins/silver/1900/index.html")[0] == 404
    file.parent.rename(folder / "content/coins/tray")
    shown.until(lambda: shown.page("coins/tray/first/index.html")[0] == 200)
    (folder / "content/coins/tray/first.md").unlink()
    shown.until(lambda: shown.page("coins/tray/first/index.html")[0] == 404)
    assert shown.page(COIN)[0] == 200


def pictures_of(page):
    return set(re.findall(r"pictures/[^\"\s]+", page))


def test_a_photo_that_is_new_replaced_renamed_or_gone_is_seen(folder, shown):
    photo = folder / "content/photos/ort/1891.obverse.jpg"
    assert not pictures_of(shown.page(COIN)[1])
    draw_photo(photo, (120, 110, 100))
    shown.until(lambda: pictures_of(shown.page(COIN)[1]))
    first = pictures_of(shown.page(COIN)[1])
    draw_photo(photo, (60, 50, 40))
    shown.until(lambda: pictures_of(shown.page(COIN)[1]) - first)
    second = pictures_of(shown.page(COIN)[1])
    assert not second & first
    photo.rename(photo.with_name("1891.reverse.jpg"))
    shown.until(lambda: "reverse" in "".join(re.findall(r'alt="[^"]*"', shown.page(COIN)[1])))
    photo.with_name("1891.reverse.jpg").unlink()
    shown.until(lambda: not pictures_of(shown.page(COIN)[1]))


def test_a_file_of_a_theme_that_is_new_changed_or_gone_is_seen(folder, shown):
    words = folder / "themes/tray/words/en.yaml"
    words.parent.mkdir(parents=True)
    words.write_text("nav.home: The front door\n", encoding="utf-8")
    shown.until(lambda: "The front door" in shown.page(COIN)[1])
    words.write_text("nav.home: The back door\n", encoding="utf-8")
    shown.until(lambda: "The back door" in shown.page(COIN)[1])
    shutil.rmtree(folder / "themes")
    shown.until(lambda: "door" not in shown.page(COIN)[1])


def test_a_mistake_in_a_theme_shows_with_the_line_of_its_file(folder, shown):
    template = folder / "themes/tray/templates/coin.html.j2"
    template.parent.mkdir(parents=True)
    template.write_text("<p>\n{{ view.nothing }}\n", encoding="utf-8")
    shown.until(lambda: "daterun-problems" in shown.page(COIN)[1])
    page = shown.page(COIN)[1]
    assert "themes/tray/templates/coin.html.j2:2:1: error:" in page
    assert "As found." in page
    template.unlink()
    shown.until(lambda: "daterun-problems" not in shown.page(COIN)[1])


def test_settings_that_cannot_be_read_show_with_their_line(folder, shown):
    file = folder / "content/catalogue.yaml"
    good = file.read_text(encoding="utf-8")
    file.write_text(f"{good}title: Twice\n", encoding="utf-8")
    line = len(good.splitlines()) + 1
    shown.until(lambda: f"content/catalogue.yaml:{line}:1: error:" in shown.page(COIN)[1])
    file.unlink()
    shown.until(lambda: "content/catalogue.yaml is not there" in shown.page(COIN)[1])
    file.write_text(good, encoding="utf-8")
    shown.until(lambda: "daterun-problems" not in shown.page(COIN)[1])
    assert "As found." in shown.page(COIN)[1]


def save_beside(file, text):
    """Write a hidden file beside, then put it in place: as most programs do that save safely."""
    beside = file.with_name(f".{file.name}.tmp")
    beside.write_text(text, encoding="utf-8")
    beside.replace(file)


def save_aside(file, text):
    """Move the file aside, write a new one, and remove the other: as editors that keep a copy do."""
    aside = file.with_name(f"{file.name}~")
    file.rename(aside)
    file.write_text(text, encoding="utf-8")
    aside.unlink()


def save_elsewhere(file, text):
    """Write the file in another folder and move it over: as a program does that mends files by the dozen."""
    elsewhere = file.parents[4] / "written.md"
    elsewhere.write_text(text, encoding="utf-8")
    elsewhere.replace(file)


@pytest.mark.parametrize("save", [save_beside, save_aside, save_elsewhere])
def test_an_editor_that_saves_by_replacing_is_followed(folder, shown, coin, save):
    file = folder / "content/coins/ort/1891.md"
    for text in ("Saved once.", "Saved again."):
        save(file, coin("1891", notes=text))
        shown.until(lambda text=text: text in shown.page(COIN)[1])
    assert "daterun-problems" not in shown.page(COIN)[1]


def test_a_browser_is_told_of_each_change(folder, shown, coin):
    with OPENER.open(f"{shown.address}.daterun/changes", timeout=PATIENCE) as told:
        first = next(line for line in told if line.startswith(b"data: "))
        (folder / "content/coins/ort/1891.md").write_text(coin("1891", notes="Anew."), encoding="utf-8")
        second = next(line for line in told if line.startswith(b"data: "))
    assert first != second
    assert "Anew." in shown.page(COIN)[1]


def test_ctrl_c_ends_it_cleanly_and_frees_its_port(shown):
    assert shown.stop() in (0, 130)
    assert not [line for line in shown.errors if "Traceback" in line or "Error" in line]
    with socket.socket() as again:
        again.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        again.bind(("127.0.0.1", int(shown.address.rpartition(":")[2].strip("/"))))


def test_ctrl_c_with_a_browser_waiting_ends_it_cleanly(shown):
    with OPENER.open(f"{shown.address}.daterun/changes", timeout=PATIENCE) as told:
        assert next(iter(told)).startswith(b"data: ")
        assert shown.stop(to_all=True) in (0, 130)
    assert not [line for line in shown.errors if "Traceback" in line or "Error" in line]


def test_ctrl_c_during_the_first_build_ends_it_cleanly_and_the_next_one_mends_the_rest(folder, coin):
    for number in range(12):
        name = f"ort/many-{number}"
        (folder / f"content/coins/{name}.md").write_text(coin("1900"), encoding="utf-8")
        draw_photo(folder / f"content/photos/{name}.obverse.jpg", (60 + 12 * number, 90, 80))
    with previewing("--folder", folder, "--port", free_port()) as preview:
        code = preview.stop(to_all=True)
        assert code in (0, 130)
        assert not [line for line in preview.errors if "Traceback" in line or "Error" in line]
    with previewing("--folder", folder, "--port", free_port()) as preview:
        preview.build()
        assert pictures_of(preview.page("coins/ort/many-3/index.html")[1])


def test_the_preview_of_the_readme_runs_as_it_stands(folder):
    assert "\n    daterun preview --folder my-coins\n" in README
    folder.rename(folder.with_name("my-coins"))
    with previewing("--folder", "my-coins", cwd=folder.parent) as preview:
        assert preview.build() == "No problems in 1 coin."
        assert preview.stop() in (0, 130)
