"""The same catalogue by way of Dask: partitions of lines go to two local workers, each of which calls the library.

    python3 dask_catalogue.py [--recipes 2000] [--partitions 8]

Wants `dask` and `distributed` (`pip install "dask[distributed]"`).
"""
import argparse
import json

import dask.bag
from distributed import Client, LocalCluster

import catalogue
import lamella


def answers(numbers):
    """The answers to a partition of recipes, in their order."""
    lines = b"".join(map(catalogue.line, numbers))
    return lamella.answer(lines, lamella.CHECK, threads=1).splitlines()


def main():
    arguments = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    arguments.add_argument("--recipes", type=int, default=2000)
    arguments.add_argument("--partitions", type=int, default=8)
    chosen = arguments.parse_args()
    with LocalCluster(n_workers=2, threads_per_worker=1, dashboard_address=None) as cluster, Client(cluster) as client:
        bag = dask.bag.from_sequence(range(chosen.recipes), npartitions=chosen.partitions)
        found = bag.map_partitions(answers).compute()
        workers = len(client.scheduler_info()["workers"])
    # The workers answer as one thread does here.
    assert found == answers(range(chosen.recipes))
    documents = [json.loads(answer) for answer in found]
    problems = sum(document["lamella"] == "problems/1" for document in documents)
    print(json.dumps({"recipes": len(documents), "workers": workers, "with problems": problems}))


if __name__ == "__main__":
    main()
