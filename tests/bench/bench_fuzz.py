"""Changes the files of the example catalogue at random and reads and checks what comes of it.

    python tests/bench/bench_fuzz.py 100000
    python tests/bench/bench_fuzz.py 100000 --seed 7

No exception may escape. Printed are the cases, the time, the slowest case and the most memory used.
"""

import random
import resource
import sys
import tempfile
import time
from pathlib import Path

from daterun.checks.catalogue import check_catalogue
from daterun.problems import CannotContinue
from daterun.records.catalogue import read_catalogue

EXAMPLE = Path(__file__).parent.parent / "records" / "example"

PIECES = [
    b"{",
    b"}",
    b"[",
    b"]",
    b": ",
    b"\n",
    b"\n  ",
    b"\t",
    b"- ",
    b"---\n",
    b'"',
    b"'",
    b"#",
    b"&a ",
    b"*a",
]
PIECES += [b"!!x ", b"\0", b"\r", b"\xff", "\ufeff".encode(), b"9" * 30, b"-1", b",", b"|", b"?", b"~", b"%"]
PIECES += [b"0640", "\u2028".encode(), "1891–1906".encode(), b"none", b"[[ort 1891]]", b"1e9999", b"= "]


def mutate(data: bytes, chance: random.Random) -> bytes:
    """Put something in the place of one to four stretches of a file."""
    for _ in range(chance.randint(1, 4)):
        at = chance.randrange(len(data) + 1)
        put = b"".join(chance.choices(PIECES, k=chance.randrange(3))) or data[: chance.randrange(40)]
        data = data[:at] + put + data[at + chance.randrange(40) :]
    return data


def run(cases: int, seed: int) -> None:
    files = {path.relative_to(EXAMPLE): path.read_bytes() for path in EXAMPLE.rglob("*") if path.is_file()}
    chance = random.Random(seed)
    slowest, begun = 0.0, time.perf_counter()
    with tempfile.TemporaryDirectory() as folder:
        root = Path(folder)
        for name, data in files.items():
            (root / name).parent.mkdir(parents=True, exist_ok=True)
            (root / name).write_bytes(data)
        for nth in range(cases):
            name = chance.choice(sorted(files))
            changed = mutate(files[name], chance)
            (root / name).write_bytes(changed)
            started = time.perf_counter()
            try:
                catalogue, _ = read_catalogue(root)
                check_catalogue(catalogue, None)
            except CannotContinue:
                pass
            except Exception:
                print(f"case {nth} of seed {seed}, {name}:\n{changed!r}")
                raise
            slowest = max(slowest, time.perf_counter() - started)
            (root / name).write_bytes(files[name])
    took = time.perf_counter() - begun
    memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024
    print(
        f"{cases:,} cases in {took:.1f} s ({took / cases * 1000:.1f} ms each, the slowest {slowest:.2f} s);"
        f" at most {memory} MB"
    )


if __name__ == "__main__":
    seed = int(sys.argv[sys.argv.index("--seed") + 1]) if "--seed" in sys.argv else 1891
    run(int(sys.argv[1]) if len(sys.argv) > 1 else 100_000, seed)
