"""Golden values of the normal distribution and of the chance of being within a ratio limit.
Origin: mpmath 1.3.0 (50 digits) and SciPy 1.17.1, made 2026-11-25. Run: python3 normal-golden.py > normal-golden.json"""
import json
import mpmath as mp
from scipy.stats import norm

mp.mp.dps = 50
tails = [[z, float(mp.ncdf(z))] for z in [-37, -30, -20, -10, -6, -4, -3, -2.51, -2.5, -2.49, -1.96, -1, -0.5, -0.01, 0.01, 0.7, 1.2816, 2, 2.5, 3, 5, 8]]
quantiles = [[p, float(mp.sqrt(2) * mp.erfinv(2 * mp.mpf(p) - 1))] for p in [1e-12, 1e-6, 0.001, 0.025, 0.1, 0.25, 0.4, 0.6, 0.9, 0.975, 0.999]]
chances = []
for french in [3, 4, 5, 6]:
    for vein in [2.0, 2.5, 3.0, 3.5, 3.7, 3.8, 4.3, 5.0]:
        for sd in [0.2, 0.3, 0.5]:
            # P(true diameter >= OD / limit), straight from SciPy's survival function
            chances.append([french, vein, sd, float(norm.sf(french / 3 / 0.45, loc=vein, scale=sd))])
print(json.dumps({"tails": tails, "quantiles": quantiles, "chances": chances}))
