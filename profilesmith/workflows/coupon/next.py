"""The next prints: their recipes, and an order for batch where the plan names what is derived."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from profilesmith.coupon.as_recipe import freed, print_name, print_recipe
from profilesmith.coupon.log import CouponPrint, LogLine
from profilesmith.coupon.plan import Plan
from profilesmith.coupon.prints_to_make import belief_of, goal_of, next_prints, scale_of
from profilesmith.coupon.search import State, standing
from profilesmith.foundation import toml_reader
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.problem import Problem, refuse_if
from profilesmith.foundation.toml_values import pair_lines
from profilesmith.recipe.recipe import Recipe
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.coupon.files import Coupon, add_lines, day, mark, read_coupon
from profilesmith.workflows.coupon.label import AboveLabel, above_label, facts_of
from profilesmith.workflows.read import read_recipes
from profilesmith.write_files import outputs_free, write_whole


class Next(NamedTuple):
    """prints: open now, old ones first. recipes: for each print the recipes it is derived with, of a blind pair left
    and right.

    careful: where the plan goes past the spool's label. written: files that were written.
    order: the order for batch, None where the plan does not name bases and map.
    state: why there is none, where there is none.
    """

    coupon: Coupon
    prints: tuple[CouponPrint, ...]
    recipes: tuple[tuple[tuple[str, ...], ...], ...]
    written: tuple[Path, ...]
    order: Path | None
    state: State
    careful: tuple[AboveLabel, ...] = ()


def next_of(name: str, count: int = 1, anyway: bool = False, library: Path | None = None, date: str = "") -> Next:
    """Ask for prints until ``count`` are open, and write their recipes beside the plan. Raises Refused.

    anyway: also where the plan's stop says that it is enough, or that it will not get there.
    """
    coupon = read_coupon(name)
    plan, vocabulary = coupon.plan, load_vocabulary()
    state = state_of(coupon)
    wanted = count - len(coupon.open) if state == "go on" or (anyway and state != "most") else 0
    new = next_prints(plan, coupon.made, wanted, vocabulary) if wanted > 0 else []
    prints = (*coupon.open, *new)
    problems: list[Problem] = []
    loaded = read_recipes(plan_recipes(coupon), library, problems)
    refuse_if(problems)
    files, words = _recipe_files(coupon, loaded)
    all_words = []
    for item in prints:
        sides = [("", item.values)] if not item.other else [("left", item.values), ("right", item.other)]
        names = [print_name(plan, item.number, side) for side, _ in sides]
        for (_, values), stem in zip(sides, names, strict=True):
            files[coupon.path.with_name(f"{stem}.toml")] = print_recipe(plan, stem, values).encode()
        all_words.append(tuple((*words, f"{stem}.toml") for stem in names))
    order = _order_place(plan, coupon, prints)
    if order is not None:
        files[order] = _order(plan, prints, all_words).encode()
    if prints:
        _write(files)
    if new:
        today = day(date)
        add_lines(
            coupon, [LogLine("asked", plan.name, item.number, today, mark(), item.values, item.other) for item in new]
        )
    careful = tuple(above_label(plan, facts_of(plan, coupon.path.parent, library))) if prints else ()
    placed = (tuple(files), order) if prints else ((), None)
    return Next(coupon, prints, tuple(all_words), *placed, state, careful)


def state_of(coupon: Coupon) -> State:
    """Whether it is worth going on."""
    plan, graded = coupon.plan, len(coupon.made) - len(coupon.open)
    if plan.kind != "threshold":
        return "most" if graded >= plan.stop.most else "go on"
    vocabulary = load_vocabulary()
    scale = scale_of(plan, vocabulary)
    return standing(belief_of(plan, coupon.made, vocabulary), graded, goal_of(plan, scale), scale.ends).state


def plan_recipes(coupon: Coupon) -> list[str]:
    """The plan's recipes, files as seen from here."""
    return [_from_here(coupon, word) for word in coupon.plan.recipes]


def _from_here(coupon: Coupon, word: str) -> str:
    is_file = bool(Path(word).suffix) or "/" in word
    return str(coupon.path.parent / word) if is_file else word


def _recipe_files(coupon: Coupon, recipes: Sequence[Recipe]) -> tuple[dict[Path, bytes], list[str]]:
    """Copies of the recipes that speak of the plan's settings, and the words for all of them, as seen from the plan."""
    plan, vocabulary = coupon.plan, load_vocabulary()
    names = [factor.setting for factor in plan.factors]
    # A temperature's window is the spool's, and no coupon goes past it.
    settings = frozenset(name for name in names if vocabulary.settings[name].kind != "temperature")
    groups = {name: group.members for name, group in vocabulary.groups.items()}
    files: dict[Path, bytes] = {}
    words = []
    for recipe, word in zip(recipes, plan.recipes, strict=True):
        if not any(settings & set(rule.settings) for rule in recipe.rules):
            words.append(word)
            continue
        content = toml_reader.loads(recipe.raw.decode("utf-8-sig"))
        name = f"{recipe.name}-for-{plan.name}.toml"
        files[coupon.path.with_name(name)] = freed(content, plan, settings, groups).encode()
        words.append(name)
    return files, words


def _order_place(plan: Plan, coupon: Coupon, prints: Sequence[CouponPrint]) -> Path | None:
    if not (plan.bases and plan.key_map and prints):
        return None
    return coupon.path.with_name(f"{plan.name}-order.toml")


def _order(plan: Plan, prints: Sequence[CouponPrint], words: Sequence[Sequence[tuple[str, ...]]]) -> str:
    """An order of one job a print, each with its recipes and a folder of its own."""
    head = {
        "name": f"Coupon {plan.name}",
        "keymap": plan.key_map,
        "facts": list(plan.facts),
        "start_block": plan.start_block,
    }
    lines = ["format = 1", "", "[order]", *pair_lines({key: value for key, value in head.items() if value})]
    for item, sides in zip(prints, words, strict=True):
        for recipes, side in zip(sides, ("left", "right") if item.other else ("",), strict=True):
            job = {
                "base": list(plan.bases),
                "together": len(plan.bases) > 1,
                "recipes": list(recipes),
                "out": print_name(plan, item.number, side),
            }
            lines += ["", "[[job]]", *pair_lines({key: value for key, value in job.items() if value})]
    return "\n".join(lines) + "\n"


def _write(files: dict[Path, bytes]) -> None:
    """Write what is not there yet or differs: these files are the coupon's own, and are made anew each time."""
    changed = {path: raw for path, raw in files.items() if not path.is_file() or path.read_bytes() != raw}
    refuse_if(outputs_free(changed, (), True))
    refuse_if(write_whole(changed, True))
