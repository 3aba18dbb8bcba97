"""QR codes as rows of pixels, for the templates to draw."""

import segno

QUIET = 4
"""Modules of white that ISO/IEC 18004 asks for on each side of a code."""

BLACK, WHITE = 0, 255


def draw_code(text: str) -> dict[str, object]:
    """Draw a QR code of a text: its width in modules with the quiet zone, and its 8-bit pixels by row."""
    code = segno.make_qr(text, error="m")
    pixels = [BLACK if dark else WHITE for row in code.matrix_iter(scale=1, border=QUIET) for dark in row]
    return {"modules": len(code.matrix) + 2 * QUIET, "pixels": pixels}
