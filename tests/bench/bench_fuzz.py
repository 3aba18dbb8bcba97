"""Changes the files of a small catalogue at random, and reads and checks it, in a process for each core.

    python tests/bench/bench_fuzz.py 100000
    python tests/bench/bench_fuzz.py 100000 --seed 7

No exception may escape. Printed are the cases, the processor time, the slowest case and the most memory.
"""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent / "mutations"))

from spreading import spread


def run(cases: int, seed: int) -> None:
    took = spread(cases, seed)
    done = took["cases"]
    print(
        f"{done:,.0f} cases in {took['all seconds']:.0f} s of the processor"
        f" ({took['all seconds'] / done * 1000:.1f} ms each, the slowest {took['slowest']:.2f} s);"
        f" {took['problems']:,.0f} with problems, {took['cannot continue']:,.0f} that could not go on;"
        f" at most {took['MB']} MB"
    )


if __name__ == "__main__":
    seed = int(sys.argv[sys.argv.index("--seed") + 1]) if "--seed" in sys.argv else 1895
    run(int(sys.argv[1]) if len(sys.argv) > 1 else 100_000, seed)
