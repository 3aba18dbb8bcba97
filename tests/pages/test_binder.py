from daterun.readers.reader import Reader

SETTINGS = "title: The cabinet\nkeeper: Ida Quennell\nsummary: The coinage of Vessmark\nlanguage: sv\n"


def test_every_page_stands_in_the_frame_of_the_catalogue(planned, coin):
    found = planned({"content/catalogue.yaml": SETTINGS, "content/coins/a.md": coin("1891")})
    for page in found.plan.pages:
        assert page.frame.site_title == "The cabinet"
        assert page.frame.language == "sv"
        assert page.frame.title == page.body.heading
        assert [each.text for each in page.frame.foot] == [
            "The collection of Ida Quennell.",
            "Grades are opinions. Never clean a coin on account of what is read here.",
        ]


def test_a_page_without_a_description_of_its_own_has_that_of_the_catalogue(planned):
    found = planned({"content/catalogue.yaml": SETTINGS})
    assert found.pages["index.html"].frame.description == "The coinage of Vessmark"
    assert found.pages["dates/1892/index.html"].frame.description.startswith("1 denomination was struck")


def test_a_collection_without_a_named_keeper_names_none(planned):
    foot = planned().pages["index.html"].frame.foot
    assert [each.text for each in foot] == [
        "Grades are opinions. Never clean a coin on account of what is read here."
    ]


def test_the_trail_leads_from_home_and_home_has_none(planned):
    found = planned()
    assert found.pages["index.html"].frame.trail == ()
    assert [each.text for each in found.pages["dates/1892/index.html"].frame.trail] == ["Home", "Dates"]
    assert [each.text for each in found.pages["dates/index.html"].frame.trail] == ["Home"]


def test_a_name_takes_on_its_issuer_only_where_there_are_several(planned, series):
    assert planned().binder.of_issuer("Ort", "vessmark") == "Ort"
    files = {"content/series/norhavn/mark.yaml": series("1891: 5", name="Mark", issuer="norhavn")}
    binder = planned(files, Reader.CLUB).binder
    assert binder.of_issuer("Ort", "vessmark") == "Ort, Kingdom of Vessmark"
    assert binder.of_issuer("Mark", "norhavn") == "Mark, norhavn"
