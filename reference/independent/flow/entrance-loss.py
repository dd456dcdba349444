"""Entrance loss and entrance length of laminar tube flow from a still reservoir.
Origin: NumPy 2.4, SciPy 1.17.1, made 2026-11-25.  Run: python3 entrance-loss.py > entrance-loss-golden.json
Boundary-layer form of developing flow, marched downstream from a flat profile: x in R*Re_R, pressure in rho V^2.
Gives, for three grids, K (loss beyond the developed friction, in half rho V^2) and the length x/(D Re) to 99 % of the
developed centre speed."""
import json
import numpy as np
from scipy.linalg import solve_banded


def entry(N, dx0=1e-9, grow=1.015, xmax=0.5):
    s = np.linspace(0, 1, N + 1)
    f = 1 - (1 - s) ** 2  # faces packed at the wall
    r, area = (f[1:] + f[:-1]) / 2, (f[1:] ** 2 - f[:-1] ** 2) / 2
    u, x, p, dx, L99 = np.ones(N), 0.0, 0.0, dx0, None
    cf, cw = f[1:-1] / np.diff(r), 1.0 / (1 - r[-1])
    while x < xmax:
        un = u.copy()
        for _ in range(4):
            v = np.zeros(N + 1)
            v[1:] = -np.cumsum((un - u) / dx * area) / f[1:]
            v[-1] = 0
            out = (f * v)[1:-1]  # radial mass flux through faces, velocity taken half-way between cells
            ab = np.zeros((3, N))
            ab[1] = un / dx * area
            ab[1][:-1] += cf - out / 2
            ab[0][1:] += -cf + out / 2
            ab[1][1:] += cf + out / 2
            ab[2][:-1] += -cf - out / 2
            ab[1][-1] += cw
            a, b = solve_banded((1, 1), ab, un * u / dx * area), solve_banded((1, 1), ab, area)
            slope = (np.sum(a * area) - 0.5) / np.sum(b * area)
            un = a - slope * b
        u, x, p = un, x + dx, p - slope * dx
        if L99 is None and u[0] >= 0.99 * 2:
            L99 = x / 4
        dx = min(dx * grow, 5e-4)
    return 2 * (p - 8 * x), L99


print(json.dumps([[N, *map(float, entry(N))] for N in (300, 600, 1200)]))
