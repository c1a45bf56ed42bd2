"""For any text: what is suggested loads, binds no key twice, and comes out the same again."""

import itertools
import tomllib
from types import SimpleNamespace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

import profilesmith.suggest.limits as limits_module
import profilesmith.suggest.slots as slots_module
from profilesmith.engine.read import Source
from profilesmith.engine.suggest import load_text, read_back, suggest
from profilesmith.suggest.detect_habits import find_habits, writing_of
from profilesmith.suggest.key_words import LONGEST_NAME
from profilesmith.suggest.load_lexicon import load_lexicon
from profilesmith.suggest.proposal import Suggestion
from profilesmith.suggest.suggest_key_map import Suggester
from profilesmith.suggest.write_map import new_map
from profilesmith.text.document import Document
from profilesmith.text.read_document import read_document

WORDS = st.sampled_from(
    (
        "layer",
        "first",
        "wall",
        "outer",
        "infill",
        "support",
        "raft",
        "nozzle",
        "bed",
        "fan",
        "speed",
        "height",
        "temperature",
        "density",
        "count",
        "gap",
        "pace",
        "rise",
        "lid",
        "Tempo",
        "Schicht",
        "vitesse",
        "couche",
        "camera",
        "maximum",
        "zzyzx",
        "x",
        "1",
        "ü",
        '"',
        "[0]",
    )
)
KEYS = st.lists(WORDS, min_size=1, max_size=4).map(" ".join)
VALUES = st.one_of(
    st.sampled_from(
        (
            "0.2",
            "0,2",
            "60",
            "3600",
            "205",
            "yes",
            "no",
            "ja",
            "up",
            "honeycomb",
            "7",
            "0",
            "1",
            "205/60",
            "0.4; 0.4",
            "198 200",
            "45 %",
            "60 mm/s",
            "",
            '"1.75"',
            "G28\\nM104 S200",
            "blue",
        )
    ),
    st.decimals(0, 5000, places=2).map(str),
    st.text(max_size=12),
)
LINES = st.one_of(
    st.tuples(KEYS, st.sampled_from((" = ", "=", ": ")), VALUES).map("".join),
    st.sampled_from(("", "# heat", "; lengths in microns", "[wall]", "[infill]", "[camera]", "// x")),
    st.text(max_size=20),
)
TEXTS = st.lists(LINES, max_size=40).map("\n".join)
QUICK = settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])


def suggestion_of(text: str) -> tuple[Suggestion, tuple[Document, ...]]:
    habits = find_habits([text])
    documents = (read_document(text.encode("utf-8", "surrogatepass"), "base", habits),)
    suggester = Suggester(documents, writing_of(documents, habits, load_lexicon()))
    return read_back(suggester.suggestion("any"), documents), documents


@QUICK
@given(TEXTS)
def test_any_text(text: str) -> None:
    found, _ = suggestion_of(text)
    places = [item.place for item in found.proposals]
    assert len(places) == len(set(places))
    whole = [item.place[:2] for item in found.proposals if not item.place[2]]
    assert not set(whole) & {item.place[:2] for item in found.proposals if item.place[2]}
    written = new_map(found, accept_checks=True)
    assert len(tomllib.loads(written).get("binding", [])) == len(found.proposals)
    if found.proposals:
        key_map, problems = load_text(written)
        assert key_map is not None, problems
    if found.of("sure"):
        key_map, problems = load_text(new_map(found))
        assert key_map is not None, problems
    assert suggestion_of(text)[0] == found


def test_a_very_long_key_or_section_is_passed_over(monkeypatch: pytest.MonkeyPatch) -> None:
    """Counted, not timed: its words are never looked at, which took time with the square of their number."""
    read: list[int] = []
    real = slots_module.split_words

    def counted(text: str) -> list[str]:
        read.append(len(text))
        return real(text)

    monkeypatch.setattr(slots_module, "split_words", counted)
    long = " ".join(f"wall speed{number}" for number in range(4000))
    suggest(
        [
            Source(
                "long.cfg",
                (
                    f"{long} = 60\nlayer height = 0.2\nouter wall speed = 50\nnozzle temperature = 210\n"
                    f"[{long}]\nrim = 60\n"
                ).encode(),
            )
        ],
        "long",
    )
    assert read
    assert max(read) <= LONGEST_NAME + 1


def test_limits_are_found_in_one_walk_over_the_words() -> None:
    """A word may mark a limit unless it alone says what is limited: held against looking at each pair of words."""
    ideas = [{}, {"nozzle": 1.0}, {"bed": 1.0}, {"nozzle": 1.0, "bed": 1.0}, {"speed": 1.0}]
    for chosen in itertools.product(ideas, repeat=3):
        terms = tuple(
            SimpleNamespace(text=f"w{at}", ideas=held, firm=False, small=False) for at, held in enumerate(chosen)
        )
        slot = SimpleNamespace(own=terms, around=())
        pairwise = {
            term.text
            for term in terms
            if limits_module.LIMITED & term.ideas.keys()
            <= {idea for other in terms if other.text != term.text for idea in other.ideas}
        }
        assert limits_module._marks(slot) == pairwise  # type: ignore[arg-type]
