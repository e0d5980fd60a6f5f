"""`car`: pick a car; it stays picked."""

from __future__ import annotations

import click

from fitlore.cli.counter import Counter, car_named, open_counter, shared_options
from fitlore.cli.failure import CouldNot
from fitlore.cli.root import Page
from fitlore.model.platform import Car
from fitlore.report.cars import car_lines, cars_lines
from fitlore.report.text import show


@click.command("car", cls=Page)
@click.argument("words", nargs=-1)
@click.option("--none", "nothing", is_flag=True, help="Pick no car.")
@shared_options
def command(
    folder: str | None, words: tuple[str, ...], nothing: bool, car_name: str | None, as_json: bool
) -> int:
    """Pick a car, or show which is picked."""
    counter = open_counter(folder, car_name)
    if nothing and (words or car_name):
        raise CouldNot("pick a car or none, not both")
    if nothing:
        counter = counter.pick(None)
    elif words or car_name:
        counter = counter.pick(_named(counter, " ".join(words) or car_name or ""))
    if as_json:
        _print_json(counter)
    elif counter.car is not None:
        show(car_lines(counter.car, counter.graph.jobs_of(counter.car.car)))
    else:
        show(cars_lines(counter.graph.cars()))
    return 0 if counter.car or nothing else 1


def _named(counter: Counter, words: str) -> Car:
    if not words.strip():
        raise CouldNot("no car was named; `fitlore car` alone says which is picked")
    return car_named(counter.graph, words)


def _print_json(counter: Counter) -> None:
    from fitlore.report.machine import dump

    def one(car: Car) -> dict[str, object]:
        return {
            "car": car.car,
            "name": car.name,
            "platform": car.is_,
            "facts": {name: list(fact.value) for name, fact in car.facts.items()},
            "really-on-it": {at: found.number or found.from_ for at, found in car.really_on_it.items()},
            "not-looked-at": list(car.not_looked_at),
            "line": str(car.origin),
        }

    picked = counter.car.car if counter.car else None
    click.echo(dump({"picked": picked, "cars": [one(car) for car in counter.graph.cars()]}), nl=False)
