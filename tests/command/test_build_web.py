"""A build that is told where its site will lie, in place of what the settings say."""

import re

import pytest

from daterun.command.main import main

WEB = "https://example.org/club/coins/"


@pytest.fixture
def folder(catalogue_folder, coin, base_files):
    settings = base_files["content/catalogue.yaml"] + "web: https://elsewhere.example/\n"
    return catalogue_folder(
        {
            "content/catalogue.yaml": settings,
            "content/coins/ort/1891.md": coin("1891", "grade: VF30", "added: 2019-04-10"),
        }
    )


def build(folder, *arguments):
    assert main(["build", "--folder", str(folder), *arguments]) == 0
    root = folder / "output/public"
    return {
        path.relative_to(root).as_posix(): path.read_bytes() for path in root.rglob("*") if path.is_file()
    }


def remembered(name):
    return name.startswith(".daterun")


def test_the_whole_addresses_of_a_site_are_those_of_the_option(folder):
    files = build(folder, "--web", WEB)
    whole = {name: data.decode("utf-8") for name, data in files.items() if name.endswith((".html", ".xml"))}
    assert not [name for name, text in whole.items() if "elsewhere.example" in text]
    assert f'<link rel="canonical" href="{WEB}coins/ort/1891/">' in whole["coins/ort/1891/index.html"]
    assert f'<meta property="og:url" content="{WEB}coins/ort/1891/">' in whole["coins/ort/1891/index.html"]
    assert f"<id>{WEB}coins/ort/1891/</id>" in whole["feed.xml"]
    assert f"<loc>{WEB}coins/ort/1891/</loc>" in whole["sitemap.xml"]
    lost = re.findall(r'(?:href|src)="([^"#]+)"', whole["404.html"])
    assert lost and [each for each in lost if not each.startswith("/club/coins/")] == []


def test_the_option_holds_for_its_build_alone(folder):
    plain = build(folder)
    assert b"https://elsewhere.example/feed.xml" in plain["feed.xml"]
    build(folder, "--web", WEB)
    again = build(folder)
    assert {name: data for name, data in again.items() if not remembered(name)} == {
        name: data for name, data in plain.items() if not remembered(name)
    }


def test_a_site_with_the_option_is_that_of_the_setting(folder):
    told = build(folder, "--web", WEB.removesuffix("/"))
    settings = folder / "content/catalogue.yaml"
    settings.write_text(settings.read_text("utf-8").replace("https://elsewhere.example/", WEB), "utf-8")
    assert {
        name for name, data in build(folder).items() if told.get(name) != data and not remembered(name)
    } == set()


@pytest.mark.parametrize(
    ("address", "said"),
    [
        ("example.org", '"example.org" is not a web address\n  hint: it begins with https:// or http://\n'),
        ("https://", '"https://" names no host\n  hint: write it as in https://example.org/coins/\n'),
        ("", '"" is not a web address\n  hint: it begins with https:// or http://\n'),
    ],
)
def test_an_address_that_is_none_is_wrong_usage(folder, capsys, address, said):
    with pytest.raises(SystemExit) as left:
        main(["build", "--folder", str(folder), "--web", address])
    assert left.value.code == 2
    assert capsys.readouterr().err == f"daterun build: argument --web: {said}"
    assert not (folder / "output").exists()
