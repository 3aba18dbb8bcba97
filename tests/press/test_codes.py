"""Codes as rows of pixels."""

from daterun.press.codes import BLACK, QUIET, WHITE, draw_code


def test_a_code_is_square_and_has_its_quiet_zone():
    code = draw_code("ort/1891")
    modules, pixels = code["modules"], code["pixels"]
    assert len(pixels) == modules * modules
    rows = [pixels[nth * modules : (nth + 1) * modules] for nth in range(modules)]
    assert all(set(row) == {WHITE} for row in (*rows[:QUIET], *rows[-QUIET:]))
    assert all(set(row[:QUIET] + row[-QUIET:]) == {WHITE} for row in rows)
    assert rows[QUIET][QUIET : QUIET + 7] == [BLACK] * 7


def test_the_same_text_has_the_same_code():
    assert draw_code("ort/1891") == draw_code("ort/1891")
    assert draw_code("ort/1891") != draw_code("ort/1892")
