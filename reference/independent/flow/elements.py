"""hp Galerkin (spectral element) solver for -Laplace(u) = 1, u = 0 on walls, in physical polar-type coordinates:
X(s,t) = (a(t) + s*g(t))*(cos t, sin t), s in [0,1]. It uses no bipolar coordinates, no images and no series.
Q = integral of u: a Galerkin value never exceeds the exact one and rises with the order.
Origin: NumPy 2.4, SciPy 1.17.1, order 14, made 2026-11-25.  Run: python3 elements.py > elements-golden.json
Gives: flow factors of the eccentric annulus, wall shear and slow area, conductance of walled lumens and of ellipses,
one catheter in an oval vein, two alike in a round one."""
import json
import numpy as np, scipy.sparse as sp, scipy.sparse.linalg as spl
from numpy.polynomial import legendre as L

def gll(p):
    c = np.zeros(p + 1); c[p] = 1
    x = np.concatenate([[-1.], np.sort(L.legroots(L.legder(c)).real), [1.]])
    return x

def lagrange(xn, xq):
    n = len(xn)
    V = L.legvander(xn, n - 1); Vi = np.linalg.inv(V)
    B = L.legvander(xq, n - 1) @ Vi
    D = np.stack([L.legval(xq, L.legder(np.eye(n)[i])) if i else 0 * xq for i in range(n)], 1) @ Vi
    return B, D

class HP:
    """a(t), da(t), g(t), dg(t): inner radius and gap as functions of the polar angle t"""
    def __init__(self, a, da, g, dg, ts, ss, p, dir_s0=True, dir_t0=False, dir_t1=False, mirror_from=None):
        self.dg = dg
        self.a, self.g, self.ts, self.ss, self.p = a, g, np.asarray(ts, float), np.asarray(ss, float), p
        xn = gll(p); xq, wq = L.leggauss(p + 6); B, D = lagrange(xn, xq)
        self.xn = xn
        ns, nt = len(ss) - 1, len(ts) - 1
        Ns, Nt = ns * p + 1, nt * p + 1
        self.Ns, self.Nt = Ns, Nt
        rows, cols, vals = [], [], []
        F = np.zeros(Ns * Nt)
        m = (p + 1)**2
        for j in range(nt):
            ht = (ts[j + 1] - ts[j]) / 2; tq = ts[j] + ht * (1 + xq)
            A, dA, G, dG = a(tq), da(tq), g(tq), dg(tq)
            for i in range(ns):
                hs = (ss[i + 1] - ss[i]) / 2; sq = ss[i] + hs * (1 + xq)
                r = A[None, :] + sq[:, None] * G[None, :]          # radius
                rt = dA[None, :] + sq[:, None] * dG[None, :]       # dr/dt at fixed s
                W = wq[:, None] * wq[None, :] * hs * ht
                Jac = r * G[None, :]
                # |grad u|^2 = u_s^2/G^2 + (u_t - u_s*rt/G)^2/r^2
                css = W * Jac * (1 / G[None, :]**2 + rt**2 / (G[None, :]**2 * r**2)) / hs**2
                cst = -W * Jac * rt / (G[None, :] * r**2) / (hs * ht)
                ctt = W * Jac / r**2 / ht**2
                Bs = np.einsum('qa,rb->abqr', D, B).reshape(m, -1)
                Bt = np.einsum('qa,rb->abqr', B, D).reshape(m, -1)
                B0 = np.einsum('qa,rb->abqr', B, B).reshape(m, -1)
                K = (Bs * css.ravel()) @ Bs.T + (Bt * ctt.ravel()) @ Bt.T
                C = (Bs * cst.ravel()) @ Bt.T
                K += C + C.T
                ids = ((i * p + np.arange(p + 1))[:, None] * Nt + (j * p + np.arange(p + 1))[None, :]).ravel()
                rows.append(np.repeat(ids, m)); cols.append(np.tile(ids, m)); vals.append(K.ravel())
                F[ids] += B0 @ (W * Jac).ravel()
        K = sp.csr_matrix((np.concatenate(vals), (np.concatenate(rows), np.concatenate(cols))), shape=(Ns * Nt,) * 2)
        free = np.ones((Ns, Nt), bool); free[-1] = False
        if mirror_from is not None: free[-1, mirror_from * p + 1:] = True   # a mirror line in place of the wall
        if dir_s0: free[0] = False
        if dir_t0: free[:, 0] = False
        if dir_t1: free[:, -1] = False
        fr = np.flatnonzero(free.ravel())
        u = np.zeros(Ns * Nt)
        u[fr] = spl.spsolve(K[fr][:, fr].tocsc(), F[fr])
        self.u = u.reshape(Ns, Nt); self.Q = F @ u; self.F = F

    def eval(self, i, xs, j, xt):
        """u on element (i,j) at local points; also u_s, u_t in element-local scaling"""
        p = self.p
        U = self.u[i * p:i * p + p + 1, j * p:j * p + p + 1]
        Bs, Ds = lagrange(self.xn, xs); Bt, Dt = lagrange(self.xn, xt)
        return Bs @ U @ Bt.T, Ds @ U @ Bt.T, Bs @ U @ Dt.T

# ------------------------------------------------------------------ geometries
def annulus(k, es, p, nlev=None):
    """half annulus (symmetry), inner centre at the origin, narrowest gap at t=0; Q of the whole"""
    e = es * (1 - k); gap0 = (1 - es) * (1 - k)
    rt = lambda t: np.sqrt(1 - e * e * np.sin(t)**2)
    g = lambda t: gap0 + 2 * e * np.sin(t / 2)**2 - e * e * np.sin(t)**2 / (1 + rt(t))
    dg = lambda t: e * np.sin(t) - e * e * np.sin(t) * np.cos(t) / rt(t)
    a = lambda t: k + 0 * t; da = lambda t: 0 * t
    if es < 0.6:   ts = np.linspace(0, np.pi, 5)
    elif es < 1:
        t0 = np.sqrt(gap0 / max(e * k, 1e-9)) / 2
        ts = [0.]; t = min(t0, 0.5)
        while t < 2.2: ts.append(t); t *= 1.8
        ts.append(np.pi)
    else:
        ts = list(0.01 * 1.8**np.arange(10)); ts = [t for t in ts if t < 2.2] + [np.pi]
    ss = [0, 0.25, 1] if k < 0.35 else [0, 0.5, 1]
    h = HP(a, da, g, dg, ts, ss, p)
    h.Q *= 2
    return h

def nsector(n, ri, half_septum, p):
    """one of n equal lumens of a round bore of radius ri, straight septa of half thickness given"""
    f = np.pi / n; x0 = half_septum / np.sin(f)
    rt = lambda t: np.sqrt(ri**2 - x0**2 * np.sin(t)**2)
    g = lambda t: -x0 * np.cos(t) + rt(t)
    dg = lambda t: x0 * np.sin(t) - x0**2 * np.sin(t) * np.cos(t) / rt(t)
    z = lambda t: 0 * t
    ts = f * (1 - np.array([1, .5, .2, .05, .01, .002, 0.]))
    ss = np.array([0, .001, .006, .03, .12, .4, .75, .93, .985, .997, 1.])
    h = HP(z, z, g, dg, ts, ss, p, dir_t1=True)
    h.Q *= 2
    return h

def ellipse(a, b, p):
    r = lambda t: a * b / np.sqrt((b * np.cos(t))**2 + (a * np.sin(t))**2)
    dr = lambda t: -a * b * (a * a - b * b) * np.sin(t) * np.cos(t) / ((b * np.cos(t))**2 + (a * np.sin(t))**2)**1.5
    z = lambda t: 0 * t
    h = HP(z, z, r, dr, np.linspace(0, np.pi / 2, 5), [0, .02, .2, .6, 1], p, dir_s0=False)
    h.Q *= 4
    return h


def half_oval(b, cx, k, p):
    """catheter of radius k about (cx, 0) in the ellipse with half axes 1 and b: upper half, natural at both ends"""
    def edge(t):
        c, s = np.cos(t), np.sin(t)
        A, H, C = c * c + (s / b) ** 2, cx * c, cx * cx - 1
        return (-H + np.sqrt(H * H - A * C)) / A
    def slope(t):  # on the edge F(x, y) = 1: r' = -F_t / F_r
        c, s, r = np.cos(t), np.sin(t), edge(t)
        x, y = cx + r * c, r * s
        return -(x * -s * r + y / b**2 * c * r) / (x * c + y / b**2 * s)
    z = lambda t: 0 * t
    h = HP(lambda t: k + z(t), z, lambda t: edge(t) - k, slope, np.linspace(0, np.pi, 13), [0, 0.1, 0.4, 1], p)
    return 2 * h.Q, np.pi / 4 * b**3 / (1 + b * b)


def two_alike(d, k, p):
    """catheters of radius k at (d, 0) and (-d, 0) in a round vein: a quarter, with the y axis as a mirror"""
    corner = np.pi - np.arctan2(1, d)
    rt = lambda t: np.sqrt(1 - d * d * np.sin(t) ** 2)
    arc = lambda t: -d * np.cos(t) + rt(t)
    arc_slope = lambda t: d * np.sin(t) - d * d * np.sin(t) * np.cos(t) / rt(t)
    flat = lambda t: -d / np.cos(t)
    flat_slope = lambda t: -d * np.sin(t) / np.cos(t) ** 2
    pick = lambda t, one, other: np.where(t < corner, one(np.minimum(t, corner)), other(np.maximum(t, corner)))
    z = lambda t: 0 * t
    ts = np.concatenate([np.linspace(0, corner, 9), np.linspace(corner, np.pi, 7)[1:]])
    h = HP(lambda t: k + z(t), z, lambda t: pick(t, arc, flat) - k, lambda t: pick(t, arc_slope, flat_slope), ts,
           [0, 0.1, 0.4, 1], p, mirror_from=8)
    return 4 * h.Q, np.pi / 8


def round_ends(pair):
    return float(pair[0] / pair[1])


THRESHOLD = 0.1 / 8  # a tenth of the open vein's mean velocity


def shear_and_slow(k, es, p=14, nt=4000):
    """wall shears (vein least, most, catheter least, most; open vein 1) and share of the blood below the threshold"""
    h = annulus(k, es, p)
    nel, ns = len(h.ts) - 1, len(h.ss) - 1
    xs = np.linspace(-1, 1, 101)
    tv, tc, slow, tot = [], [], 0.0, 0.0
    for j in range(nel):
        t0, t1 = h.ts[j], h.ts[j + 1]
        n = max(40, int(nt * (t1 - t0) / np.pi))
        x = -1 + (2 * np.arange(n) + 1) / n
        xe = np.concatenate([[-1], x, [1]])
        for i, s, out in ((0, 0.0, tc), (ns - 1, 1.0, tv)):
            Us = h.eval(i, np.array([-1.0 if s == 0 else 1.0]), j, xe)[1]
            t = t0 + (t1 - t0) * (xe + 1) / 2
            hs = (h.ss[i + 1] - h.ss[i]) / 2
            out.append(np.abs(Us[0] / hs) / h.g(t) * np.sqrt(1 + (s * h.dg(t) / (h.a(t) + s * h.g(t))) ** 2))
        tm, dt = t0 + (t1 - t0) * (x + 1) / 2, (t1 - t0) / n
        for i in range(ns):
            s = h.ss[i] + (h.ss[i + 1] - h.ss[i]) * (xs + 1) / 2
            U = h.eval(i, xs, j, x)[0]
            R = h.a(tm)[None] + s[:, None] * h.g(tm)[None]
            u0, u1 = U[:-1], U[1:]
            part = np.clip((THRESHOLD - np.minimum(u0, u1)) / np.maximum(np.abs(u1 - u0), 1e-300), 0, 1)
            dA = (R[1:] ** 2 - R[:-1] ** 2) / 2
            slow += np.sum(part * dA) * dt
            tot += np.sum(dA) * dt
    tv, tc = 2 * np.concatenate(tv), 2 * np.concatenate(tc)
    return [float(v) for v in (tv.min(), tv.max(), tc.min(), tc.max(), slow / tot)]


if __name__ == "__main__":
    flow = [
        [k, es, float(annulus(k, es, 14).Q / (np.pi / 8))]
        for k in (0.2, 0.3333, 1 / 3, 0.45, 0.5, 0.6, 0.7, 0.8)
        for es in (0, 0.25, 0.5, 0.75, 0.9, 0.99, 1)
    ]
    # the contact itself is cut away from the mesh, so the least shear when touching is that at the cut
    shear = [[k, es, *shear_and_slow(k, es)] for k in (0.2, 1 / 3, 0.45, 0.6, 0.7) for es in (0, 0.5, 0.9, 1.0)]
    lumens = []
    for french in (3, 4, 5, 6):
        for wall, septum in ((0.25, 0.2), (0.2, 0.15)):
            for n in (2, 3, 4):
                lumens.append([french, wall, septum, n, float(nsector(n, french / 6 - wall, septum / 2, 12).Q)])
    ellipses = [[b, float(ellipse(1, b, 10).Q)] for b in (1, 0.9, 0.75, 0.5, 0.25)]
    ovals = [[b, cx, 0, k, round_ends(half_oval(b, cx, k, 14))] for b, cx, k in
             ((0.7, 0, 0.3), (0.7, 0.4, 0.3), (0.5, 0.2, 0.25), (0.9, 0.35, 0.45), (0.6, -0.5, 0.2))]
    pairs = [[d, k, round_ends(two_alike(d, k, 14))] for d, k in ((0.4, 0.2), (0.5, 0.3), (0.6, 0.25), (0.35, 0.3), (0.7, 0.15))]
    print(json.dumps({"ovals": ovals, "pairs": pairs, "flow": flow, "shear": shear, "lumens": lumens, "ellipses": ellipses}))
