"""M11x: whether a club's causes say what they cost where they heat, and move by steps that are worth a print."""

from collections.abc import Iterator

from profilesmith.lint.rule import Fault, LintRule
from profilesmith.lint.subjects import TroublesFile
from profilesmith.vocabulary.load_vocabulary import load_vocabulary


def _heat(file: TroublesFile) -> Iterator[Fault]:
    settings = load_vocabulary().settings
    for cause in file.causes:
        heats = cause.direction == "up" and settings[cause.setting].kind == "temperature"
        if heats and not cause.costs:
            message = f"{cause.setting} is raised ({cause.what}), and it is not said what that costs."
            yield Fault(message, cause.place.line)


def _fine(file: TroublesFile) -> Iterator[Fault]:
    for cause in file.causes:
        step = load_vocabulary().settings[cause.setting].step if cause.setting else None
        if step is not None and cause.direction and cause.step < step:
            yield Fault(f"The step of {cause.setting} is finer than what is worth writing.", cause.place.line)


RULES = (
    LintRule(
        "M110",
        "error",
        "A cause that raises heat says what it costs",
        "More heat gives off more fumes and may pass what the spool stands; whoever reads the advice must be told.",
        'Add costs = "..." to the cause.',
        _heat,
    ),
    LintRule(
        "M111",
        "hint",
        "A step is worth a print",
        "A step below the setting's resolution comes to no other text, and the print would tell nothing.",
        "Take a step that a maker can see.",
        _fine,
    ),
)
