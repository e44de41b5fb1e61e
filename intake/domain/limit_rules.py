"""What a set of limits holds beside numbers: how severe a check is, what must be answered.

Both are kept among the values of a set, as "severity:<check>" (stop, ask, note or off) and
"needed:<question>" (yes). A set without them costs the checks nothing.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache

from intake.checks import BY_ID
from intake.domain.limits import Limits
from intake.domain.questions import QUESTIONS

SEVERITY, NEEDED = "severity:", "needed:"
OFF, YES = "off", "yes"
LEVELS = {"stop": "stop", "ask": "ask", "note": "note", OFF: "not asked at all"}
# Nothing can be chosen or cut without what this one misses: somebody must ask.
AT_LEAST_ASKED = frozenset({"missing-critical"})


def is_rule(name: str) -> bool:
    """Whether a value of a set is one of these, and no number."""
    return name.startswith((SEVERITY, NEEDED))


@lru_cache(maxsize=1)
def rule_names() -> tuple[str, ...]:
    """Every rule that can be set: the checks in their order, then the questions in theirs."""
    asked = (slug for slug, one in QUESTIONS.items() if one.kind != "elsewhere")
    return (*(SEVERITY + name for name in BY_ID), *(NEEDED + slug for slug in asked))


def severities_in(values: Mapping[str, str]) -> dict[str, str]:
    """Severity by check. A check that the program no longer knows is left out."""
    told = {name.removeprefix(SEVERITY): text for name, text in values.items()
            if name.startswith(SEVERITY)}  # fmt: skip
    return {name: text for name, text in told.items() if name in BY_ID and text in LEVELS}


def needed_in(values: Mapping[str, str]) -> tuple[str, ...]:
    """The questions that must be answered, in the order in which they are asked."""
    return tuple(slug for slug in QUESTIONS if values.get(NEEDED + slug) == YES)


def kept_rules(limits: Limits) -> dict[str, str]:
    """The rules of a set as they are kept."""
    severities = {SEVERITY + name: text for name, text in limits.severities.items()}
    return severities | {NEEDED + slug: YES for slug in limits.needed}


def rule_now(name: str, limits: Limits) -> str:
    """What a rule says in a set: a severity; yes or nothing for an answer."""
    if name.startswith(NEEDED):
        return YES if name.removeprefix(NEEDED) in limits.needed else ""
    check = name.removeprefix(SEVERITY)
    return limits.severities.get(check) or usual_rule(name)


def usual_rule(name: str) -> str:
    """What it says by itself: the check's own severity; nothing for an answer."""
    return "" if name.startswith(NEEDED) else BY_ID[name.removeprefix(SEVERITY)].severity.value


def read_rule(name: str, text: str) -> str:
    """What was chosen, as it is kept; empty for the usual. ValueError with a sentence otherwise."""
    if name not in rule_names():
        raise ValueError(f"There is no rule called {name}.")
    if name.startswith(NEEDED):
        return _read_needed(text)
    if text and text not in LEVELS:
        raise ValueError("Please choose one of: stop, ask, note, off.")
    if name.removeprefix(SEVERITY) in AT_LEAST_ASKED and text in ("note", OFF):
        raise ValueError("A part cannot be chosen without these answers: this stays stop or ask.")
    return "" if text == usual_rule(name) else text


def take_rule(name: str, text: str, values: dict[str, str], errors: dict[str, str]) -> None:
    """Put what was chosen among the values of a set, or its sentence among the errors."""
    try:
        kept = read_rule(name, text)
    except ValueError as error:
        errors[name] = str(error)
        return
    values.pop(name, None)
    if kept:
        values[name] = kept


def _read_needed(text: str) -> str:
    if text in (YES, ""):
        return text
    if text == "no":
        return ""
    raise ValueError("Please choose yes or no.")


def rule_label(name: str) -> str:
    """A rule's name in words.

    >>> rule_label("severity:log-clearance"), rule_label("needed:fuel")
    ('severity: the shaft has too little room in its log', 'must be answered: fuel')
    """
    if name.startswith(NEEDED):
        return f"must be answered: {name.removeprefix(NEEDED).replace('_', ' ')}"
    check = BY_ID.get(name.removeprefix(SEVERITY))
    title = check.why.partition("\n")[0].removesuffix(".") if check else name
    return f"severity: {title[:1].lower()}{title[1:]}"


def rule_shown(name: str, text: str) -> str:
    """What a rule says, for people."""
    if name.startswith(NEEDED):
        return "yes" if text == YES else "no"
    return LEVELS.get(text, text)
