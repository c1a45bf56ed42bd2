"""A recipe that its loader refuses is still asked what needs no more than its words: so that one run shows its
mistakes.
"""

from collections.abc import Iterable, Iterator, Mapping

from profilesmith.foundation.problem import Problem
from profilesmith.foundation.toml_table import path_text
from profilesmith.lint.finding import LintFinding
from profilesmith.lint.rule import LintRule
from profilesmith.lint.subjects import Lines, RecipeFile

Spoken = set[tuple[str, int | None]]


def of_what_reads(file: RecipeFile, problems: Iterable[Problem], rules: Iterable[LintRule]) -> Iterator[LintFinding]:
    """What rules with a key find in the parts that read. What the loader has spoken of is not told a second time."""
    spoken_of = _spoken_of(problems, file.lines)
    for rule in rules:
        if not rule.key:
            continue
        for fault in rule.find(file):
            if (rule.key, fault.line if rule.key.startswith("rule.") else None) not in spoken_of:
                yield rule.finding(fault, str(file.path))


def _spoken_of(problems: Iterable[Problem], lines: Lines) -> Spoken:
    """``("recipe.title", None)``, ``("rule.why", 12)``: keys of the head, and keys of the rule that begins on a
    line.
    """
    by_text = {path_text(path): line for path, line in lines.items()}
    return {spoken for problem in problems for spoken in _keys(problem, by_text)}


def _keys(problem: Problem, by_text: Mapping[str, int]) -> Iterator[tuple[str, int | None]]:
    """The key that a problem stands at, and the one that it takes for a slip of the pen."""
    table, _, key = problem.place.path.rpartition(", ")
    head = table.partition(" ")[0]
    for name in (key, problem.meant):
        yield f"{head}.{name}" if head else name, by_text.get(table) if head == "rule" else None
