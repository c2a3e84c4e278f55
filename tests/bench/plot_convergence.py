"""Draws what finer meshes change, from the table of `plate_jobs convergence`, as convergence.svg beside this script.

On the left a square simply supported all around, against Timoshenko's series; on the right the strip in front of a
rectangular hole, against scikit-fem 12.0.2 with the Argyris element (see compare_plates.py), and the means over one
thickness at the hole's corners, whose stress has no limit. The plotting library is matplotlib (PyPI, tested with
3.10.8).

How to run, from the root of the repository, in an environment with Python 3 and cargo:

    python3 -m venv target/compare
    target/compare/bin/pip install matplotlib==3.10.8
    target/compare/bin/python tests/bench/plot_convergence.py [program]

`program` is the example plate_jobs where it is built already, with whichever profile. Ends with an error unless the
finest mesh is nearer to the series than the coarsest.
"""

import pathlib
import subprocess
import sys

import matplotlib

matplotlib.use("svg")
import matplotlib.pyplot as plt

PROGRAM = ["cargo", "run", "--quiet", "--locked", "--release", "--example", "plate_jobs", "--", "convergence"]
RAIL = 997.3
"""The strip moment of the other library, in the table's units."""


def table(text):
    """The numbers of every row of a table, without the signs of percent."""
    rows = [line.strip("| \n").split("|") for line in text.splitlines() if line.startswith("|")]
    return [[float(cell.strip(" %")) for cell in row] for row in rows[2:]]


def main():
    program = [*sys.argv[1:], "convergence"] if sys.argv[1:] else PROGRAM
    rows = table(subprocess.run(program, capture_output=True, text=True, check=True).stdout)
    grain, nodes, rail, front, behind, square_nodes, deflection, moment = zip(*rows)
    used = grain.index(1.0)

    plt.rcParams.update({"svg.fonttype": "none", "svg.hashsalt": "convergence", "font.size": 9})
    figure, (left, right) = plt.subplots(1, 2, figsize=(8, 3.4), layout="constrained")
    for values, marker, name in [(deflection, "o", "deflection"), (moment, "s", "moment")]:
        left.loglog(square_nodes, [abs(value) for value in values], marker + "-", label=name)
    left.axvline(square_nodes[used], linestyle=":", color="gray", label="the mesh that is used")
    left.set(title="Square plate: off the series", xlabel="nodes", ylabel="%")
    for values, marker, name in [(rail, "o", "strip in front"), (front, "s", "corner in front"), (behind, "^", "corner behind")]:
        reference = RAIL if values is rail else values[-1]
        right.semilogx(nodes, [100 * (value / reference - 1) for value in values], marker + "-", label=name)
    right.axvline(nodes[used], linestyle=":", color="gray", label="the mesh that is used")
    right.set(title="Plate with a hole: off the other library (strip),\noff the finest mesh (corners)", xlabel="nodes", ylabel="%")
    for axes in (left, right):
        axes.grid(True, which="major", linewidth=0.4)
        axes.legend(fontsize=8)
    figure.savefig(pathlib.Path(__file__).with_name("convergence.svg"), metadata={"Date": None})
    nearer = abs(deflection[-1]) < abs(deflection[0]) and abs(moment[-1]) < abs(moment[0])
    sys.exit(0 if nearer else "the finest mesh is no nearer than the coarsest")


if __name__ == "__main__":
    main()
