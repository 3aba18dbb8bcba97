from daterun.preview.overlay import plain_page, put_in

PAGE = "<html>\n<head>\n<title>x</title>\n</head>\n<body>\n<pre></body> typed</pre>\n</body>\n</html>\n"


def test_the_script_goes_in_at_the_end_of_the_page():
    html = put_in(PAGE, "v-1", "")
    assert html.endswith('<script src="/.daterun/follow.js" data-version="v-1"></script>\n</body>\n</html>\n')
    assert "daterun-problems" not in html


def test_problems_are_shown_as_text_that_cannot_run():
    html = put_in(PAGE, "v-1", "content/coins/<script>alert(1)</script>.md:1: error")
    assert "&lt;script&gt;alert(1)&lt;/script&gt;" in html
    assert "<script>alert" not in html
    assert 'role="alert"' in html


def test_a_page_without_an_end_has_it_after_all():
    assert put_in("<p>x", "v", "").startswith("<p>x<script")


def test_links_of_the_lost_page_lead_from_the_root():
    assert '<head>\n<base href="/">' in put_in(PAGE, "v", "", is_lost=True)
    assert "<base" not in put_in(PAGE, "v", "")


def test_without_an_edition_there_is_a_plain_page():
    assert "There is no edition yet." in plain_page("")
    assert "&lt;b&gt;" in plain_page("<b>")
