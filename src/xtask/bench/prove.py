"""Proves how good plans are: HiGHS on the programmes that people_bench wrote.

Usage: prove.py FOLDER SECONDS. Reads FOLDER/ours.jsonl and FOLDER/NUMBER.lp, and prints one
JSON object a line. Each run starts from our week and uses one thread. First only the bound is
sought, and the search for better weeks is off; it stops at a gap of nine thousandths of our
week's worth or after SECONDS of the processor. Where that leaves the gap open, half as long is
spent on better weeks. A run that takes far more time or memory is ended, and what our own
search found and bounded stands for it.

Proofs are kept in FOLDER/proved.jsonl: one stands for as long as its programme is the same,
unless it is open and more seconds are given.
"""

import json
import os
import resource
import subprocess
import sys
import time

MEMORY = 3 * 2**30
GAP = 0.009
BOUND_ONLY = {
    "mip_heuristic_effort": 0.0,
    "mip_heuristic_run_feasibility_jump": False,
    "mip_heuristic_run_rins": False,
    "mip_heuristic_run_rens": False,
    "mip_heuristic_run_root_reduced_cost": False,
    "mip_detect_symmetry": False,
    "mip_allow_restart": False,
    "mip_pscost_minreliable": 3,
}


def programme(folder, number):
    import highspy

    h = highspy.Highs()
    h.setOptionValue("output_flag", False)
    h.setOptionValue("threads", 1)
    h.setOptionValue("mip_rel_gap", 0.0)
    h.readModel(f"{folder}/{number}.lp")
    return h


def search(folder, ours, start, seconds, options):
    h = programme(folder, ours["number"])
    for name, value in options.items():
        h.setOptionValue(name, value)
    h.setOptionValue("mip_abs_gap", max(1000.0, GAP * abs(ours["points"])))
    h.setSolution(start)
    began = time.process_time()

    def stop_in_time(event):
        if time.process_time() - began > seconds:
            event.interrupt()

    h.cbMipInterrupt += stop_in_time
    h.run()
    info = h.getInfo()
    return info.objective_function_value + ours["constant"], info.mip_dual_bound + ours["constant"]


def prove(folder, seconds, ours):
    import numpy as np

    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
    most = int(3 * seconds) + 20
    resource.setrlimit(resource.RLIMIT_CPU, (most, most))
    fixed = programme(folder, ours["number"])
    names = fixed.getLp().col_names_
    choices = np.array([k for k, name in enumerate(names) if name[0] == "x"], dtype=np.int32)
    week = set(ours["start"])
    chosen = np.array([float(names[k] in week) for k in choices])
    # Our week within the programme: its worth there must be what we say it is.
    fixed.changeColsBounds(len(choices), choices, chosen, chosen)
    fixed.run()
    points = fixed.getInfo().objective_function_value + ours["constant"]
    if abs(points - ours["points"]) > 10:
        return {"mismatch": points}
    start = fixed.getSolution()
    best, bound = search(folder, ours, start, seconds, BOUND_ONLY)
    if min(bound, ours["bound"]) - best > GAP * abs(points):
        better, lower = search(folder, ours, start, seconds / 2, {})
        best, bound = max(best, better), min(bound, lower)
    # Rounded away from each other: neither says more than was proved.
    return {"incumbent": int(np.floor(best)), "bound": int(np.ceil(bound))}


def kept(folder):
    file = f"{folder}/proved.jsonl"
    if not os.path.exists(file):
        return {}
    proofs = [json.loads(line) for line in open(file)]
    return {(proof["number"], proof["fingerprint"]): proof for proof in proofs}


def main():
    folder, seconds = sys.argv[1], float(sys.argv[2])
    proofs = kept(folder)
    file = open(f"{folder}/proved.jsonl", "a")
    for line in open(f"{folder}/ours.jsonl"):
        ours = json.loads(line)
        proof = proofs.get((ours["number"], ours["fingerprint"]))
        if proof:
            is_open = proof["bound"] - proof["incumbent"] > GAP * abs(proof["incumbent"])
            if is_open and proof["limit"] < seconds:
                proof = None
        if not proof:
            proof = attempt(folder, seconds, ours, line)
            print(json.dumps(proof), file=file, flush=True)
        if proof["bound"] + 10 < ours["points"]:
            sys.exit(f"person {ours['number']}: worth more than the bound {proof['bound']}")
        proof["incumbent"] = max(proof["incumbent"], ours["points"])
        proof["bound"] = min(proof["bound"], ours["bound"])
        print(json.dumps(proof), flush=True)


def attempt(folder, seconds, ours, line):
    began = time.time()
    try:
        run = subprocess.run(
            [sys.executable, __file__, folder, str(seconds), "-"],
            input=line,
            capture_output=True,
            text=True,
            # The processor's time is held to above; a busy machine may be slow.
            timeout=60 * seconds + 60,
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
    proof["number"] = ours["number"]
    proof["fingerprint"] = ours["fingerprint"]
    proof["seconds"] = round(time.time() - began, 1)
    proof["limit"] = seconds
    return proof


if len(sys.argv) == 4:
    print(json.dumps(prove(sys.argv[1], float(sys.argv[2]), json.loads(sys.stdin.readline()))))
else:
    main()
