"""Computes a plate with a rectangular hole by an independent finite-element library.

The library is scikit-fem (PyPI, tested with 12.0.2). Its elements share nothing with the one of this program: Morley's
(w at the corners, its slope at the middle of each side) and Argyris' (quintic, with continuous slopes). The plate is
60 by 22 with a hole of 17 by 15 whose front rail is 2.5, an even load of 1, Poisson's ratio 0.2, its short ends held in
deflection alone and its stiffness 1, so that moments come out in these units. Printed are

    the mean of the moment along the plate over the front rail, amid the hole,
    the mean of the largest moment over a thickness of 1.5, from a corner of the hole straight across the rail in front
    of it, and across the one behind,

for edges of that length; Argyris' element loses its digits to round-off on finer ones. tests/handbook/plates.rs holds this program against them.

How to run, from the root of the repository, in an environment with Python 3:

    python3 -m venv target/compare
    target/compare/bin/pip install scikit-fem==12.0.2
    target/compare/bin/python tests/bench/compare_plates.py

Ends with an error if the two elements differ by more than 0.1 % in the rail's moment.
"""

import sys

import numpy as np
from skfem import Basis, BilinearForm, ElementTriArgyris, ElementTriMorley, LinearForm, MeshTri, condense, solve
from skfem.helpers import dd, ddot, eye, trace

POISSON = 0.2
LENGTH, DEPTH = 60.0, 22.0
HOLE, RAIL = (17.0, 15.0), 2.5
THICKNESS = 1.5
LEFT = (LENGTH - HOLE[0]) / 2


@BilinearForm
def bending(u, v, _):
    return ddot((1 - POISSON) * dd(u) + POISSON * eye(trace(dd(u)), 2), dd(v))


@LinearForm
def even(v, _):
    return 1.0 * v


def mesh(edge):
    """Right triangles in lines that run through the sides of the hole."""

    def lines(*stops):
        parts = [np.linspace(a, b, round((b - a) / edge) + 1) for a, b in zip(stops, stops[1:])]
        return np.unique(np.concatenate(parts))

    whole = MeshTri.init_tensor(lines(0, LEFT, LEFT + HOLE[0], LENGTH), lines(0, RAIL, RAIL + HOLE[1], DEPTH))
    x, y = whole.p[:, whole.t].mean(axis=1)
    in_hole = (x > LEFT) & (x < LEFT + HOLE[0]) & (y > RAIL) & (y < RAIL + HOLE[1])
    return whole.remove_elements(np.nonzero(in_hole)[0])


class Plate:
    """The plate, solved with one kind of element."""

    def __init__(self, edge, element):
        self.mesh, self.element = mesh(edge), element
        self.basis = Basis(self.mesh, element, intorder=6)
        ends = [
            self.mesh.facets_satisfying(lambda x, at=at: np.isclose(x[0], at), boundaries_only=True)
            for at in (0, LENGTH)
        ]
        # Along the ends the deflection is held, and with it what of its derivatives runs along them.
        held = self.basis.get_dofs(np.concatenate(ends)).all(["u", "u_y", "u_yy"])
        system, load = bending.assemble(self.basis), even.assemble(self.basis)
        self.deflection = solve(*condense(system, load, D=held))

    def moments(self, x, y):
        """Mx, My and Mxy at these points."""
        mapping = self.mesh.mapping()
        cells = self.mesh.element_finder(mapping=mapping)(x, y)
        local = mapping.invF(np.array([x, y])[:, :, None], tind=cells)
        curvature = np.zeros((2, 2, len(x)))
        for number, dofs in enumerate(self.basis.element_dofs[:, cells]):
            shape = self.element.gbasis(mapping, local, number, tind=cells)[0]
            curvature += self.deflection[dofs] * shape.hess[:, :, :, 0]
        along, across, twist = curvature[0, 0], curvature[1, 1], curvature[0, 1]
        return -(along + POISSON * across), -(across + POISSON * along), -(1 - POISSON) * twist

    def rail(self):
        y = (np.arange(400) + 0.5) / 400 * RAIL
        # A little beside the middle, where no line of the mesh runs.
        return self.moments(np.full(400, LENGTH / 2 + 0.013), y)[0].mean()

    def corner(self, start, way):
        across = (np.arange(64) + 0.5) / 64 * THICKNESS
        x, y, twist = self.moments(np.full(64, LEFT + 1e-6), start + way * across)
        return ((x + y) / 2 + np.hypot((x - y) / 2, twist)).mean()


def main():
    last = {}
    for kind, edges in ((ElementTriMorley, (1.0, 0.5, 0.25, 0.125)), (ElementTriArgyris, (1.0, 0.5))):
        for edge in edges:
            plate = Plate(edge, kind())
            last[kind] = plate.rail()
            print(
                f"{kind.__name__:18} edge {edge:<5} {len(plate.deflection):6} unknowns: "
                f"rail {last[kind]:.2f}, corner in front {plate.corner(RAIL, -1):.1f}, behind {plate.corner(RAIL + HOLE[1], 1):.1f}",
                flush=True,
            )
    one, other = last.values()
    sys.exit(int(abs(one - other) > 1e-3 * one))


if __name__ == "__main__":
    main()
