"""Bounds for what templates may take: how often they go round and call, for how long, and what they multiply.

A theme may come from a stranger, and a page that is never done is as bad as one that tells too much.
"""

import re
import time
from collections.abc import Callable, Iterable, Iterator
from types import BuiltinMethodType
from typing import Any

from jinja2 import TemplateSyntaxError, nodes
from jinja2.exceptions import SecurityError
from jinja2.runtime import Context, Macro
from jinja2.sandbox import ImmutableSandboxedEnvironment

from daterun.press.fragments import Fragments
from daterun.press.purity import Purity

MOST_ROUNDS = 5_000_000
"""Rounds of loops, calls of macros, and parts of what these make, for one page; none of the demo takes 25,000."""

MOST_SECONDS = 60.0
"""Of the processor, for one page, looked at every so many rounds; a usual page takes some thousandths."""

LONGEST = 1_000_000
"""The length that a text or list may come to, and the bits of a number, by being multiplied."""

_WIDE = re.compile(r"%[^a-zA-Z%]*(?:\d{6}|\*)")
"""A gap of a text that would be filled up to an absurd width, or to one told from outside."""

_LOOK_EVERY, _FEW = 128, 1000

_LETTERS = 16
"""Letters that a macro makes, for which as for one round is counted: what is kept of it might be put together
again and again in few calls."""

_COUNTED = "_counted"
_call = ImmutableSandboxedEnvironment.call


class BoundedEnvironment(ImmutableSandboxedEnvironment):
    """Jinja2's sandbox, in which loops and calls are counted for each page; ``begin`` begins the count anew.

    What pure macros make is kept as fragments.
    """

    intercepted_binops = frozenset(("*", "**", "%"))

    def __init__(self, **options: Any) -> None:
        super().__init__(**options)
        self.filters[_COUNTED] = self._count
        self._own: dict[int, Callable[..., Any]] = {}
        del self.filters["random"], self.globals["lipsum"]  # the same catalogue gives the same bytes
        for name in ("center", "format", "indent"):
            self.filters[name] = _padding(self.filters[name])
        self._purity = Purity()
        self.fragments = Fragments(self._purity.tells)
        self.begin(None)

    def offer(self, **own: Callable[..., Any]) -> None:
        """Offer functions of the program's own to templates; whether they are safe is not asked at each call."""
        self.globals.update(own)
        self._own.update((id(each), each) for each in own.values())

    def begin(self, folder: str | None) -> None:
        """Begin a page in a folder as ``Fragments`` takes it."""
        self.fragments.begin(folder)
        self._rounds = 0
        self._look_at = _LOOK_EVERY
        self._until = time.process_time() + MOST_SECONDS

    def _parse(self, source: str, name: str | None, filename: str | None) -> nodes.Template:
        """Let every loop be counted. A loop that calls itself is refused, for its rounds pass by the count."""
        tree = super()._parse(source, name, filename)
        for loop in tree.find_all(nodes.For):
            if loop.recursive:
                raise TemplateSyntaxError(
                    "a loop may not be recursive; call a macro", loop.lineno, name, filename
                )
            loop.iter = nodes.Filter(loop.iter, _COUNTED, [], [], None, None, lineno=loop.lineno)
        self._purity.learn(tree, name or "", filename or "")
        return tree

    def _count(self, things: Iterable[Any]) -> Iterable[Any]:
        """Count the rounds of a loop: all at once where they are few, as in nearly every loop of a page."""
        if isinstance(things, tuple | list) and len(things) <= _FEW:
            self._rounds += len(things) + 1
            if self._rounds > self._look_at:
                self._look()
            return things
        return self._each(things)

    def _each(self, things: Iterable[Any]) -> Iterator[Any]:
        for each in things:
            self._rounds += 1
            if self._rounds > self._look_at:
                self._look()
            yield each

    def _look(self) -> None:
        self._look_at = self._rounds + _LOOK_EVERY
        if self._rounds > MOST_ROUNDS:
            raise SecurityError(f"more than {MOST_ROUNDS:,} rounds and calls for one page")
        if time.process_time() > self._until:
            raise SecurityError(f"more than {MOST_SECONDS:.0f} seconds for one page")

    def call(__self, __context: Context, __obj: Any, *args: Any, **named: Any) -> Any:  # noqa: N805 - as Jinja2's
        kind = type(__obj)
        if kind is Macro:
            __self._rounds += 1
            if __self._rounds > __self._look_at:
                __self._look()
            named.pop("_block_vars", None)
            named.pop("_loop_vars", None)
            made = __self.fragments.call(__obj, __context.eval_ctx, args, named)
            __self._rounds += len(made) // _LETTERS
            return made
        if id(__obj) in __self._own:
            named.pop("_block_vars", None)
            named.pop("_loop_vars", None)
            return __obj(*args, **named)
        if kind is BuiltinMethodType:
            _check_padding(*args, *named.values())
        return _call(__self, __context, __obj, *args, **named)

    def call_binop(self, context: Context, operator: str, left: Any, right: Any) -> Any:
        """Multiply, but no text, list or number to an absurd length."""
        if operator == "%":
            _check_padding(left)
        if operator == "*":
            sized = next((each for each in (left, right) if isinstance(each, str | bytes | list | tuple)), ())
            times = right if sized is left else left
            if sized and isinstance(times, int) and len(sized) * times > LONGEST:
                raise SecurityError(f"this would be more than {LONGEST:,} long")
        powers = operator == "**" and isinstance(left, int) and isinstance(right, int)
        if powers and left.bit_length() * right > LONGEST:
            raise SecurityError(f"this number would have more than {LONGEST:,} bits")
        return super().call_binop(context, operator, left, right)


def _check_padding(*values: Any) -> None:
    """Refuse what would fill a text up to an absurd width."""
    for each in values:
        if isinstance(each, int) and each > LONGEST:
            raise SecurityError(f"{LONGEST:,} is the largest number that may be handed on")
        if isinstance(each, str) and "%" in each and _WIDE.search(each):
            raise SecurityError("this would fill a text up to an absurd width")


def _padding(plain: Callable[..., Any]) -> Callable[..., Any]:
    """Check what is handed to a filter that fills texts up."""

    def checked(*values: Any, **named: Any) -> Any:
        _check_padding(*values, *named.values())
        return plain(*values, **named)

    return checked
