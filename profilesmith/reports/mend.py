"""What mend says: in words for a terminal, and as data."""

from __future__ import annotations

from collections.abc import Mapping

from profilesmith.engine.mend import Mended
from profilesmith.mend.closed import Closed, Why
from profilesmith.mend.proposal import MendProposal, Move
from profilesmith.mend.troubles import Knowledge
from profilesmith.review.mend_cautions import cautions
from profilesmith.review.mend_costs import cost_lines
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

AGAIN = (
    "It is likelier that nothing is the matter than that a cause known here is: look again, or print it once more as "
    "it is, before anything is changed. If it is still there:"
)
LITTLE = "Little speaks for any one cause now. Of what is left this is the likeliest:"
WHY_NOT: Mapping[Why, str] = {
    "done": "'{name}' is done",
    "no key": "{name} has no key here: by hand",
    "made it worse": "{name} made it worse",
    "open": "'{name}' is open, but little speaks for it",
}


def trouble_lines(known: Knowledge) -> list[str]:
    """All troubles, looks and doings."""
    lines = ["Troubles (--saw TROUBLE=good|fair|poor)"]
    lines += [f"  {item.name:<24} {item.looks}" for item in known.troubles.values()]
    lines += ["", "Looks that tell causes apart (--look SIGN=yes|no)"]
    lines += [f"  {item.name:<30} {item.ask}" for item in known.signs.values()]
    lines += ["", "What is no setting (--did DOING, once it is done)"]
    return [*lines, *(f"  {item.name:<34} {item.how}" for item in known.doings.values())]


def advice_lines(mended: Mended, known: Knowledge) -> list[str]:
    """What to change first, in full; then the next two in a line each; then what cannot be told."""
    seen = mended.so_far.seen
    bad = [f"{name} {grade}" for name, grade in seen.items() if grade != "good"]
    lines = [f"Seen: {', '.join(bad) or 'nothing bad'}."]
    if mended.so_far.gone:
        lines.append(f"Not named any more, so taken as gone: {', '.join(mended.so_far.gone)}.")
    if mended.advice.again:
        lines.append(AGAIN)
    if not mended.proposals:
        return [*lines, *_nothing(mended)]
    lines += [LITTLE] if mended.advice.unlikely else []
    first = next((number for number, item in enumerate(mended.proposals) if not item.do), len(mended.proposals))
    for item in mended.proposals[:first][:2]:
        lines += _doing(item)
    for item in mended.chosen:
        lines += _change(item)
    lines += [f"  {line}" for line in _together(mended)] if mended.chosen else []
    shown = {id(item) for item in mended.proposals[:first][:2]}
    moved = {move.setting for item in mended.chosen for move in item.moves}
    others = (item for item in mended.proposals if id(item) not in shown)
    rest = [item for item in others if moved.isdisjoint(move.setting for move in item.moves)][:2]
    lines += ["Then, if that does not do:"] if rest else []
    lines += [f"  {_in_a_line(item)}" for item in rest]
    return [*lines, *_look(mended, known), *_closed(mended)]


def _nothing(mended: Mended) -> list[str]:
    if all(grade == "good" for grade in mended.so_far.seen.values()):
        return ["Nothing is to be mended."]
    return [
        "No change here is likely to help by more than a print is worth: what is known was tried, or is at its bounds.",
        *_closed(mended),
        (
            "What is left: another spool, the machine itself, or a coupon ('profilesmith coupon plan') "
            "for how far a setting can go."
        ),
    ]


def _closed(mended: Mended) -> list[str]:
    """The causes of what was seen that are not proposed, and why."""
    named = {item.cause.what for item in mended.proposals if item.cause}
    rest = [item for item in mended.closed if item.cause.what not in named]
    lines = [f"  {item.trouble}: {item.cause.what} ({_stands_in_the_way(item, mended)})" for item in rest]
    return ["What else it may come of:", *lines] if lines else []


def _stands_in_the_way(item: Closed, mended: Mended) -> str:
    name = item.cause.do or item.cause.setting
    if item.why == "at its end":
        value = load_vocabulary().settings[name].show(mended.bench.values[name]) if name in mended.bench.values else ""
        return f"{name} {value} is as far as it may go"
    return WHY_NOT[item.why].format(name=name)


def _doing(item: MendProposal) -> list[str]:
    assert item.do is not None
    lines = [f"Before any setting: {item.do.name}{_for(item)}", f"  {item.do.how}"]
    lines += [f"  {item.cause.why} [{item.cause.source}]"] if item.cause else []
    lines += [f"  Careful: {item.do.caution}"] if item.do.caution else []
    return [*lines, f'  When it is done and printed again: --did "{item.do.name}"']


def _together(mended: Mended) -> list[str]:
    """What all that is written costs, and what may hurt somebody with it."""
    moves = [move for item in mended.chosen for move in item.moves]
    careful = cautions(moves, mended.costs.longer)
    return [*_along(mended), *cost_lines(mended.costs), *(f"Careful: {text}" for text in careful)]


def _along(mended: Mended) -> list[str]:
    """What is written beside the moves that were told."""
    named = {move.setting for item in mended.chosen for move in item.moves}
    along = [_move(Move(item.setting, item.before, item.after)) for item in mended.changes if item.setting not in named]
    return [f"Along with it: {'; '.join(along)}"] if along else []


def _change(item: MendProposal) -> list[str]:
    lines = [_in_a_line(item)]
    if item.cause is None or item.trouble is None:
        return [*lines, "  It did no good: back to where it was."]
    main = item.moves[-1]
    lines.append(f"  Why: {item.cause.why} [{item.cause.source}]")
    lines += [f"  Costs: {item.cause.costs}"] if item.cause.costs else []
    lines += [f"  {ends_words(main)}"] if main.low is not None else []
    lines.append(f"  In the next print look at: {item.trouble.name}, that is {item.trouble.looks}.")
    return lines


def _in_a_line(item: MendProposal) -> str:
    if item.do:
        return f"{item.do.name}{_for(item)}"
    moves = "; ".join(_move(move) for move in item.moves)
    return f"{moves}{_for(item)}"


def _for(item: MendProposal) -> str:
    """For which trouble that was seen, and by which cause."""
    return f" ({item.trouble.name}: {item.cause.what})" if item.trouble and item.cause else ""


def _move(move: Move) -> str:
    setting = load_vocabulary().settings[move.setting]
    return f"{move.setting} {setting.show(move.before)} → {setting.show(move.after)}"


def ends_words(move: Move) -> str:
    """How far a setting may go, and where nothing but the vocabulary says so."""
    setting = load_vocabulary().settings[move.setting]
    assert move.low is not None
    assert move.high is not None
    low, high = setting.show(move.low), setting.show(move.high)
    if move.low == setting.low and move.high == setting.high:  # what the vocabulary takes for plausible is no bound
        return "No recipe, spool or machine bounds it."
    if move.low == setting.low:
        return f"Recipes, spool and machine let it go up to {high}; none of them bounds it downward."
    if move.high == setting.high:
        return f"Recipes, spool and machine let it go down to {low}; none of them bounds it upward."
    return f"Recipes, spool and machine let it go from {low} to {high}."


def _look(mended: Mended, known: Knowledge) -> list[str]:
    if not mended.advice.look:
        return []
    sign = known.signs[mended.advice.look]
    return [
        "Cannot be told from what was said; one look would tell most:",
        f'  {sign.ask} (--look "{sign.name}=yes" or no)',
    ]
