"""What the preview's server puts into pages: problems over them, and a script that follows changes."""

from html import escape

STYLE = """
#daterun-problems { position: fixed; inset: auto 0 0 0; z-index: 2147483647; max-height: 60vh; overflow: auto;
  margin: 0; padding: 1rem 1.5rem; background: #2b1d1a; color: #fbeee6; border-top: 4px solid #c8452f;
  font: 15px/1.45 system-ui, sans-serif; text-align: left; }
#daterun-problems strong { display: block; font-size: 1.05em; }
#daterun-problems pre { margin: .75rem 0 0; font: 13px/1.5 ui-monospace, monospace; white-space: pre-wrap;
  overflow-wrap: anywhere; background: none; color: inherit; border: 0; padding: 0; }
@media print { #daterun-problems { display: none; } }
"""

FOLLOW = """
(function () {
  "use strict";
  var mine = document.currentScript.getAttribute("data-version");
  var source = null;
  function follow() {
    if (source || document.hidden) { return; }
    source = new EventSource("/.daterun/changes");
    source.onmessage = function (event) {
      if (event.data !== mine) { rest(); location.reload(); }
    };
  }
  function rest() { if (source) { source.close(); source = null; } }
  document.addEventListener("visibilitychange", function () {
    if (document.hidden) { rest(); } else { follow(); }
  });
  window.addEventListener("pagehide", rest);
  window.addEventListener("pageshow", follow);
  follow();
})();
"""
"""Browsers open six connections to a host, so that a tab out of sight lets go of its own."""


def put_in(page: str, version: str, problems: str, is_lost: bool = False) -> str:
    """Put the script into a page, and the problems where there are any, as text that cannot be more than text.

    In the page for lost addresses, links that are not whole are made to lead from the root.
    """
    if is_lost:
        page = page.replace("<head>", '<head>\n<base href="/">', 1)
    extra = f'<script src="/.daterun/follow.js" data-version="{escape(version)}"></script>\n'
    if problems:
        extra = f"{_panel(problems)}{extra}"
    before, body_end, after = page.rpartition("</body>")
    return f"{before}{extra}{body_end}{after}" if body_end else page + extra


def plain_page(problems: str, sentence: str = "There is no edition yet.") -> str:
    """Make the page that is shown while there is no edition at all."""
    shown = _panel(problems) if problems else f"<p>{escape(sentence)}</p>\n"
    return (
        '<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n<title>Daterun</title>\n</head>\n'
        f"<body>\n{shown}</body>\n</html>\n"
    )


def _panel(problems: str) -> str:
    return (
        '<link rel="stylesheet" href="/.daterun/problems.css">\n'
        '<div id="daterun-problems" role="alert"><strong>The catalogue has errors; this is the last good edition.'
        f"</strong>\n<pre>{escape(problems)}</pre></div>\n"
    )
