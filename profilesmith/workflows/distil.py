"""Distil: pairs of settings texts to the recipe that explains them, tried by the real engine before it is written."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path

from profilesmith.distil.distil import distil as find_rules
from profilesmith.distil.finding import Distilled
from profilesmith.distil.raw_difference import RawDifference
from profilesmith.distil.replay import Replay, replay, windows_of
from profilesmith.distil.sample import world_of
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.problem import Problem, Refused, refuse_if
from profilesmith.library.run_examples import run_examples
from profilesmith.recipe.load_recipe import load_recipe
from profilesmith.recipe.recipe import Recipe
from profilesmith.review.distilled.written import common_text, replay_comments, tweaks_text
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.pairs import PairsRequest, read_pairs
from profilesmith.write_files import outputs_free, write_whole


class Distillation(NamedTuple):
    """Everything that a report tells. text: the recipe, "" when no rule was found; tweaks: a recipe for each machine.

    alone: the recipe replayed on every pair; together: with each machine's tweaks over it.
    """

    distilled: Distilled
    text: str
    recipe: Recipe | None
    tweaks: Mapping[str, str]
    alone: Replay
    together: Replay
    raw: tuple[RawDifference, ...]
    inputs: tuple[str, ...]


def distil(request: PairsRequest, name: str, licence: str = "CC0-1.0", tweaks_file: str = "") -> Distillation:
    """Find, write as text, read back with the loader, and replay. Raises Refused; writes nothing.

    tweaks_file: where the machines' tweaks will be written; it names their recipes.
    """
    texts = read_pairs(request)
    samples = tuple(text.sample for text in texts)
    vocabulary = load_vocabulary()
    distilled = find_rules(samples, vocabulary)
    samples = distilled.samples
    seen = [item for items in world_of(samples, vocabulary).seen.values() for item in items]
    raw = tuple(difference for item in texts for difference in item.raw)
    text = common_text(distilled, seen, name, licence, raw)
    recipe = _loaded(text) if text else None
    own = tweak_paths(
        tweaks_file or f"{name}.toml",
        [tweak.machine for tweak in distilled.tweaks if tweak.fits],
        alone=bool(tweaks_file),
    )
    tweaks = {
        machine: tweaks_text(distilled, machine, seen, (path.stem, licence), name if text else "")
        for machine, path in own.items()
    }
    tweaks = {machine: text for machine, text in tweaks.items() if text}
    over = {machine: _loaded(text) for machine, text in tweaks.items()}
    base = [recipe] if recipe is not None else []
    windows = windows_of(distilled.findings)
    alone = replay(samples, [base] * len(samples), seen, vocabulary, windows)
    both = [[*base, *([over[sample.machine]] if sample.machine in over else [])] for sample in samples]
    together = replay(samples, both, seen, vocabulary, windows)
    text += replay_comments(alone, samples) if text else ""
    return Distillation(
        distilled, text, recipe, tweaks, alone, together, raw, tuple(file for item in texts for file in item.files)
    )


def _loaded(text: str) -> Recipe:
    """The text through the strict loader, with its own examples run. A failure here is a fault of ours."""
    recipe, problems = load_recipe(text.encode(), "the distilled recipe", load_vocabulary())
    if recipe is None:
        raise Refused(problems)
    faults = [fault for result in run_examples(recipe, load_vocabulary()) for fault in result.faults]
    refuse_if(
        Problem("example", f"An example of the distilled recipe fails: {fault}.", hint="Please report it.")
        for fault in faults
    )
    return recipe


def write(result: Distillation, out: str, tweaks: str, overwrite: bool) -> list[Path]:
    """Write the recipe, and one file of tweaks for each machine that has some. Raises Refused; then nothing was
    written.
    """
    files = {Path(out): result.text.encode()} if out and result.text else {}
    if tweaks:
        files |= {
            path: result.tweaks[machine].encode() for machine, path in tweak_paths(tweaks, tuple(result.tweaks)).items()
        }
    refuse_if(outputs_free(files, map(Path, result.inputs), overwrite))
    refuse_if(write_whole(files, overwrite))
    return list(files)


def tweak_paths(tweaks: str, machines: Sequence[str], alone: bool = True) -> dict[str, Path]:
    """The named file for one machine; for several (or when not alone), with the machine's name before the ending."""
    path, names = Path(tweaks), list(dict.fromkeys(machines))
    if alone and len(names) == 1:
        return {names[0]: path}
    return {machine: path.with_name(f"{path.stem}-{machine}{path.suffix or '.toml'}") for machine in names}
