"""The recipes for publishing of the README, run as they stand to hosts on this machine."""

import html
import re
import shlex
import shutil
import subprocess
import threading
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from urllib.parse import urldefrag, urljoin
from urllib.request import ProxyHandler, build_opener

import pytest

from daterun.command.main import main

README = (Path(__file__).resolve().parent.parent / "README.md").read_text(encoding="utf-8")
SECTION = README.partition("\n## Publishing\n")[2].partition("\n## ")[0]

NAMES = {
    "host": "git@example.org:me/coins.git",
    "machine": "me@example.org:/var/www/coins/",
}
OPENER = build_opener(ProxyHandler({}))


def recipe(last):
    """Give the lines of the README's recipe whose last command begins so."""
    blocks = re.findall(r"(?:^    .+\n)+", SECTION, flags=re.MULTILINE)
    found = [block.replace("    ", "").splitlines() for block in blocks]
    return next(lines for lines in found if lines[-1].startswith(last))


def needs(program):
    return pytest.mark.skipif(shutil.which(program) is None, reason=f"there is no {program} on this machine")


@pytest.fixture
def folder(catalogue_folder, coin, monkeypatch):
    made = catalogue_folder(
        {
            "content/coins/ort/1891.md": coin("1891", "grade: VF30", "added: 2019-04-10"),
            "content/coins/ort/1900.md": coin("1900", notes="See [[ort/1891]]."),
            "content/pages/on-orts.md": "---\ntitle: On orts\n---\n[[ort/1891 both]]\n",
        }
    )
    monkeypatch.chdir(made)
    return made


def follow(lines, monkeypatch, folder, **places):
    """Run the lines of a recipe in the catalogue folder, with the README's places put on this machine."""
    monkeypatch.chdir(folder)
    for line in lines:
        for name, place in places.items():
            line = line.replace(NAMES[name], str(place))
        program, *words = shlex.split(line)
        if program == "cd":
            monkeypatch.chdir(words[0])
        elif program == "daterun":
            assert main(words) == 0
        else:
            subprocess.run([program, *words], check=True, capture_output=True)
    monkeypatch.chdir(folder)


def files_of(root):
    found = (path.relative_to(root) for path in root.rglob("*") if path.is_file())
    return {path.as_posix() for path in found if not path.parts[0].startswith(".")}


def change(folder):
    (folder / "content/coins/ort/1900.md").unlink()
    assert main(["build"]) == 0


@needs("git")
def test_an_edition_is_pushed_from_a_repository_that_builds_leave_alone(folder, monkeypatch, tmp_path):
    host = tmp_path / "host.git"
    subprocess.run(["git", "init", "--quiet", "--bare", str(host)], check=True)
    for name in ("GIT_AUTHOR", "GIT_COMMITTER"):
        monkeypatch.setenv(f"{name}_NAME", "Ida Quennell")
        monkeypatch.setenv(f"{name}_EMAIL", "ida@example.org")

    def sent():
        ran = subprocess.run(
            ["git", "-C", str(host), "ls-tree", "-r", "--name-only", "pages"],
            capture_output=True,
            text=True,
            check=True,
        )
        return {each for each in ran.stdout.splitlines() if not each.startswith(".")}

    lines = recipe("git push")
    follow(lines, monkeypatch, folder, host=host)
    edition = folder / "output/public"
    assert "coins/ort/1900/index.html" in sent()
    assert sent() == files_of(edition)
    change(folder)
    assert (edition / ".git").is_dir()
    follow(["cd output/public", *lines[-3:]], monkeypatch, folder)
    assert "coins/ort/1900/index.html" not in sent()
    assert sent() == files_of(edition)


@needs("rsync")
def test_an_edition_is_sent_by_rsync_and_what_is_hidden_is_left_alone(folder, monkeypatch, tmp_path):
    machine = tmp_path / "www"
    (machine / ".well-known").mkdir(parents=True)
    (machine / ".well-known/theirs").write_text("theirs", encoding="utf-8")
    follow(recipe("rsync"), monkeypatch, folder, machine=f"{machine}/")
    assert files_of(machine) == files_of(folder / "output/public")
    change(folder)
    follow(recipe("rsync"), monkeypatch, folder, machine=f"{machine}/")
    assert not (machine / "coins/ort/1900/index.html").exists()
    assert files_of(machine) == files_of(folder / "output/public")
    assert [each.name for each in machine.iterdir() if each.name.startswith(".")] == [".well-known"]


@needs("rclone")
def test_an_edition_is_sent_to_an_object_store_by_rclone(folder, monkeypatch, tmp_path):
    store = tmp_path / "store"
    store.mkdir()
    monkeypatch.setenv("RCLONE_CONFIG", str(tmp_path / "rclone.conf"))
    monkeypatch.setenv("RCLONE_CONFIG_STORE_TYPE", "alias")
    monkeypatch.setenv("RCLONE_CONFIG_STORE_REMOTE", str(store))
    follow(recipe("rclone"), monkeypatch, folder)
    assert files_of(store / "coins") == files_of(folder / "output/public")
    change(folder)
    follow(recipe("rclone"), monkeypatch, folder)
    assert not (store / "coins/coins/ort/1900/index.html").exists()
    assert [each for each in (store / "coins").iterdir() if each.name.startswith(".")] == []


class Quiet(SimpleHTTPRequestHandler):
    """A plain host: files as they lie there, and a folder's index.html for the folder."""

    def log_message(self, format, *args):
        pass


@pytest.fixture
def host(tmp_path):
    """Serve a folder as any plain host does; give the folder and its address."""
    root = tmp_path / "host"
    root.mkdir()
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(Quiet, directory=str(root)))
    thread = threading.Thread(target=server.serve_forever, args=(0.02,))
    thread.start()
    try:
        yield root, f"http://127.0.0.1:{server.server_address[1]}/"
    finally:
        server.shutdown()
        server.server_close()
        thread.join()


def fetch(address):
    with OPENER.open(address, timeout=20) as answer:
        return answer.url, answer.headers.get_content_type(), answer.read()


LINK = re.compile(r'(?:href|src)="([^"]+)"')


def walk(first, within):
    """Follow every link of pages from the first, and give the addresses that were answered."""
    seen, waiting = {}, [first]
    while waiting:
        address = waiting.pop()
        if address in seen:
            continue
        found, kind, data = fetch(address)
        seen[address] = kind
        if kind != "text/html":
            continue
        for link in LINK.findall(data.decode("utf-8")):
            target = urldefrag(urljoin(found, html.unescape(link))).url
            if target.startswith(within):
                waiting.append(target)
    return seen


def test_a_site_in_a_folder_of_a_host_is_whole_from_its_address_without_index_html(folder, host):
    root, address = host
    assert main(["build"]) == 0
    shutil.copytree(folder / "output/public", root / "some/folder")
    seen = walk(f"{address}some/folder/", address)
    assert [each for each in seen if not each.startswith(f"{address}some/folder/")] == []
    reached = {each.removeprefix(f"{address}some/folder/") for each in seen} - {""}
    pages = {each for each in files_of(root / "some/folder") if each.endswith(".html")}
    assert pages - reached == {"404.html"}


def test_every_address_that_a_site_tells_other_programs_is_answered_where_it_lies(folder, host):
    root, address = host
    web = f"{address}some/folder/"
    assert main(["build", "--web", web]) == 0
    shutil.copytree(folder / "output/public", root / "some/folder")
    told = set()
    for path in (folder / "output/public").rglob("*"):
        if path.suffix in (".html", ".xml"):
            told.update(re.findall(rf"{re.escape(web)}[^\"<>\s]*", path.read_text(encoding="utf-8")))
    assert len(told) > 10
    for each in sorted(told):
        fetch(html.unescape(each))
    lost = (folder / "output/public/404.html").read_text(encoding="utf-8")
    links = [each for each in LINK.findall(lost) if not each.startswith("#")]
    assert links
    for link in links:
        fetch(urljoin(address, html.unescape(link)))


def test_the_address_of_the_readme_is_one_that_a_build_takes(folder):
    for line in recipe("daterun build --web"):
        assert main(shlex.split(line)[1:]) == 0
    assert "https://example.org/coins/" in (folder / "output/public/sitemap.xml").read_text(encoding="utf-8")
