"""What one check has to say: findings that were not judged, and the worse of two verdicts."""

from profilesmith.ledger.judgement import ORDER, Finding, Verdict


def not_judged(
    check: str, title: str, reason: str, ask: str = "", settings: tuple[str, ...] = (), known: str = ""
) -> Finding:
    """reason: a clause that follows "because". known: a sentence on what can be said all the same."""
    text = f"Not judged, because {reason}. {known}".rstrip()
    return Finding(check, "not judged", title, text, ask=ask, settings=settings)


def worse(one: Verdict, other: Verdict) -> Verdict:
    """The worse of two verdicts."""
    return min(one, other, key=ORDER.index)
