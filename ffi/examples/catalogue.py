"""Looks through a catalogue of generated recipes, and says how fast that goes.

    python3 catalogue.py [--recipes 100000] [--threads 2] [--answers check|plan]

Prints one line of JSON: recipes, seconds, recipes per second and thread, most memory in MiB, and what was found.
"""
import argparse
import json
import random
import resource
import tempfile
import time
from collections import Counter

import lamella

FATS = [
    "olive-oil", "coconut-oil", "shea-butter", "rapeseed-oil-low-erucic", "sunflower-oil", "castor-oil", "cocoa-butter",
]
ADDITIVES = ["tahini", "honey", "oat-flour", "rose-clay"]


def recipe(number):
    """The recipe of a number; one in a hundred has a problem."""
    chance = random.Random(number)
    fats = chance.sample(FATS, chance.randint(2, 5))
    shares = [100 // len(fats)] * len(fats)
    shares[0] += 100 - sum(shares)
    layers = []
    for index in range(chance.randint(1, 5)):
        layer = {"layer": f"Layer {index + 1}", "share": f"{chance.randint(1, 9)} parts"}
        if chance.random() < 0.5:
            layer["doses"] = [{"additive": chance.choice(ADDITIVES), "dose": f"{chance.randint(1, 8)} %"}]
        layers.append(layer)
    superfat = "5" if number % 100 == 99 else f"{chance.randint(3, 12)} %"
    return {
        "lamella": "recipe/1",
        "name": f"Recipe {number}",
        "fats": [{"fat": fat, "share": f"{share} %"} for fat, share in zip(fats, shares)],
        "alkali": {"naoh": {"purity": "99 %"}},
        "superfat": superfat,
        "water": {"lye_concentration": f"{chance.randint(28, 36)} %"},
        "size": {"fat": f"{chance.randint(3, 40) * 100} g"},
        "layers": layers,
    }


def line(number):
    return json.dumps(recipe(number)).encode() + b"\n"


class Findings:
    """What the answers say, counted; the answers themselves are not kept."""

    def __init__(self):
        self.formats = Counter()
        self.codes = Counter()

    def take(self, answer):
        document = json.loads(answer)
        self.formats[document["lamella"]] += 1
        self.codes.update(remark["code"] for remark in document.get("problems") or document.get("cautions") or [])


def main():
    arguments = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    arguments.add_argument("--recipes", type=int, default=100_000)
    arguments.add_argument("--threads", type=int, default=0, help="0: as many as there are processors")
    arguments.add_argument("--answers", choices=["check", "plan"], default="check")
    chosen = arguments.parse_args()
    found = Findings()
    count = 0

    def take(answer):
        nonlocal count
        # Python reads JSON more slowly than the library plans: one answer in fifty is looked into.
        if count % 100 in (0, 99):
            found.take(answer)
        count += 1

    # The catalogue is a file that is read as it is needed, so that memory says what the library takes.
    with tempfile.TemporaryFile() as file:
        file.writelines(map(line, range(chosen.recipes)))
        file.seek(0)
        before = resource.getrusage(resource.RUSAGE_SELF)
        begun = time.perf_counter()
        kind = lamella.CHECK if chosen.answers == "check" else lamella.PLAN
        lamella.stream(file, take, kind, chosen.threads)
        seconds = time.perf_counter() - begun
        used = resource.getrusage(resource.RUSAGE_SELF)
    busy = used.ru_utime + used.ru_stime - before.ru_utime - before.ru_stime
    print(json.dumps({
        "recipes": count,
        "threads": chosen.threads,
        "seconds": round(seconds, 2),
        "per second": round(count / seconds),
        "per second and core": round(count / busy),
        "MiB": used.ru_maxrss // 1024,
        "looked into": dict(found.formats),
        "most frequent": dict(found.codes.most_common(3)),
    }))
    assert count == chosen.recipes


if __name__ == "__main__":
    main()
