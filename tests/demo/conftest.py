"""The demo, built once by the real program, with every page of it read."""

import re
import shutil
import warnings
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path

import html5lib
import pytest

from daterun.bundled import content_folder
from daterun.readers.reader import Reader
from daterun.result import BuildResult
from daterun.site import build

ADDRESSES = ("href", "src", "poster", "action", "data", "formaction", "xlink:href")
"""The attributes of HTML and SVG that hold an address; srcset holds several."""

_IN_CSS = re.compile(r"url\(\s*[\"']?([^\"')]+)[\"']?\s*\)")


@dataclass(frozen=True)
class Reference:
    """An address that a file of the edition names: where it stands, and in which element and attribute."""

    by: str
    tag: str
    attribute: str
    to: str

    @property
    def is_elsewhere(self) -> bool:
        return re.match(r"[a-zA-Z][a-zA-Z0-9+.-]*:|//", self.to) is not None


class ReadPage:
    """One page as a browser reads it: its elements, and what the standard finds wrong in it."""

    def __init__(self, address: str, text: str) -> None:
        self.address = address
        self.text = text
        parser = html5lib.HTMLParser(html5lib.getTreeBuilder("etree"), namespaceHTMLElements=False)
        with warnings.catch_warnings():
            warnings.filterwarnings("ignore", category=DeprecationWarning, module="html5lib")
            self.root = parser.parse(text)
        self.errors = [f"{address}: {code} at {place}" for place, code, _ in parser.errors]

    def elements(self, tag: str) -> list:
        return [each for each in self.root.iter() if each.tag == tag]

    @cached_property
    def ids(self) -> list[str]:
        return [each.attrib["id"] for each in self.root.iter() if "id" in each.attrib]

    @cached_property
    def references(self) -> list[Reference]:
        found = []
        for element in self.root.iter():
            tag = str(element.tag).rpartition("}")[2]
            for name, value in element.attrib.items():
                if str(name).rpartition("}")[2] in {each.rpartition(":")[2] for each in ADDRESSES}:
                    found.append(Reference(self.address, tag, str(name), value))
                elif name == "srcset":
                    sizes = [each.split()[0] for each in value.split(",") if each.strip()]
                    found += [Reference(self.address, tag, name, each) for each in sizes]
                elif name == "style":
                    found += [Reference(self.address, tag, name, each) for each in _IN_CSS.findall(value)]
        return found

    @property
    def words(self) -> str:
        """What a reader can read: the text with its spaces evened out, without scripts and styles."""

        def walk(element) -> Iterator[str]:
            if element.tag not in ("script", "style", "template"):
                yield element.text or ""
                for child in element:
                    yield from walk(child)
                    yield child.tail or ""

        return " ".join("".join(walk(self.root)).split())


@dataclass(frozen=True)
class Demo:
    """An edition of the demo: the catalogue folder, where the edition lies, and what the build said."""

    folder: Path
    output: Path
    result: BuildResult = field(repr=False)

    @cached_property
    def files(self) -> dict[str, bytes]:
        return files_of(self.output)

    @cached_property
    def pages(self) -> dict[str, ReadPage]:
        return {
            address: ReadPage(address, data.decode("utf-8"))
            for address, data in self.files.items()
            if address.endswith(".html")
        }

    @cached_property
    def references(self) -> list[Reference]:
        found = [each for page in self.pages.values() for each in page.references]
        for address, data in self.files.items():
            if address.endswith(".css"):
                found += [
                    Reference(address, "css", "url", each) for each in _IN_CSS.findall(data.decode("utf-8"))
                ]
        return found


def files_of(folder: Path) -> dict[str, bytes]:
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


def copy_content(folder: Path, with_photos: bool = True) -> Path:
    """Copy the demo's content into a new catalogue folder, its files with new times."""
    ignore = None if with_photos else shutil.ignore_patterns("photos")
    shutil.copytree(content_folder(), folder / "content", ignore=ignore, copy_function=shutil.copyfile)
    return folder


def build_edition(folder: Path, reader: Reader) -> Demo:
    result = build(folder, reader)
    return Demo(folder, result.output, result)


@pytest.fixture(scope="session")
def demo(tmp_path_factory) -> Demo:
    """The public edition of the whole demo."""
    return build_edition(copy_content(tmp_path_factory.mktemp("demo")), Reader.PUBLIC)


@pytest.fixture(scope="session")
def keepers_demo(tmp_path_factory) -> Demo:
    """The keeper's edition, without photos, for they are all in the public one."""
    return build_edition(copy_content(tmp_path_factory.mktemp("keeper"), with_photos=False), Reader.KEEPER)


@pytest.fixture(scope="session")
def clubs_demo(tmp_path_factory) -> Demo:
    """The club's edition, without photos."""
    return build_edition(copy_content(tmp_path_factory.mktemp("club"), with_photos=False), Reader.CLUB)


@pytest.fixture(params=["demo", "clubs_demo", "keepers_demo"])
def edition(request) -> Demo:
    """Each edition in turn."""
    return request.getfixturevalue(request.param)


@pytest.fixture(scope="session")
def copy_of_content():
    return copy_content


@pytest.fixture(scope="session")
def files_in():
    return files_of
