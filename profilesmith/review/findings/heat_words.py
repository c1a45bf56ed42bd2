"""Words on temperatures that may harm the machine and those beside it."""

from collections.abc import Mapping

from profilesmith.review.findings.said import Numbers, Words, fixed

NOZZLE, BED, LINER = "Nozzle temperature and machine", "Bed temperature and machine", "PTFE liner"
HARM = {
    "nozzle-maximum": "the hot end can be damaged, give off harmful fumes or start a fire",
    "bed-maximum": "its heater, glue or cables can be damaged and catch fire",
}
NOT_SAID = "nobody said what the machine's instructions allow"
FUMES = "A PTFE liner breaks down in such heat; its fumes make people ill and can kill birds."


def _above(check: str) -> Words:
    def say(numbers: Numbers) -> str:
        return f"{numbers['above']} above what the machine's instructions allow: {HARM[check]}. Do not print with it."

    return Words(NOZZLE if check == "nozzle-maximum" else BED, say)


WORDS: Mapping[tuple[str, str], Words] = {
    ("nozzle-maximum", "above-instructions"): _above("nozzle-maximum"),
    ("bed-maximum", "above-instructions"): _above("bed-maximum"),
    **{
        (check, reason): Words(title, fixed(text))
        for check, title in (("nozzle-maximum", NOZZLE), ("bed-maximum", BED))
        for reason, text in (("within-instructions", "Within what the machine's instructions allow."),)
    },
    **{
        (check, "instructions-not-said"): Words(title, fixed(NOT_SAID), asked=True)
        for check, title in (("nozzle-maximum", NOZZLE), ("bed-maximum", BED))
    },
    **{
        ("liner", reason): Words(LINER, fixed(text))
        for reason, text in (
            ("liner-cool", "Cool enough for a hot end that is lined with PTFE."),
            (
                "liner-not-said",
                "Nobody said what the hot end is lined with. Were it PTFE, its fumes would make people ill and could "
                "kill birds.",
            ),
            ("liner-hot", f"{FUMES} Stay below what the printer's instructions name."),
            ("liner-breaks-down", f"{FUMES} Do not print with it."),
        )
    },
}
