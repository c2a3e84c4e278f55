"""Compares the number of sheets with what the guillotine packers of a general library find.

The library is rectpack (PyPI, tested with 0.2.2), all its guillotine packers with every order of parts and every
way to choose a sheet. Parts and sheet are enlarged by the kerf, which lays the kerf between parts only. Jobs are
drawn from a seed: one to so many pieces of a top, each a base panel of 20 to 97 by 10 to 30 in and four to eight sides
2 to 3 in high, from sheets of 49 by 97 in with a kerf of 1/8 in.

How to run, from the root of the repository, in an environment with Python 3 and cargo:

    python3 -m venv target/compare
    target/compare/bin/pip install rectpack==0.2.2
    target/compare/bin/python tests/bench/compare_sheets.py [jobs [seed [pieces]]]

Ends with an error if any job takes more sheets than the best packer.
"""

import json
import multiprocessing
import random
import subprocess
import sys

import rectpack
from rectpack import guillotine

SHEET = (49, 97)
KERF = 0.125
# Sizes are whole sixteenths, so the library calculates with whole numbers.
STEPS = 16

PACKERS = [
    getattr(guillotine, f"Guillotine{fit}{split}")
    for fit in ("Bssf", "Blsf", "Baf")
    for split in ("Sas", "Las", "Slas", "Llas", "Maxas", "Minas")
]
ORDERS = [
    rectpack.SORT_AREA,
    rectpack.SORT_PERI,
    rectpack.SORT_DIFF,
    rectpack.SORT_SSIDE,
    rectpack.SORT_LSIDE,
    rectpack.SORT_RATIO,
]
CHOICES = [rectpack.PackingBin.BNF, rectpack.PackingBin.BFF, rectpack.PackingBin.BBF]


def job(chance, pieces):
    """The parts of one job, in inches."""

    def between(least, most):
        return chance.randint(least * STEPS, most * STEPS) / STEPS

    parts = []
    for _ in range(chance.randint(1, pieces)):
        base = (between(20, 97), between(10, 30))
        height = between(2, 3)
        parts.append(base)
        parts += [(base[0] if side % 2 == 0 else base[1], height) for side in range(4)]
        parts += [(between(6, 40), height) for _ in range(chance.randint(0, 4))]
    return parts


def pack(parts, packer, order, choice):
    """How many sheets one packer takes."""
    laid = rectpack.newPacker(
        mode=rectpack.PackingMode.Offline, bin_algo=choice, pack_algo=packer, sort_algo=order, rotation=True
    )
    for width, length in parts:
        laid.add_rect(round((width + KERF) * STEPS), round((length + KERF) * STEPS))
    laid.add_bin(*(round((side + KERF) * STEPS) for side in SHEET), count=float("inf"))
    laid.pack()
    assert len(laid.rect_list()) == len(parts), "the library left a part out"
    return len(laid)


def best(parts):
    """The fewest sheets that any packer takes."""
    tried = [pack(parts, packer, order, choice) for packer in PACKERS for order in ORDERS for choice in CHOICES]
    # Here the library itself chooses the next part, so the order does not matter.
    tried += [pack(parts, packer, ORDERS[0], rectpack.PackingBin.Global) for packer in PACKERS]
    return min(tried)


def ours(jobs):
    """What this program finds."""
    command = ["cargo", "run", "--quiet", "--locked", "--release", "--example", "sheet_jobs"]
    given = json.dumps({"kerf": KERF, "sheet": SHEET, "jobs": jobs})
    return json.loads(subprocess.run(command, input=given, capture_output=True, text=True, check=True).stdout)


def main():
    count, seed, pieces = [int(given) for given in sys.argv[1:]] + [50, 1, 6][len(sys.argv) - 1 :]
    chance = random.Random(seed)
    jobs = [job(chance, pieces) for _ in range(count)]
    found = ours(jobs)
    with multiprocessing.Pool() as pool:
        theirs = pool.map(best, jobs, chunksize=1)
    for number, (parts, here, there) in enumerate(zip(jobs, found, theirs), 1):
        assert here["unplaced"] == 0 and here["least"] <= here["sheets"]
        mark = "fewer" if here["sheets"] < there else "MORE" if here["sheets"] > there else ""
        print(
            f"job {number:3}: {len(parts):2} parts, {here['sheets']} sheets (at least {here['least']}), "
            f"library {there}, {1000 * here['seconds']:.1f} ms {mark}"
        )
    fewer = sum(here["sheets"] < there for here, there in zip(found, theirs))
    more = sum(here["sheets"] > there for here, there in zip(found, theirs))
    proven = sum(here["sheets"] == here["least"] for here in found)
    print(
        f"{count} jobs: fewer sheets in {fewer}, more in {more}; {sum(here['sheets'] for here in found)} sheets "
        f"against {sum(theirs)}; as few as can be, proven, in {proven}"
    )
    sys.exit(more > 0)


if __name__ == "__main__":
    main()
