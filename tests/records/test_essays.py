"""Essays: pages of the keeper's own."""


def essay(title, matter=""):
    return f"---\ntitle: {title}\n{matter}---\nText.\n"


def test_an_essay_needs_no_more_than_a_title(read):
    catalogue, problems = read({"pages/on-spelling.md": essay("Two spellings")})
    (found,) = catalogue.essays
    assert problems == []
    assert (found.id, found.title, found.summary, found.on, found.part_of) == (
        "on-spelling",
        "Two spellings",
        "",
        None,
        "",
    )
    assert (found.text, found.text_line) == ("Text.\n", 4)


def test_essays_stand_in_their_own_order_then_by_title(read):
    files = {
        "pages/a.md": essay("Zinc"),
        "pages/b.md": essay("axes"),
        "pages/c.md": essay("Last but first", "order: 1\npart of: reports\n"),
        "pages/notes/d.md": essay("Mints"),
    }
    found = read(files)[0].essays
    assert [each.id for each in found] == ["c", "b", "notes/d", "a"]
    assert found[0].part_of == "reports"


def test_an_essay_without_a_title_gives_no_record(read):
    catalogue, problems = read({"pages/a.md": "---\nsummary: on spelling\n---\n"})
    assert catalogue.essays == ()
    assert catalogue.broken == {"content/pages/a.md"}
    assert [each.sentence for each in problems] == ['an essay needs "title": the title']
