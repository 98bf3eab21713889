"""The blends of `clock -- blend` by HiGHS: pip install highspy; python benches/peers/blend_highs.py NUMBERS.json

NUMBERS.json is what `cargo run --release -p lamella-benches --example blend_numbers` prints: cost, limits and conditions
of each blend in whole per cents. Only the solver is timed, on a model that is built afresh each time, as on our side;
reading the document is on neither side.
"""

import json
import statistics
import sys
import time

import highspy


def solve(blend, whole):
    highs = highspy.Highs()
    highs.setOptionValue("output_flag", False)
    highs.setOptionValue("threads", 1)
    highs.setOptionValue("mip_rel_gap", 0.0)
    highs.setOptionValue("mip_abs_gap", 1e-9)
    scale = 100.0 if whole else 1.0
    count = len(blend["cost"])
    lp = highspy.HighsLp()
    lp.num_col_ = count
    lp.num_row_ = len(blend["conditions"]) + 1
    lp.col_cost_ = [cost / scale for cost in blend["cost"]]
    lp.col_lower_ = [lo * scale for lo in blend["lo"]]
    lp.col_upper_ = [hi * scale for hi in blend["hi"]]
    lp.row_lower_ = [scale] + [0.0] * len(blend["conditions"])
    lp.row_upper_ = [scale] + [highspy.kHighsInf] * len(blend["conditions"])
    lp.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    starts, index, values = [0], list(range(count)), [1.0] * count
    starts.append(len(index))
    for row in blend["conditions"]:
        for fat, gain in enumerate(row):
            if gain != 0.0:
                index.append(fat)
                values.append(gain)
        starts.append(len(index))
    lp.a_matrix_.start_, lp.a_matrix_.index_, lp.a_matrix_.value_ = starts, index, values
    if whole:
        lp.integrality_ = [highspy.HighsVarType.kInteger] * count
    highs.passModel(lp)
    highs.run()
    assert highs.getModelStatus() == highspy.HighsModelStatus.kOptimal
    return highs.getInfo().objective_function_value


def main():
    with open(sys.argv[1], encoding="utf-8") as file:
        blends = json.load(file)
    for found_here in blends:
        numbers = found_here["numbers"]
        blend = {
            "cost": [float(value) for value in numbers["cost"]],
            "lo": [float(value) for value in numbers["lo"]],
            "hi": [float(value) for value in numbers["hi"]],
            "conditions": [[float(value) for value in row] for row in numbers["conditions"]],
        }
        for case, whole, times in (("any-shares", False, 300), ("whole-per-cents", True, 60)):
            found = solve(blend, whole)
            ours = float(found_here[case])
            assert abs(found - ours) <= 1e-7 * max(1.0, abs(found)), (found, ours)
            taken = []
            for _ in range(times):
                start = time.perf_counter()
                solve(blend, whole)
                taken.append(time.perf_counter() - start)
            middle = statistics.median(taken) * 1e6
            print(f"{found_here['name']}/{case}: {middle:.0f} us (median of {times}), cost {found:.9f}")


if __name__ == "__main__":
    main()
