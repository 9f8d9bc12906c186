"""Proves how good plans are: HiGHS on the programmes that people_bench wrote.

Usage: prove.py FOLDER SECONDS. Reads FOLDER/ours.jsonl and FOLDER/NUMBER.lp, and prints one
JSON object a line. Each run starts from our week, stops at a gap of three thousandths of its
worth or after SECONDS, and uses one thread. A run that takes far more time or memory than
that is ended, and what our own search found and bounded stands for it.
"""

import json
import resource
import subprocess
import sys
import time

MEMORY = 3 * 2**30


def programme(folder, number):
    import highspy

    h = highspy.Highs()
    h.setOptionValue("output_flag", False)
    h.setOptionValue("threads", 1)
    h.readModel(f"{folder}/{number}.lp")
    return h


def prove(folder, seconds, ours):
    import numpy as np

    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
    h = programme(folder, ours["number"])
    names = h.getLp().col_names_
    choices = np.array([k for k, name in enumerate(names) if name[0] == "x"], dtype=np.int32)
    start = set(ours["start"])
    chosen = np.array([float(names[k] in start) for k in choices])
    # Our week within the programme: its worth there must be what we say it is.
    fixed = programme(folder, ours["number"])
    fixed.changeColsBounds(len(choices), choices, chosen, chosen)
    fixed.setOptionValue("mip_rel_gap", 0.0)
    fixed.run()
    points = fixed.getInfo().objective_function_value + ours["constant"]
    if abs(points - ours["points"]) > 10:
        return {"mismatch": points}
    h.setSolution(fixed.getSolution())
    h.setOptionValue("mip_rel_gap", 0.0)
    h.setOptionValue("mip_abs_gap", max(1000.0, 0.003 * abs(points)))
    h.setOptionValue("time_limit", seconds)
    h.run()
    info = h.getInfo()
    # Rounded away from each other: neither says more than was proved.
    return {
        "incumbent": int(np.floor(info.objective_function_value + ours["constant"])),
        "bound": int(np.ceil(info.mip_dual_bound + ours["constant"])),
    }


def main():
    folder, seconds = sys.argv[1], float(sys.argv[2])
    for line in open(f"{folder}/ours.jsonl"):
        ours = json.loads(line)
        began = time.time()
        try:
            run = subprocess.run(
                [sys.executable, __file__, folder, str(seconds), "-"],
                input=line,
                capture_output=True,
                text=True,
                timeout=2 * seconds + 20,
            )
            proof = json.loads(run.stdout) if run.returncode == 0 else None
        except subprocess.TimeoutExpired:
            proof = None
        if proof and "mismatch" in proof:
            sys.exit(
                f"person {ours['number']}: worth {ours['points']},"
                f" but {proof['mismatch']} in the programme"
            )
        proof = proof or {"incumbent": ours["points"], "bound": ours["bound"]}
        proof["incumbent"] = max(proof["incumbent"], ours["points"])
        proof["bound"] = min(proof["bound"], ours["bound"])
        proof["number"] = ours["number"]
        proof["fingerprint"] = ours["fingerprint"]
        proof["seconds"] = round(time.time() - began, 1)
        print(json.dumps(proof), flush=True)


if len(sys.argv) == 4:
    print(json.dumps(prove(sys.argv[1], float(sys.argv[2]), json.loads(sys.stdin.readline()))))
else:
    main()
