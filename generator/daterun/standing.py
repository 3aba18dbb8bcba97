"""The edition that stands: where nothing has changed since it was made, a look at the files' stamps tells.

No file is opened for it. What is remembered is one digest of the stamps of all that an edition is made from, and
one of those of all that it consists of; losing it costs a build, nothing else. Coins' files are told apart, so
that where nothing else has changed, other notes in a few of them can be taken up by themselves.
"""

import json
import sys
import time
from collections.abc import Iterable, Mapping
from contextlib import suppress
from dataclasses import asdict, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from daterun.bundled import themes_folder
from daterun.looks import Look, digest_of_stamps
from daterun.press.folders import PRINTED, choose_output, memory_of
from daterun.problems import Place, Problem, Severity
from daterun.readers.reader import Reader
from daterun.records.stamps import has_settled
from daterun.result import BuildResult, Progress, silent
from daterun.sealed import seal, unseal

if TYPE_CHECKING:
    from daterun.desk import Desk
    from daterun.noting import Renoted


def bring_up_to_date(
    folder: Path, reader: Reader, output: Path | None = None, progress: Progress = silent, web: str = ""
) -> BuildResult:
    """Build an edition as ``site.build`` does, unless it stands and nothing that it is made from has changed.

    Raise CannotContinue as that does.
    """
    standing = look(folder, reader, output, web)
    last = standing.last_result()
    if last is not None:
        return last
    from daterun.press.turns import taking_turns

    with taking_turns(folder, reader.value, standing.root):  # which the build within does for itself again
        renoted = _with_other_notes(folder, reader, standing)
        if renoted is not None:
            standing.remember(renoted.result, renoted.desk, renoted.changed)
            return renoted.result
        from daterun.site import build_with

        built = build_with(folder, reader, standing.root, progress, web)
        standing.remember(built.result, built.desk)
    return built.result


def _with_other_notes(folder: Path, reader: Reader, standing: "Standing") -> "Renoted | None":
    """Take up other notes of coins where nothing else has changed; None where it has."""
    last = standing.last_result(but_for_coins=True)
    if last is None:
        return None
    from daterun.noting import take_up_notes

    memory = memory_of(folder, reader.value, standing.root)
    return take_up_notes(folder, reader.value, memory, standing.coins, last)


def look(folder: Path, reader: Reader, output: Path | None = None, web: str = "") -> "Standing":
    """Look at all that an edition is made from. Raise CannotContinue as ``site.build`` does for its folder."""
    root = choose_output(folder, reader.value, output)
    memory = memory_of(folder, reader.value, root).with_suffix(".standing")
    return Standing(folder, root, memory, (reader.value, web))


class Standing:
    """A look at all that an edition is made from, taken before a build reads any of it.

    The memory is the file in which is remembered what stands; the wishes are what the build was asked for.
    """

    def __init__(self, folder: Path, root: Path, memory: Path, wishes: Iterable[str]) -> None:
        self.root = root
        self.memory = memory
        now = time.time_ns()
        content, rest = Look(_is_coin), Look()
        content.at_tree(folder / "content")
        rest.note(str(folder.resolve()), str(root), sys.version, *wishes)
        for each in (folder / "themes", themes_folder(), Path(__file__).parent):
            rest.at_tree(each)
        for place in sys.path:
            rest.at_place(place)
        is_settled = content.can_tell and has_settled(max(content.newest_ns, rest.newest_ns), now)
        self._rest = f"{content.digest} {rest.digest}" if is_settled and rest.can_tell else ""
        self.coins = {
            f"content/{address}": stamp if has_settled(newest_ns, now) else ""
            for address, (stamp, newest_ns) in content.apart.items()
        }
        stamps = "\n".join(f"{path} {stamp}" for path, stamp in self.coins.items())
        self._of_coins = digest_of_stamps(stamps) if all(self.coins.values()) else ""
        self._edition: Look | None = None

    def last_result(self, but_for_coins: bool = False) -> BuildResult | None:
        """Give what the last build came to, with nothing made; None where anything is not as it was then.

        Where it is said, the files of coins may be others. The look at the edition is kept for ``remember``.
        """
        if not self._rest or not (self._of_coins or but_for_coins):
            return None
        try:
            stored = json.loads(unseal(self.memory.read_text(encoding="utf-8")))
            if stored["rest"] != self._rest or (stored["of coins"] != self._of_coins and not but_for_coins):
                return None
            self._edition = _look_at_edition(self.root)
            if not self._edition.can_tell or stored["stands"] != self._edition.digest:
                return None
            return BuildResult(
                tuple(_problem(each) for each in stored["problems"]),
                int(stored["coins"]),
                self.root,
                int(stored["pages"]),
                strangers=tuple(str(each) for each in stored["strangers"]),
            )
        except (OSError, ValueError, KeyError, TypeError, AttributeError, RecursionError):
            return None

    def remember(
        self, result: BuildResult, desk: "Desk | None" = None, changed: Iterable[str] | None = None
    ) -> None:
        """Remember an edition that was made whole, and its desk; what cannot be written is let go.

        The changed are the addresses of the files that are other ones, or gone, since the last result was asked
        for; None where all may be.
        """
        from daterun.desk import DESK, clear_desk, write_desk

        with suppress(OSError):
            self.memory.unlink(missing_ok=True)
            if desk is None:
                clear_desk(self.memory)
            if result.has_errors or not self._rest:
                return
            if desk is not None:  # before what tells that it counts
                write_desk(self.memory.with_suffix(DESK), replace(desk, stamps=self.coins))
            stored = {
                "rest": self._rest,
                "of coins": self._of_coins,
                "stands": self._look_again(changed),
                "problems": [asdict(each) for each in result.problems],
                "coins": result.coins,
                "pages": result.pages_total,
                "strangers": result.strangers,
            }
            self.memory.parent.mkdir(parents=True, exist_ok=True)
            new = self.memory.with_name(f"{self.memory.name}.new")
            new.write_text(seal(json.dumps(stored)), encoding="utf-8")
            new.replace(self.memory)

    def _look_again(self, changed: Iterable[str] | None) -> str:
        """Look at the edition as it stands now: all of it, or where files have changed since the last look."""
        if self._edition is None or changed is None:
            self._edition = _look_at_edition(self.root)
        else:
            self._edition.again(self.root, changed)
        return self._edition.digest


def _is_coin(address: str) -> bool:
    """Tell whether a file is read as a coin's; hidden ones are not."""
    return address.startswith("coins/") and address.endswith(".md") and "/." not in address


def _look_at_edition(root: Path) -> Look:
    """Look at an edition as it stands, but for what is printed into it."""
    edition = Look(is_passed_over=lambda address: PRINTED.fullmatch(address) is not None)
    edition.at_tree(root)
    return edition


def _problem(stored: Mapping[str, Any]) -> Problem:
    return Problem(
        str(stored["rule"]),
        str(stored["sentence"]),
        Place(**stored["place"]),
        str(stored["hint"]),
        Severity(stored["severity"]),
        tuple(Place(**each) for each in stored["others"]),
    )
