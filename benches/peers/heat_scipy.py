"""The same day of the same block by scipy: the semi-discrete system of finite volumes is built here anew from the figures
that `heat_peer` prints, integrated by solve_ivp from pour to pour, and compared in time and temperature.

    pip install scipy
    cargo run --release -p lamella-benches --example heat_peer > block.json
    python3 benches/peers/heat_scipy.py block.json
"""

import json
import sys
import time

import numpy as np
from scipy.integrate import solve_ivp
from scipy.sparse import bmat, coo_matrix, diags, identity

GAS = 8.314462618


def system(block, poured):
    """Conductances between the cells of the rows that are poured, heat capacities and figures of the reaction."""
    columns = block["columns"]
    rows = block["rows"][:poured]
    layers = [block["layers"][layer] for layer, _ in rows]
    dx = block["width"] / 2 / columns
    cells = len(rows) * columns
    heights = np.repeat([height for _, height in rows], columns)
    figure = lambda key: np.repeat([layer[key] for layer in layers], columns)
    conductivity = figure("conductivity")
    volume = heights * dx
    capacity = figure("density") * figure("capacity") * volume
    entries, loss = [], np.zeros(cells)
    for row in range(len(rows)):
        for column in range(columns):
            cell = row * columns + column
            if column + 1 < columns:
                entries.append((cell, cell + 1, conductivity[cell] * heights[cell] / dx))
            else:
                loss[cell] += heights[cell] / (block["side"] + dx / 2 / conductivity[cell])
            half = heights[cell] / 2 / conductivity[cell]
            if row + 1 < len(rows):
                above = cell + columns
                entries.append((cell, above, dx / (half + heights[above] / 2 / conductivity[above])))
            else:
                loss[cell] += dx / (block["top"] + half)
            if row == 0:
                loss[cell] += dx / (block["base"] + half)
    a, b, g = (np.array(part) for part in zip(*entries))
    a, b = a.astype(int), b.astype(int)
    matrix = coo_matrix((np.r_[g, g, -g, -g], (np.r_[a, b, a, b], np.r_[b, a, a, b])), shape=(cells, cells))
    matrix = diags(1 / capacity) @ (matrix - diags(loss))
    source = loss * block["air"] / capacity
    rise = figure("heat") * volume / capacity
    return matrix.tocsr(), source, rise, figure("rate"), figure("seed"), figure("activation")


def integrate(block, method, **options):
    columns = block["columns"]
    temperature, conversion = np.zeros(0), np.zeros(0)
    pours = [layer["at"] for layer in block["layers"]] + [block["until"]]
    shown, evaluations = [], 0
    start = time.perf_counter()
    poured = 0
    for index, (at, until) in enumerate(zip(pours, pours[1:])):
        fresh = sum(1 for layer, _ in block["rows"] if layer == index) * columns
        layer = block["layers"][index]
        temperature = np.r_[temperature, np.full(fresh, layer["temperature"])]
        conversion = np.r_[conversion, np.full(fresh, layer["conversion"])]
        poured += fresh // columns
        matrix, source, rise, rate, seed, activation = system(block, poured)
        cells = len(temperature)

        def slope(_, state):
            t, a = state[:cells], state[cells:]
            speed = rate * np.exp(-activation / GAS * (1 / (t + 273.15) - 1 / 313.15)) * (1 - a) * (seed + a)
            return np.r_[matrix @ t + source + rise * speed, speed]

        if method == "BDF":
            one = identity(cells)
            options["jac_sparsity"] = bmat([[abs(matrix) + one, one], [one, one]])
        times = [when for when in block["times"] if at < when <= until]
        run = solve_ivp(slope, (at, until), np.r_[temperature, conversion], method, t_eval=sorted({*times, until}), **options)
        assert run.success, run.message
        evaluations += run.nfev
        column = run.y[0:cells:columns]
        heights = np.cumsum([0] + [height for _, height in block["rows"][:poured]])
        middles = (heights[:-1] + heights[1:]) / 2
        shown += [np.interp(block["up"], middles, column[:, i]) for i in range(len(times))]
        temperature, conversion = run.y[:cells, -1], run.y[cells:, -1]
    return time.perf_counter() - start, np.array(shown), evaluations


def main():
    with open(sys.argv[1]) as file:
        block = json.load(file)
    own = block["seconds"]
    print(f"lamella: {block['steps']} steps, {own * 1e3:.2f} ms at least")
    for method, rtol, atol in [("BDF", 1e-3, 1e-3), ("BDF", 1e-6, 1e-6), ("RK45", 1e-3, 1e-3), ("LSODA", 1e-3, 1e-3)]:
        seconds, shown, evaluations = min(
            (integrate(block, method, rtol=rtol, atol=atol) for _ in range(3)), key=lambda run: run[0]
        )
        off = np.abs(shown - block["temperatures"]).max()
        print(
            f"{method} rtol {rtol:g}: {seconds:.2f} s, {evaluations} evaluations, "
            f"{seconds / own:.0f} times as long; temperatures within {off:.2f} K"
        )


main()
