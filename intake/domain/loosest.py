"""Which answers move the length most: the loosest first."""

from __future__ import annotations

from intake.domain.case import Case

# The answer behind each name that an estimate gives to what moves it.
ANSWER_OF = {
    "strut": "face_to_strut_aft",
    "datum": "forward_datum",
    "slope": "shaft_angle",
    "hub": "hub_length",
    "rule": "hub_length",
    "propeller": "propeller_stays",
    "tail": "tail_to_thread",
    "gap": "gap_now",
    "old": "old_length_face_to_thread",
    "changed": "changed_since_shaft",
    "history": "face_to_strut_aft",
}


def loosest_answers(case: Case, most: int) -> tuple[str, ...]:
    """At most so many answers, the one that moves the length most first; empty without a length."""
    if case.routes is None or case.routes.best is None:
        return ()
    moves = sorted(case.routes.best.moves.items(), key=lambda item: -abs(item[1]))
    return tuple(ANSWER_OF[name] for name, _ in moves if name in ANSWER_OF)[:most]
