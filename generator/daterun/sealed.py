"""What is remembered on disk, sealed: a record that is no longer as it was written counts as none."""

import hashlib

_BEGIN, _THEN = '{"seal":"', '",'
_LENGTH = 32

SEALED = len(_BEGIN) + _LENGTH
"""Signs at the beginning of what is sealed that tell it from anything else that is."""


def seal(facts: str) -> str:
    """Seal a JSON object, given as a text that is not empty of facts; what comes of it is one as well."""
    return f"{_BEGIN}{_digest(facts)}{_THEN}{facts[1:]}"


def unseal(text: str) -> str:
    """Give the JSON object that was sealed. Raise ValueError where it is not as it was."""
    end = len(_BEGIN) + _LENGTH
    facts = "{" + text[end + len(_THEN) :]
    if text != f"{_BEGIN}{_digest(facts)}{_THEN}{facts[1:]}":
        raise ValueError("this is not what was sealed")
    return facts


def _digest(facts: str) -> str:
    return hashlib.blake2b(facts.encode("utf-8", "surrogatepass"), digest_size=_LENGTH // 2).hexdigest()
