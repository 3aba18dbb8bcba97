"""Every template of the default theme, filled with a sample page and read back as HTML."""

import dataclasses
import re
from itertools import pairwise
from xml.etree.ElementTree import Element

import html5lib
import pytest
import rendering
import samples
import yaml
from jinja2 import UndefinedError

from daterun.pages.views import Page

PAGES = {page.address: page for page in samples.all_pages()}
TEMPLATES = rendering.THEME / "templates"
ASSETS = rendering.THEME / "assets"


@pytest.fixture(scope="module")
def environment():
    return rendering.theme_environment()


@pytest.fixture(scope="module")
def made(environment) -> dict[str, str]:
    return {address: rendering.render(environment, page) for address, page in PAGES.items()}


def tree_of(html: str) -> Element:
    parser = html5lib.HTMLParser(strict=True, namespaceHTMLElements=False)
    return parser.parse(html)


def local(element: Element) -> str:
    return element.tag.rpartition("}")[2] if isinstance(element.tag, str) else ""


def elements(root: Element, *names: str) -> list[Element]:
    return [element for element in root.iter() if local(element) in names]


def words_in(element: Element) -> str:
    return " ".join("".join(element.itertext()).split())


@pytest.fixture(params=PAGES)
def address(request) -> str:
    return request.param


@pytest.fixture
def tree(made, address) -> Element:
    return tree_of(made[address])


def test_each_template_has_a_sample():
    templates = {path.name.removesuffix(".html.j2") for path in TEMPLATES.glob("*.html.j2")} - {"base"}
    assert {page.template for page in PAGES.values()} == templates


def test_a_page_parses_without_an_error(made, address):
    assert tree_of(made[address]).find("body") is not None


def test_a_page_says_its_language_title_and_what_it_is(tree, address):
    frame = PAGES[address].frame
    assert tree.get("lang") == frame.language
    title = tree.findtext("head/title")
    assert (
        title == frame.title
        if frame.title == frame.site_title
        else title == f"{frame.title} · {frame.site_title}"
    )
    named = {meta.get("name"): meta.get("content") for meta in tree.findall("head/meta")}
    assert named["description"] == frame.description
    assert named["referrer"] == "no-referrer"
    assert named["color-scheme"] == "light dark"
    assert "width=device-width" in named["viewport"]


def test_robots_are_kept_out_of_an_edition_that_asks_it_and_only_there(tree, address):
    robots = tree.find("head/meta[@name='robots']")
    assert (robots is not None) == PAGES[address].frame.keeps_robots_out
    assert robots is None or robots.get("content").startswith("noindex")


def test_an_edition_says_what_it_is_on_the_page(tree, address):
    notices = [words_in(element) for element in elements(tree, "p") if element.get("class") == "notice"]
    notice = PAGES[address].frame.notice
    assert notices == ([notice] if notice else [])


def test_nothing_in_a_page_needs_a_looser_policy_for_content(tree):
    for element in tree.iter():
        assert "style" not in element.attrib
        assert not [name for name in element.attrib if str(name).startswith("on")]
    assert not elements(tree, "style")
    for script in elements(tree, "script"):
        assert script.get("src") and not script.text
        assert script.get("type") is None


def test_every_link_and_picture_is_relative(tree):
    for element in tree.iter():
        for name in ("href", "src", "srcset"):
            for value in (element.get(name) or "").split(", "):
                assert not re.match(r"[a-z]+:|/", value), value


def test_every_picture_has_its_width_its_height_and_a_text(tree):
    for img in elements(tree, "img"):
        assert int(img.get("width")) > 0 and int(img.get("height")) > 0
        assert img.get("alt") is not None
    beside_words = [img for link in elements(tree, "a") if words_in(link) for img in elements(link, "img")]
    assert all(img.get("alt") for img in elements(tree, "img") if img not in beside_words)


def test_every_drawn_figure_has_a_text_or_is_hidden(tree):
    for svg in elements(tree, "svg"):
        assert svg.get("aria-hidden") == "true" or (svg.get("role") == "img" and svg.get("aria-label"))


def test_every_link_and_button_says_where_it_leads(tree):
    for element in elements(tree, "a", "button"):
        pictures = [img.get("alt") for img in elements(element, "img")]
        drawings = [svg.get("aria-label") for svg in elements(element, "svg") if svg.get("aria-label")]
        assert words_in(element) or any(pictures) or drawings or element.get("aria-label")


def test_every_name_that_a_page_refers_to_is_there_once(tree):
    ids = [element.get("id") for element in tree.iter() if element.get("id")]
    assert len(ids) == len(set(ids))
    for element in tree.iter():
        for name, value in element.attrib.items():
            if name in ("aria-labelledby", "for"):
                assert value in ids
            elif name == "clip-path":
                assert value.removeprefix("url(#").removesuffix(")") in ids
            elif str(name).endswith("href") and value.startswith("#"):
                assert value[1:] in ids


def test_headings_go_down_one_step_at_a_time(tree):
    levels = [int(local(element)[1]) for element in elements(tree, "h1", "h2", "h3", "h4")]
    assert levels.count(1) == 1 and levels[0] == 1
    assert all(after <= before + 1 for before, after in pairwise(levels))


def test_landmarks_and_a_way_past_them_are_there(tree):
    assert len(elements(tree, "main")) == 1
    assert elements(tree, "header") and elements(tree, "footer")
    first = elements(tree.find("body"), "a", "button", "input")[0]
    assert first.get("href") == "#content" == "#" + elements(tree, "main")[0].get("id")
    navs = [nav.get("aria-label") for nav in elements(tree, "nav")]
    assert all(navs) and len(navs) == len(set(navs))


def test_the_room_one_stands_in_is_marked(tree, address):
    current = [words_in(link) for link in elements(tree, "a") if link.get("aria-current") == "page"]
    assert current == [item.link.text for item in PAGES[address].frame.navigation if item.is_current]


def test_every_table_has_a_caption_and_headings_both_ways(tree):
    for region in [element for element in elements(tree, "div") if element.get("class") == "region"]:
        assert (region.get("role"), region.get("tabindex")) == ("region", "0")
        (table,) = elements(region, "table")
        caption = table.find("caption")
        assert words_in(caption) and caption.get("id") == region.get("aria-labelledby")
        assert {th.get("scope") for th in elements(table.find("thead"), "th")} <= {"col", "colgroup"}
        for row in table.find("tbody"):
            assert row[0].tag == "th" and row[0].get("scope") == "row"


def test_every_row_of_a_table_is_as_wide_as_its_columns(tree):
    for table in elements(tree, "table"):
        widths = {sum(int(cell.get("colspan", 1)) for cell in row) for row in elements(table, "tr")}
        assert len(widths) == 1
        spans = [int(group.get("span", 1)) for group in table.findall("colgroup")]
        assert not spans or {sum(spans)} == widths


def test_every_slot_and_every_reason_of_a_grid_can_be_read_aloud(made):
    page = PAGES["index.html"]
    (grid,) = page.body.grids
    table = elements(tree_of(made["index.html"]), "table")[0]
    for row, shown in zip(grid.rows, table.find("tbody"), strict=True):
        for cell, td in zip(row.cells, shown[1:-1], strict=True):
            heard = words_in(td) + "".join(img.get("alt") for img in elements(td, "img"))
            for slot in cell.slots:
                assert slot.label in heard
            assert cell.label in heard
        assert words_in(shown[-1]) == row.tally


def test_a_gap_differs_from_a_scarce_one_by_its_form():
    environment = rendering.theme_environment()
    part = environment.get_template("parts/sign.html.j2").make_module({"to": str})
    forms = {
        kind: re.sub(r' class="[^"]*"', "", part.sign(kind, 20))
        for kind in ("filled", "missing", "scarce", "left-out", "proofs-only", "not-known", "not-struck")
    }
    assert len(set(forms.values())) == len(forms)
    assert forms["scarce"].count("<circle") == 2


def test_a_coin_in_a_grid_is_as_wide_as_its_diameter_says(made):
    table = elements(tree_of(made["index.html"]), "table")[0]
    widths = {}
    for row in table.find("tbody"):
        widths[words_in(row[0])] = {int(img.get("width")) for img in elements(row, "img")}
    assert widths["Daler"] == {24}
    assert widths["Ort"] == {17}
    assert widths["4 skilling"] == {10}


def test_a_grid_shows_the_smallest_size_of_a_picture_and_loads_it_when_seen(made):
    for img in elements(elements(tree_of(made["index.html"]), "table")[0], "img"):
        assert img.get("src").endswith("-160.jpg")
        assert img.get("srcset") is None
        assert img.get("loading") == "lazy"


def test_a_side_of_a_coin_leads_to_its_largest_picture(made):
    tree = tree_of(made["coins/ort/1897/index.html"])
    links = [link.get("href") for link in elements(tree, "a") if link.get("class") == "closer"]
    assert links == ["../../../pictures/toned-obverse-1600.jpg", "../../../pictures/toned-reverse-1600.jpg"]


def test_a_coin_is_shown_at_its_own_size(made):
    tree = tree_of(made["coins/ort/1897/index.html"])
    sizes = [
        (svg.get("width"), svg.get("height")) for svg in elements(tree, "svg") if svg.get("class") == "actual"
    ]
    assert sizes == [("26.4mm", "26.4mm")] * 2


def test_a_photo_without_a_disc_is_not_shown_at_actual_size(made):
    tree = tree_of(made["coins/half-skilling/off-centre/index.html"])
    assert not [svg for svg in elements(tree, "svg") if svg.get("class") == "actual"]
    drawn = [svg.get("width") for svg in elements(tree, "svg") if "drawing" in (svg.get("class") or "")]
    assert drawn == ["640", "20.1mm"]


def test_what_is_private_has_its_own_heading(made):
    tree = tree_of(made["coins/half-skilling/off-centre/index.html"])
    (private,) = [section for section in elements(tree, "section") if section.get("class") == "private"]
    assert [words_in(part) for part in elements(private, "h2", "dt")] == [
        "For the keeper alone",
        *(fact.name for fact in samples.keeper_page().body.private),
    ]
    assert "For the keeper alone" not in made["coins/ort/1897/index.html"]


def test_the_legend_of_a_drawn_coin_runs_round_its_rim(made):
    tree = tree_of(made["coins/half-skilling/off-centre/index.html"])
    (path, *_) = elements(tree, "textPath")
    assert path.text == "TORVALD III KING OF VESSMARK"


def test_neighbours_say_which_way_they_lie(made):
    tree = tree_of(made["coins/ort/1897/index.html"])
    rels = {link.get("rel"): link.get("href") for link in elements(tree, "a") if link.get("rel")}
    assert rels == {"prev": "../1896/index.html", "next": "../1898/index.html"}


def test_markup_in_what_a_collector_typed_is_text(environment):
    page = samples.index_page()
    body = dataclasses.replace(page.body, heading="<b>Ort</b> & daler", lead="<script>alert(1)</script>")
    html = rendering.render(environment, dataclasses.replace(page, body=body))
    assert "&lt;b&gt;Ort&lt;/b&gt; &amp; daler" in html
    assert "<script>" not in html


def test_an_empty_view_leaves_no_empty_headings(environment):
    bare = {
        samples.home_page: {
            "grids": (),
            "scarcest": None,
            "latest": (),
            "monarchs": (),
            "essays": (),
            "lead": "",
        },
        samples.monarch_page: {
            "facts": (),
            "portraits": (),
            "grid": None,
            "coins": (),
            "neighbours": samples.NOBODY,
        },
        samples.denomination_page: {
            "grids": (),
            "standards": None,
            "types": (),
            "varieties": None,
            "dates": (),
            "others": (),
            "sources": (),
            "cautions": (),
            "neighbours": samples.NOBODY,
        },
        samples.date_page: {"rows": (), "monarchs": (), "neighbours": samples.NOBODY},
        samples.keeper_page: {
            "sides": (),
            "record": (),
            "diameter": 0,
            "private": (),
            "cautions": (),
            "photo_remarks": (),
        },
    }
    for make, changes in bare.items():
        page: Page = make()
        html = rendering.render(
            environment, dataclasses.replace(page, body=dataclasses.replace(page.body, **changes))
        )
        assert [words_in(heading) for heading in elements(tree_of(html), "h1", "h2", "h3")] == [
            page.body.heading
        ]


def test_a_grid_without_groups_keeps_its_columns(environment):
    page = samples.home_page()
    (grid,) = page.body.grids
    body = dataclasses.replace(page.body, grids=(dataclasses.replace(grid, groups=()),))
    table = elements(tree_of(rendering.render(environment, dataclasses.replace(page, body=body))), "table")[0]
    assert [group.get("span") for group in table.findall("colgroup")] == [None, "47", None]


def test_a_misspelt_name_in_a_template_is_an_error(environment):
    with pytest.raises(UndefinedError):
        environment.from_string("{{ view.heding }}").render(view=samples.index_page().body)


def test_the_theme_has_every_word_that_its_templates_ask_for():
    words = yaml.safe_load((rendering.THEME / "words" / "en.yaml").read_text(encoding="utf-8"))
    asked = set()
    for path in TEMPLATES.rglob("*.j2"):
        asked |= set(re.findall(r"words\('(theme\.[a-z.-]+)'[,)]", path.read_text(encoding="utf-8")))
    counted = {f"theme.count.{least}" for least in (4, 8, 12, 20, 40, 50, 60, 65)}
    assert asked | counted == {key for key in words if key.startswith("theme.")}


def test_the_style_names_only_files_that_are_there():
    style = (ASSETS / "style.css").read_text(encoding="utf-8")
    named = re.findall(r'url\("([^"]+)"\)', style)
    assert named and all((ASSETS / name).is_file() for name in named)
    assert "@import" not in style and "http" not in style


def test_the_fonts_are_light_and_carry_their_licence():
    fonts = list(ASSETS.glob("*.woff2"))
    assert sum(path.stat().st_size for path in fonts) <= 160 * 1024
    assert "SIL OPEN FONT LICENSE Version 1.1" in (ASSETS / "OFL.txt").read_text(encoding="utf-8")


def test_the_theme_lists_what_it_holds():
    theme = yaml.safe_load((rendering.THEME / "theme.yaml").read_text(encoding="utf-8"))
    assert set(theme["assets"]) == {path.name for path in ASSETS.iterdir()}


def luminance(colour: str) -> float:
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """Return the contrast ratio of WCAG 2.2, from 1 to 21."""
    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


def test_ink_stands_out_from_paper_in_every_look():
    style = (ASSETS / "style.css").read_text(encoding="utf-8")
    looks = [
        dict(re.findall(r"--(\w+): (#[0-9a-f]{6});", block))
        for block in re.findall(r"\{([^{}]*--paper: #[0-9a-f]{6};[^{}]*)\}", style)
    ]
    assert len(looks) == 3
    assert looks[1] == looks[2]
    for look in looks:
        for name in ("ink", "quiet", "scarce"):
            assert contrast(look[name], look["paper"]) >= 4.5, (name, look["paper"])
        assert contrast(look["faint"], look["paper"]) >= 3


def test_signs_and_bars_stand_out_from_paper_on_paper():
    style = (ASSETS / "style.css").read_text(encoding="utf-8")
    assert contrast("#4a4538", "#ffffff") >= 4.5
    assert "--quiet: #4a4538" in style[style.index("@media print") :]
