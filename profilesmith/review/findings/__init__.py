"""What the words of one finding are made of: its numbers by name, each shown as people write it."""

from collections.abc import Callable, Mapping
from functools import lru_cache

from profilesmith.checks.amounts import degrees, few, mm, shown, span
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.ledger.judgement import Amount, Finding

DIGITS = 6
Say = Callable[["Numbers"], str]


class Words(NamedTuple):
    """title: what is looked at. say: the sentences; of what was not judged a clause that follows "because".

    asked: that nobody told it the question beside it says already. known: of what was not judged, what can be said all
    the same. short: before, after, limit, headroom where they are not simply the numbers of these names. whole: of what
    was not judged, sentences as they stand. ask: a question that no fact asks.
    """

    title: str
    say: Say
    asked: bool = False
    known: Say | None = None
    short: Callable[["Numbers"], Mapping[str, str]] | None = None
    whole: bool = False
    ask: str = ""


def fixed(text: str) -> Say:
    """Sentences without a number."""
    return lambda _: text


class Numbers:
    """A finding's numbers, names and codes, for the sentences about it."""

    def __init__(self, finding: Finding) -> None:
        self.check = finding.check
        self.reason = finding.reason
        self.verdict = finding.verdict
        self.also = finding.also
        self.settings = finding.settings
        self.names = finding.names
        self.amounts = {item.name: item for item in finding.amounts}

    def __getitem__(self, name: str) -> str:
        """``205 °C``."""
        return show(self.amounts[name])

    def number(self, name: str) -> float:
        """A bare number, to be counted with."""
        return self.amounts[name].low

    def ends(self, name: str) -> str:
        """``40 to 45 °C``: both ends as they are, nothing rounded outward."""
        item = self.amounts[name]
        return f"{few(item.low, DIGITS)} to {few(item.high, DIGITS)} {item.unit}"

    def span(self, name: str, scale: float = 1.0, unit: str | None = None) -> str:
        """``1 to 2.3 mm``, rounded outward; few digits also where both ends are one."""
        item = self.amounts[name]
        return span(item.low * scale, item.high * scale, item.unit if unit is None else unit)

    def rounded(self, name: str) -> str:
        """A length to a tenth: ``12.3 mm``."""
        return mm(round(self.amounts[name].low, 1))

    def get(self, name: str) -> str:
        """The same; "" for a number that is not known."""
        return self[name] if name in self.amounts else ""


def not_judged(check: str, title: str, reason: str, ask: str = "", settings: tuple[str, ...] = ()) -> Finding:
    """A finding in words. reason: a clause that follows "because"."""
    text = f"Not judged, because {reason}."
    beside = f"{begun(reason)}."
    return Finding(
        check, "not judged", title, text, ask=ask, settings=settings, beside_question=beside, reason="not-known"
    )


def sentences(*parts: str) -> str:
    """One behind the other; "" where there is none to say."""
    return " ".join(part for part in parts if part)


def not_told(numbers: Numbers) -> str:
    """That a setting is missing, as a clause."""
    return f"the text does not tell {numbers.settings[0]}"


def begun(text: str) -> str:
    """With a large first letter; the rest stays as it is."""
    return text[:1].upper() + text[1:]


@lru_cache(maxsize=4096)  # one number stands in a sentence and beside it, and in many derivations of a batch
def show(amount: Amount) -> str:
    """``205 °C``, ``1.26 mm``, ``1 to 2.3 mm/s``."""
    if amount.low != amount.high and amount.unit in ("°C", "mm") and amount.name == "allowed":
        ends = [show(amount._replace(low=end, high=end)) for end in (amount.low, amount.high)]
        return f"{ends[0].removesuffix(f' {amount.unit}')} to {ends[1]}"
    if amount.low != amount.high:
        return span(amount.low, amount.high, amount.unit)
    if amount.unit == "°C":
        return degrees(amount.low)
    if amount.unit == "°":
        return f"{amount.low:.0f}°"
    return mm(amount.low) if amount.unit == "mm" else shown(amount.low, amount.unit)
