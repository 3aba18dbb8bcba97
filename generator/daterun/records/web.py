"""The address at which a site will lie, as a setting or an option gives it."""

from urllib.parse import quote, urlsplit

from daterun.problems import Misread


def parse_web(text: str) -> str:
    """Read the address of the folder in which the site will lie; it ends with a stroke.

    "https://example.org/coins" and "https://example.org/coins/" are the same. Letters that an address cannot
    hold in its path are written as it asks, ü as %C3%BC. Raise Misread for anything else than such a folder.
    """
    if not text.startswith(("https://", "http://")):
        raise Misread(f'"{text}" is not a web address', "it begins with https:// or http://")
    if any(each in " \"'<>\\`{}|^" or not each.isprintable() for each in text):
        raise Misread(f'"{text}" is not a web address', "it has no spaces, quotes or backslashes")
    try:
        parts = urlsplit(text)
        host, _ = parts.hostname, parts.port
    except ValueError as reason:
        raise Misread(
            f'"{text}" is not a web address', "write it as in https://example.org/coins/"
        ) from reason
    if not host or "@" in parts.netloc:
        raise Misread(f'"{text}" names no host', "write it as in https://example.org/coins/")
    if "?" in text or "#" in text:
        raise Misread(f'"{text}" is not the address of a folder', "leave out what follows ? or #")
    folder, _, last = parts.path.rpartition("/")
    if last.endswith((".html", ".htm")):
        rest = f"{parts.scheme}://{parts.netloc}{folder}/"
        raise Misread(f'"{text}" is the address of a page, not of a folder', f"write {rest}")
    path = quote(parts.path.rstrip("/"), safe="/%:@!$&()*+,;=~-._")
    return f"{parts.scheme}://{parts.netloc}{path}/"
