"""Golden values of the residual flow of a vein with a catheter, relative to the empty vein at equal pressure gradient.
Origin: mpmath 1.3.0 at 50 digits, made 2026-11-25.  Run: python3 residual-flow-golden.py > residual-flow-golden.json
Two routes that the program does not take:
  series  S = SUM n exp(-ns)/sinh(nw), term by term, while fewer than 40000 terms are needed
  images  S = 1/2 SUM(m>=0) 1/sinh^2(beta + m w), the same sum seen from the images: 40 terms one by one, then Euler
          and Maclaurin with derivatives by mpmath's taylor
Where both can be had they must agree to 1e-25. Each ratio and offset is the double the program gets, not the decimal."""
import json
import random
from mpmath import mp, mpf, asinh, exp, log, psi, sinh, sqrt, coth

mp.dps = 50


def geometry(k, offset):
    e = offset * (1 - k)
    D = ((1 - e) ** 2 - k**2) * ((1 + e) ** 2 - k**2)
    M = sqrt(D) / (2 * e)
    return D, asinh(M), asinh(M / k)


def by_series(alpha, beta):
    total, n = mpf(0), 1
    while True:
        term = n * exp(-n * (alpha + beta)) / sinh(n * (beta - alpha))
        total += term
        if term < mpf(10) ** -40 * total:
            return total
        n += 1


def by_images(alpha, beta):
    w = beta - alpha
    f = lambda m: 1 / (2 * sinh(beta + m * w) ** 2)
    start = 40
    head = sum(f(mpf(m)) for m in range(start))
    # Euler-Maclaurin by hand from `start`: the integral is (coth - 1)/(2w), the odd derivatives by mpmath's taylor
    x = beta + start * w
    tail = (coth(x) - 1) / (2 * w) + f(mpf(start)) / 2
    series = mp.taylor(f, mpf(start), 27)
    for j in range(1, 14):
        tail -= mp.bernoulli(2 * j) / (2 * j) * series[2 * j - 1]
    return head + tail


worst = mpf(0)


def flow(k, offset):
    global worst
    k, offset = mpf(k), mpf(offset)
    if offset == 0:
        return 1 - k**4 - (1 - k**2) ** 2 / log(1 / k)
    if offset == 1:
        return 1 - k**4 - 4 * k**2 * psi(1, 1 / (1 - k))
    D, alpha, beta = geometry(k, offset)
    terms = 100 / float(2 * beta)
    small_step = beta - alpha < 1.5
    total = by_images(alpha, beta) if small_step else by_series(alpha, beta)
    if small_step and terms < 1500:
        worst = max(worst, abs(by_series(alpha, beta) / total - 1))
    return 1 - k**4 - D / (beta - alpha) - 2 * D * total


ratios = [0.02, 0.05, 0.1, 0.2, 1 / 3, 0.45, 0.5, 0.6, 0.7, 0.8, 0.9, 0.95, 0.97]
offsets = [0.0, 1e-12, 1e-8, 1e-5, 1e-3, 0.01, 0.1, 0.25, 0.5, 0.75] + [1 - 10.0**-p for p in range(1, 13)] + [1.0]
grid = [[k, offset, float(flow(k, offset))] for k in ratios for offset in offsets]
random.seed(11)
scattered = []
for _ in range(300):
    k, offset = random.uniform(0.02, 0.97), random.uniform(0, 1)
    scattered.append([k, offset, float(flow(k, offset))])
# outside the range that is promised to 1e-10: hairs, and catheters that all but fill the vein
beyond = [[k, offset, float(flow(k, offset))]
          for k in (0.001, 0.01, 0.98, 0.99, 0.999, 0.9996, 0.9998, 0.99999) for offset in (0.0, 0.3, 0.9, 0.999, 1.0)]


def sensitivity(k, offset):
    h, k = mpf(10) ** -12, mpf(k)
    return float((log(flow(k * (1 + h), offset)) - log(flow(k * (1 - h), offset))) / (2 * h))


slopes = [[k, offset, sensitivity(k, offset)] for k in (0.02, 0.2, 0.45, 0.8, 0.97) for offset in (0.3, 0.9, 0.99, 1.0)]
assert worst < mpf(10) ** -25, worst
print(json.dumps({"grid": grid, "scattered": scattered, "beyond": beyond, "slopes": slopes}))
