"""Compares the solver of plates with the sparse solver of a general library, on the same systems in the same run.

The library is scipy (PyPI, tested with 1.17.1): splu (SuperLU) in the two orders that suit such systems. The systems are
those of a top with two sinks and six holes at six sizes of mesh, with three unknowns for each node. Times are those of
the processor, in milliseconds, on one thread: the mean of as many as take a fifth of a second. What this program orders,
it orders with its assembly; the library orders with its factor. The library is told neither that blocks are 3 by 3 nor
that the system is positive.

How to run, from the root of the repository, in an environment with Python 3 and cargo:

    python3 -m venv target/compare
    target/compare/bin/pip install scipy==1.17.1
    target/compare/bin/python tests/bench/compare_solvers.py [program]

`program` is the example plate_jobs where it is built already, with whichever profile. Ends with an error if a solution
differs from the library's by more than 1e-6 of its largest number.
"""

import json
import os
import pathlib
import subprocess
import sys
import time

for threads in ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS"):
    os.environ[threads] = "1"

import numpy as np
from scipy.sparse import csc_matrix
from scipy.sparse.linalg import splu

FOLDER = pathlib.Path("target/compare/systems")
PROGRAM = ["cargo", "run", "--quiet", "--locked", "--release", "--example", "plate_jobs", "--"]


def timed(work):
    """What comes of some work, and the mean time of as many as take a fifth of a second."""
    begun, count, taken = time.process_time(), 0, 0.0
    while taken < 0.2:
        found, count = work(), count + 1
        taken = time.process_time() - begun
    return found, 1000 * taken / count


def read(number, what, kind="<f8"):
    return np.fromfile(FOLDER / f"{number}-{what}", dtype=kind)


def main():
    program = sys.argv[1:] or PROGRAM
    told = subprocess.run([*program, "systems", str(FOLDER)], capture_output=True, text=True, check=True).stdout
    print("| nodes | mesh | order, assembly | factor | solve | splu MMD: order, factor | solve | splu COLAMD | differs by |")
    print("| --- | --- | --- | --- | --- | --- | --- | --- | --- |")
    worst = 0
    for number, line in enumerate(told.splitlines()):
        own = json.loads(line)
        load, solution = read(number, "load"), read(number, "solution")
        places = (read(number, "rows", "<u4"), read(number, "columns", "<u4"))
        system = csc_matrix((read(number, "values"), places), shape=(len(load), len(load)))
        symmetric = {"permc_spec": "MMD_AT_PLUS_A", "options": {"SymmetricMode": True}, "diag_pivot_thresh": 0.0}
        factor, factoring = timed(lambda: splu(system, **symmetric))
        theirs, solving = timed(lambda: factor.solve(load))
        _, colamd = timed(lambda: splu(system))
        differs = np.abs(theirs - solution).max() / np.abs(theirs).max()
        worst = max(worst, differs)
        print(
            f"| {own['nodes']} | {own['mesh']:.1f} | {own['assembly']:.1f} | {own['factor']:.1f} | {own['solve']:.1f} "
            f"| {factoring:.0f} | {solving:.1f} | {colamd:.0f} | {differs:.0e} |",
            flush=True,
        )
    sys.exit(int(worst > 1e-6))


if __name__ == "__main__":
    main()
