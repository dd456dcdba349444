"""Golden flow factors of shear-thinning blood past a centred catheter at equal pressure gradient.
Origin: SciPy 1.17.1 (quad, brentq), made 2026-11-25.  Run: python3 shear-thinning-golden.py > shear-thinning-golden.json
Adaptive quadrature and bracketed roots throughout; the program uses fixed Gauss nodes and Newton's rule."""
import json
from math import pi
from scipy.integrate import quad
from scipy.optimize import brentq

LAWS = {"Carreau-Yasuda": (0.056, 0.00345, 1.902, 0.22, 1.25), "Carreau": (0.056, 0.00345, 3.313, 0.3568, 2.0)}


def rate(tau, law):
    m0, mi, lam, n, a = law
    if tau <= 0:
        return 0.0
    f = lambda g: (mi + (m0 - mi) * (1 + (lam * g) ** a) ** ((n - 1) / a)) * g - tau
    return brentq(f, tau / m0 * 0.999, tau / mi * 1.001, xtol=1e-14, rtol=1e-14)


def integral(f, a, b):
    return quad(f, a, b, epsabs=0, epsrel=1e-10, limit=200)[0]


def tube(R, G, law):
    return pi * integral(lambda r: r * r * rate(G * r / 2, law), 0, R)


def annulus(R, k, G, law):
    g = lambda r, c: rate(G / 2 * abs(r - c * c / r), law)
    slip = lambda c: integral(lambda r: g(r, c), k * R, c) - integral(lambda r: g(r, c), c, R)
    c = brentq(slip, k * R * 1.0001, R * 0.9999, xtol=1e-15, rtol=1e-11)
    return pi * (integral(lambda r: r * r * g(r, c), c, R) - integral(lambda r: r * r * g(r, c), k * R, c))


rows = []
for name, law in LAWS.items():
    for D, Q in ((3, 10), (4, 20), (4, 60), (6, 95), (10, 300)):
        R, q = D / 2e3, Q / 6e7
        G = brentq(lambda g: tube(R, g, law) / q - 1, 1, 1e5, rtol=1e-11)
        for k in (1 / 3, 0.45, 0.6):
            rows.append([name, D, Q, k, annulus(R, k, G, law) / q])
print(json.dumps(rows))
