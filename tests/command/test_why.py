import json
import subprocess
import sys

import pytest

from daterun.command.main import main

PAGE = "coins/ort/1891/index.html"


@pytest.fixture
def folder(catalogue_folder, coin):
    return catalogue_folder(
        {
            **{
                f"content/coins/ort/{each}.md": coin(str(each), "grade: VF30")
                for each in (1891, 1893, *range(1900, 1908))
                if each not in (1902, 1907)
            },
            "content/coins/ort/1892.md": coin("1892", "parted: {on: 2020-01-01, how: sold}"),
            "content/pages/on-orts.md": "---\ntitle: On orts\n---\nThe first is [[ort/1891]].\n",
        }
    )


@pytest.fixture
def why(folder, capsys):
    """Run the command; give its exit code, what it printed, and what it said aside."""

    def ask(*words):
        try:
            code = main(["why", *words, "--folder", str(folder)])
        except SystemExit as left:
            code = left.code
        said = capsys.readouterr()
        return code, said.out, said.err

    return ask


def build(folder, capsys):
    assert main(["build", "--folder", str(folder)]) == 0
    capsys.readouterr()


def test_a_page_is_told_with_its_sources_and_its_fate(why, folder, capsys):
    build(folder, capsys)
    code, said, _ = why("/coins/ort/1891/")
    assert code == 0
    lines = said.splitlines()
    assert lines[:4] == [
        f"{PAGE}: a page of the public edition",
        "",
        "Made from",
        "  its own record and photos",
    ]
    assert lines[4] == "    content/coins/ort/1891.md"
    assert "  series" in lines
    assert "    content/series/vessmark/ort.yaml" in lines
    assert lines[-2:] == ["In the last build: made, because it is new.", "Now: as it was made."]


def test_a_long_list_is_shortened_and_whole_for_a_program(why, folder, capsys):
    build(folder, capsys)
    _, said, _ = why("index.html")
    shortened = [each.strip() for each in said.splitlines() if each.strip().startswith("and ")]
    assert "and 3 other coins" in shortened
    code, said, _ = why("index.html", "--json")
    told = json.loads(said)
    assert code == 0
    assert {key: told[key] for key in ("address", "kind", "for")} == {
        "address": "index.html",
        "kind": "page",
        "for": "public",
    }
    coins = {*told["made_from"].get("shown", ()), *told["made_from"].get("counted", ())}
    assert len(coins) == 8
    assert told["made_in_last_build"] is True
    assert told["last_made_because"] == "it is new"
    assert (told["would_be_made_again"], told["because"]) == (False, "")


def test_what_an_edit_will_do_is_told_before_and_after_it(why, folder, capsys):
    assert why(PAGE)[1].splitlines()[-2:] == [
        "In the last build: not made; no build has made it yet.",
        "Now: would be made again, because it is new.",
    ]
    build(folder, capsys)
    path = folder / "content/coins/ort/1891.md"
    path.write_text(path.read_text(encoding="utf-8") + "Sharp.\n", encoding="utf-8")
    assert why(PAGE)[1].splitlines()[-1] == "Now: would be made again, because what it shows has changed."
    build(folder, capsys)
    assert why(PAGE)[1].splitlines()[-2] == "In the last build: made, because what it shows has changed."
    assert why("404.html")[1].splitlines()[-2:] == [
        "In the last build: left as it was. It was made last because it is new.",
        "Now: as it was made.",
    ]


def test_a_coin_file_tells_the_pages_made_from_it(why, folder, capsys):
    build(folder, capsys)
    code, said, _ = why("content/coins/ort/1891.md")
    lines = said.splitlines()
    assert code == 0
    assert lines[:4] == [
        "content/coins/ort/1891.md: made from it in the public edition",
        "",
        "  1 page, about it",
        f"    {PAGE}",
    ]
    assert sum(" pages, " in each for each in lines) == 2
    assert any(each.endswith(" other pages") for each in lines)
    assert lines[-1] == "Now: all as they were made."
    told = json.loads(why("content/coins/ort/1891.md", "--json")[1])
    assert (told["path"], told["kind"], told["lack"]) == ("content/coins/ort/1891.md", "source", "")
    assert {"address": PAGE, "kind": "page", "part": "own"}.items() <= {
        each["address"]: each for each in told["makes"]
    }[PAGE].items()


def test_a_template_says_that_the_theme_is_taken_as_a_whole(why):
    said = why("themes/tray/templates/essay.html.j2")[1].splitlines()
    assert "    essays/on-orts/index.html" in said
    assert (
        "A change of any file of the theme has every page made anew, and those written that differ." in said
    )
    assert "Now: 1 of 1 would be made again." in said


def test_a_coin_that_was_parted_with_is_said_to_be_in_the_keepers_edition(why):
    code, said, _ = why("coins/ort/1892/")
    assert code == 0
    assert said.splitlines() == [
        "coins/ort/1892/index.html: the public edition has no such thing, for the coin was parted with.",
        "There is one with --for keeper.",
    ]
    told = json.loads(why("coins/ort/1892/", "--json")[1])
    assert (told["kind"], told["lack"], told["editions"]) == ("absent", "parted with", ["keeper"])
    assert why("content/coins/ort/1892.md")[1].splitlines() == [
        "content/coins/ort/1892.md: nothing of the public edition is made from it.",
        "The reason: the coin was parted with, and only the keeper's edition shows it.",
    ]
    assert why("coins/ort/1892/", "--for", "keeper")[1].startswith(
        "coins/ort/1892/index.html: a page of the keeper edition"
    )


def test_of_words_in_another_language_it_is_said_why_no_page_has_them(why, folder):
    path = folder / "themes/tray/words/sv.yaml"
    path.parent.mkdir(parents=True)
    path.write_text("and: och\n", encoding="utf-8")
    assert why("themes/tray/words/sv.yaml")[1].splitlines() == [
        "themes/tray/words/sv.yaml: nothing of the public edition is made from it.",
        "The reason: this edition has no use for it, or it is of another language than the catalogue.",
    ]


def test_what_no_build_makes_is_said_to_be_of_other_making(why):
    assert why("print/wants.pdf")[1] == "print/wants.pdf: it is not made by a build, but by daterun print.\n"
    assert why("robots.txt")[1].splitlines() == [
        "robots.txt: the public edition has no such thing.",
        "There is one with --for keeper.",
    ]


def test_the_word_to_robots_is_made_from_nothing(why):
    said = why("robots.txt", "--for", "keeper")[1]
    assert "Made from nothing but the program itself." in said


def test_what_is_nothing_is_wrong_usage_with_the_nearest_address(why):
    assert why("coins/ort/1891x/") == (
        2,
        "",
        'daterun why: "coins/ort/1891x/" is nothing in the public edition or its sources\n'
        '  hint: did you mean "coins/ort/1891/"?\n',
    )


@pytest.mark.parametrize("form", [(), ("--json",)])
def test_with_errors_nothing_can_be_planned(why, folder, form):
    path = folder / "content/coins/ort/1891.md"
    path.write_text(path.read_text(encoding="utf-8").replace("VF30", "MS72"), encoding="utf-8")
    code, said, aside = why(PAGE, *form)
    assert code == 1
    assert aside == "Nothing can be planned until daterun check is clean.\n"
    assert (json.loads(said)["errors"] if form else said) == (1 if form else "1 error in 1 file.\n")


def test_help_and_a_wrong_reader_load_nothing_slow(folder):
    ask = "import sys; from daterun.command.main import main\ntry: main(sys.argv[1:])\nexcept SystemExit: pass\n"
    ask += "print(sorted({'jinja2', 'PIL', 'yaml'} & set(sys.modules)))"
    for words in (["why", "--help"], ["why", PAGE, "--for", "nobody"]):
        ran = subprocess.run([sys.executable, "-c", ask, *words], capture_output=True, text=True, check=True)
        assert ran.stdout.endswith("[]\n")
