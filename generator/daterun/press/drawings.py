"""A coin without a photo, drawn as SVG: a plain outline with its legend round the rim."""

from html import escape

from daterun.pages.views import Drawing

_LONGEST = 46
"""Letters that fit round the rim at the plain size; a longer legend is squeezed to the length of the path."""


def draw_coin(drawing: Drawing, path_id: str) -> str:
    """Draw a coin as one ``svg`` element; the path id must be the only one of its name on the page."""
    legend, middle = escape(drawing.legend), escape(drawing.middle)
    squeezed = ' textLength="236" lengthAdjust="spacingAndGlyphs"' if len(drawing.legend) > _LONGEST else ""
    rim = (
        f'<path id="{path_id}" d="M50 88a38 38 0 1 1 .01 0" fill="none"/>'
        f'<text class="legend" font-size="7"><textPath href="#{path_id}" startOffset="50%"'
        f' text-anchor="middle"{squeezed}>{legend}</textPath></text>'
        if legend
        else ""
    )
    field = (
        f'<text class="middle" x="50" y="54" font-size="11" text-anchor="middle">{middle}</text>'
        if middle
        else ""
    )
    return (
        f'<svg class="drawing {escape(drawing.tone)}" viewBox="0 0 100 100" width="100" height="100"'
        f' role="img" aria-label="{escape(drawing.text)}"><circle cx="50" cy="50" r="48"/>'
        f'<circle cx="50" cy="50" r="45"/>{rim}{field}</svg>'
    )
