"""How the code is cut: which layer may import what, and what every module owes its reader."""

import ast
import subprocess
import sys
import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
PACKAGE = ROOT / "generator" / "daterun"

LAYERS = (
    {"problems", "naming", "bundled", "sealed", "shares"},
    {"trade"},
    {"records"},
    {"photos"},
    {"checks"},
    {"readers"},
    {"pages"},
    {"press"},
    {"exchange"},
    {
        "site",
        "pressing",
        "sourcefiles",
        "origins",
        "edition",
        "reasons",
        "result",
        "desk",
        "looks",
        "noting",
        "standing",
        "workshop",
        "printing",
    }
    | {"preview", "revising", "replacing"},
    {"command", "__main__"},
)
"""From the ground up: a module may import from its own layer and from those before it."""

NOT_FOR_EXCHANGE = {"pages", "press"}

OTHERS_CODE = {
    "jinja2": {"press"},
    "markupsafe": {"press"},
    "markdown": {"press"},
    "nh3": {"press"},
    "PIL": {"photos", "press"},
    "yaml": {"records", "press"},
    "watchdog": {"preview"},
    "typst": {"press"},
    "segno": {"press"},
    "rich": {"command"},
    "openpyxl": {"exchange"},
}
"""The layers that may import each library that is not Python's own."""

ONLY_WHERE_NEEDED = {"openpyxl", "rich", "watchdog"}
"""Imported inside the function that needs them, for they are slow to import."""

PURE = ("trade", "readers", "pages")
"""Layers that touch neither the disk nor the clock."""

DISK_MODULES = {"os", "io", "shutil", "tempfile", "glob", "fileinput", "mmap", "sqlite3", "subprocess"}
DISK_NAMES = {"Path", "PosixPath", "WindowsPath"}
DISK_CALLS = {
    "open",
    "read_text",
    "read_bytes",
    "write_text",
    "write_bytes",
    "iterdir",
    "rglob",
    "mkdir",
    "unlink",
}
CLOCK_CALLS = {"now", "today", "utcnow", "time", "time_ns", "localtime", "gmtime"}

MOST_LINES = 350
VAGUE_NAMES = {"utils", "util", "helpers", "helper", "common", "core", "misc"}

TOP_LEVEL = {
    "README.md",
    "DEVELOPERS.md",
    "pyproject.toml",
    "generator",
    "content",
    "themes",
    "tests",
    "output",
}


@dataclass(frozen=True)
class Imported:
    """One import: the importing module, what it names, and whether it stands inside a function."""

    by: str
    what: str
    line: int
    is_late: bool

    @property
    def library(self):
        return self.what.split(".")[0]

    def __str__(self):
        return f"{self.by}, line {self.line}, imports {self.what}"


def module_name(path: Path) -> str:
    parts = path.relative_to(PACKAGE.parent).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


def layer_of(module: str) -> str:
    """Name the layer of a module; the package itself, which holds its version, is of the ground."""
    parts = module.split(".")
    return parts[1] if len(parts) > 1 else "problems"


def height_of(module: str) -> int:
    layer = layer_of(module)
    for height, names in enumerate(LAYERS):
        if layer in names:
            return height
    raise AssertionError(f"the module {module} is of no layer; see LAYERS")


def imports_in(tree: ast.Module, by: str, known: set[str]) -> Iterator[Imported]:
    """Walk the imports of a module, also those inside functions; a module named after "from" is meant itself."""
    late = {
        id(inner)
        for outer in ast.walk(tree)
        if isinstance(outer, ast.FunctionDef | ast.AsyncFunctionDef)
        for inner in ast.walk(outer)
    }
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            names = [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{by}, line {node.lineno}: imports are written with the package's name"
            source = node.module or ""
            whole = [f"{source}.{alias.name}" for alias in node.names]
            names = [name if name in known else source for name in whole]
        else:
            continue
        for name in dict.fromkeys(names):
            yield Imported(by, name, node.lineno, id(node) in late)


def of_our_own(imports: list[Imported]) -> list[Imported]:
    return [each for each in imports if each.library == "daterun"]


def imports_downward(imports: list[Imported]) -> list[str]:
    return [
        str(each)
        for each in of_our_own(imports)
        if height_of(each.what) > height_of(each.by)
        or (layer_of(each.by) == "exchange" and layer_of(each.what) in NOT_FOR_EXCHANGE)
    ]


def imports_out_of_place(imports: list[Imported]) -> list[str]:
    """Find others' code imported by a layer that may not, or at the head of a module where it is slow."""
    found = []
    for each in imports:
        if each.library == "daterun" or each.library in sys.stdlib_module_names:
            continue
        if layer_of(each.by) not in OTHERS_CODE.get(each.library, set()):
            found.append(str(each))
        elif each.library in ONLY_WHERE_NEEDED and not each.is_late:
            found.append(f"{each} at its head")
    return found


def circles(imports: Mapping[str, set[str]]) -> list[str]:
    """Find the first circle on the way from each module; a late import closes one too."""
    found = []
    done: set[str] = set()

    def visit(module: str, way: tuple[str, ...]) -> None:
        if module in way:
            found.append(" → ".join((*way[way.index(module) :], module)))
        elif module not in done:
            for each in sorted(imports.get(module, ())):
                visit(each, (*way, module))
            done.add(module)

    for module in sorted(imports):
        visit(module, ())
    return found


def is_called(node: ast.AST, names: set[str]) -> str:
    """Name what is called when it is one of some names, bare or as a method; "" otherwise."""
    if isinstance(node, ast.Call):
        called = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
        return called if called in names else ""
    return ""


def touches(tree: ast.Module, by: str) -> list[str]:
    """Find what in a module reaches for the disk or the clock."""
    found = []
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            found += [
                alias.name for alias in node.names if alias.name.split(".")[0] in DISK_MODULES | {"time"}
            ]
        elif isinstance(node, ast.ImportFrom):
            library = (node.module or "").split(".")[0]
            if library in DISK_MODULES | {"time"}:
                found.append(library)
            found += [alias.name for alias in node.names if library == "pathlib" and alias.name in DISK_NAMES]
        elif called := is_called(node, DISK_CALLS | CLOCK_CALLS):
            found.append(f"{called}()")
    return [f"{by} uses {each}" for each in found]


MODULES = {module_name(path): path for path in sorted(PACKAGE.rglob("*.py"))}
TREES = {name: ast.parse(path.read_text(encoding="utf-8")) for name, path in MODULES.items()}
IMPORTS = [each for name, tree in TREES.items() for each in imports_in(tree, name, set(MODULES))]


def made_up(by: str, text: str) -> list[Imported]:
    return list(imports_in(ast.parse(text), by, set(MODULES)))


def test_no_import_goes_down_the_layers():
    assert imports_downward(IMPORTS) == []


def test_an_import_down_the_layers_would_be_found():
    assert imports_downward(made_up("daterun.pages.home", "from daterun.press import theme")) == [
        "daterun.pages.home, line 1, imports daterun.press.theme"
    ]
    assert imports_downward(made_up("daterun.trade.dates", "def late():\n    import daterun.records.coins"))
    assert imports_downward(made_up("daterun.exchange.start", "from daterun.press import theme"))
    assert imports_downward(made_up("daterun.press.theme", "from daterun.pages import views")) == []


def test_others_code_is_imported_only_by_the_layers_that_may():
    assert imports_out_of_place(IMPORTS) == []


def test_others_code_out_of_place_would_be_found():
    assert imports_out_of_place(made_up("daterun.pages.home", "import jinja2"))
    assert imports_out_of_place(made_up("daterun.trade.dates", "from yaml import load"))
    assert imports_out_of_place(made_up("daterun.command.report", "import rich.progress")) == [
        "daterun.command.report, line 1, imports rich.progress at its head"
    ]
    assert (
        imports_out_of_place(made_up("daterun.command.report", "def show():\n    import rich.progress")) == []
    )


def test_every_library_imported_is_asked_for_by_the_project():
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    asked = [*project["dependencies"], *project["optional-dependencies"]["spreadsheet"]]
    asked_for = {each.split(">")[0].split("=")[0].strip().casefold() for each in asked}
    distributions = {"PIL": "pillow", "yaml": "pyyaml", "markupsafe": "jinja2"}
    used = {each.library for each in IMPORTS if each.library in OTHERS_CODE}
    assert {distributions.get(each, each) for each in used} == asked_for


def test_no_modules_import_each_other_in_a_circle():
    graph: dict[str, set[str]] = {name: set() for name in MODULES}
    for each in of_our_own(IMPORTS):
        graph[each.by].add(each.what)
    assert circles(graph) == []


def test_a_circle_would_be_found():
    assert circles({"a": {"b"}, "b": {"c"}, "c": {"b"}}) == ["b → c → b"]
    assert circles({"a": {"b", "c"}, "b": {"c"}, "c": set()}) == []


@pytest.mark.parametrize("layer", PURE)
def test_trade_readers_and_pages_touch_neither_disk_nor_clock(layer):
    found = [
        each
        for name, tree in TREES.items()
        if layer_of(name) == layer and name != f"daterun.{layer}"
        for each in touches(tree, name)
    ]
    assert found == []


def test_a_touch_of_the_disk_or_the_clock_would_be_found():
    assert touches(ast.parse("from pathlib import Path"), "a") == ["a uses Path"]
    assert touches(ast.parse("from pathlib import PurePosixPath"), "a") == []
    assert touches(ast.parse("text = open('x').read()"), "a") == ["a uses open()"]
    assert touches(ast.parse("x = where.read_text()"), "a") == ["a uses read_text()"]
    assert touches(ast.parse("x = datetime.date.today()"), "a") == ["a uses today()"]
    assert touches(ast.parse("import time, os.path"), "a") == ["a uses time", "a uses os.path"]


@pytest.mark.parametrize("module", MODULES)
def test_every_module_opens_by_saying_what_it_knows(module):
    opening = ast.get_docstring(TREES[module])
    assert opening is not None
    assert opening.split("\n\n")[0].rstrip().endswith((".", ":"))


def test_no_module_is_longer_than_a_reader_can_hold():
    lines = {name: len(path.read_text(encoding="utf-8").splitlines()) for name, path in MODULES.items()}
    assert {name: count for name, count in lines.items() if count > MOST_LINES} == {}


def test_no_module_has_a_name_that_says_nothing():
    assert [name for name in MODULES if VAGUE_NAMES & set(name.split("."))] == []


def test_nothing_lies_about_at_the_top_level():
    try:
        listed = subprocess.run(
            ["git", "ls-files", "-z"], cwd=ROOT, capture_output=True, check=True, text=True, encoding="utf-8"
        ).stdout
    except (OSError, subprocess.CalledProcessError):
        pytest.skip("git does not list this folder")
    names = {each.split("/")[0] for each in listed.split("\0") if each}
    assert {each for each in names if not each.startswith(".")} == TOP_LEVEL
