"""How the terminal is told: the option behind a question, an assumption, a command in a start block."""

from __future__ import annotations

from profilesmith.foundation.quantity import CANONICAL
from profilesmith.ledger import Question
from profilesmith.review.review import Assumed
from profilesmith.review.wording import visible

ASSUMED = "Assumed, since nobody said otherwise (say it with --facts or --answer)"
FOLLOW = "--start-block follow"
"""Lets commands in start blocks follow the new temperatures."""


def answer_option(question: Question | None) -> str:
    """``Answer: --answer machine.drive=direct|remote``; "" for a question that no answer settles."""
    call = answer_call(question)
    return f"Answer: {call}" if call else ""


def answer_call(question: Question | None) -> str:
    """``--answer machine.drive=direct|remote``; "" for a question that no answer settles."""
    if question is None or question.about not in ("fact", "input"):
        return ""
    return visible(f"--answer {sample(question)}")


def sample(question: Question) -> str:
    """``machine.drive=direct|remote``, ``"spool.nozzle_window=... °C to ... °C"``."""
    if question.kind == "choice":
        return f"{question.name}={'|'.join(question.values)}"
    unit = CANONICAL.get(question.unit_kind, "")
    if question.kind == "window":
        return f'"{question.name}=... {unit} to ... {unit}"'
    return f'"{question.name}={"92 Shore A" if question.kind == "hardness" else f"... {unit}".strip()}"'


def assumed_option(item: Assumed) -> str:
    """``--answer "flexible-pla.window=210 °C to 220 °C"``."""
    return f'--answer "{item.recipe}.{item.name}={item.value}"'
