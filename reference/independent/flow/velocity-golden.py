"""Golden velocities of the blood beside a catheter, relative to the open vein's mean velocity at equal pressure gradient.
Origin: mpmath 1.3.0 at 40 digits, made 2026-11-25.  Run: python3 velocity-golden.py > velocity-golden.json
Off centre: the bipolar series of Piercy, Hooper and Winny, term by term. Touching: the Fourier integral over the strip
between the two tangent circles, by quadrature. Neither uses images. Points lie on rays from the catheter's centre;
x, y in vein radii, the catheter's centre at (e, 0)."""
import json
from mpmath import mp, mpf, asinh, sinh, cosh, cos, exp, log, sqrt, quad, inf, coth, atan2, pi, linspace

mp.dps = 40


def eccentric(k, offset, x, y):
    e = offset * (1 - k)
    M = sqrt(((1 - e) ** 2 - k**2) * ((1 + e) ** 2 - k**2)) / (2 * e)
    a, b = asinh(M), asinh(M / k)
    w = b - a
    X, Y = M * coth(a) - x, y  # measured from the middle of the poles, the narrow side towards them
    eta = log(((X + M) ** 2 + Y**2) / ((X - M) ** 2 + Y**2)) / 2
    xi = atan2(2 * M * Y, X * X + Y * Y - M * M)
    total, n = mpf(0), 1
    while True:
        size = (coth(a) * exp(-n * a) * sinh(n * (b - eta)) + coth(b) * exp(-n * b) * sinh(n * (eta - a))) / sinh(n * w)
        total += cos(n * xi) * size
        if size < mpf(10) ** -28:
            break
        n += 1
    line = coth(a) + (coth(b) - coth(a)) * (eta - a) / w
    u = M * M / 4 * (-1 + 2 * line + 4 * total - (cosh(eta) + cos(xi)) / (cosh(eta) - cos(xi)))
    return 8 * u


def touching(k, x, y):
    X, Y = 1 - x, y  # from the place of contact
    s, t = 2 * X / (X * X + Y * Y), 2 * Y / (X * X + Y * Y)
    f = lambda v: exp(-v / k) * sinh(v * (s - 1)) / sinh(v * (1 / k - 1)) * cos(v * t) if v else (s - 1) / (1 / k - 1)
    h = -(1 - k) * quad(f, linspace(0, 40 * k, 41) + [120 * k])
    return 8 * ((1 - x * x - y * y) / 4 + h)


points = []
for k in (0.1, 0.45, 0.8):
    for offset in (0.02, 0.5, 0.9, 0.99, 1.0):
        e = mpf(offset) * (1 - mpf(k))
        for angle in (0.4, 1.3, 2.2, 3.0):
            for part in (0.1, 0.5, 0.85):
                edge = -e * cos(angle) + sqrt(1 - (e * mp.sin(angle)) ** 2)
                r = k + (edge - k) * part
                x, y = float(e + r * cos(angle)), float(r * mp.sin(angle))
                u = touching(mpf(k), mpf(x), mpf(y)) if offset == 1 else eccentric(mpf(k), mpf(offset), mpf(x), mpf(y))
                points.append([k, offset, x, y, float(u)])
print(json.dumps(points))
