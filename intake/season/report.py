"""The season in words: every figure with its 95 % interval and its target."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

from intake.domain.shares import wilson
from intake.season.mistakes import TABLE, UNLISTED
from intake.season.tally import CAUSE_EDGES, FIT_EDGES, Tally

ROUTES = {"two": "Two routes", "one": "One route"}
ENOUGH = 30  # statements in a bin before it is judged


def report(tally: Tally, *, seed: int, sheets: int) -> str:
    """The whole report as plain text."""
    parts = [
        _head(tally, seed, sheets),
        _two_routes(tally),
        _one_route(tally),
        _by_kind(tally, "two"),
        _by_kind(tally, "one"),
        _asked(tally),
        _fit(tally),
        _causes(tally),
        _what_went_wrong(tally),
    ]
    return "\n\n".join("\n".join(lines) for lines in parts) + "\n"


def as_json(tally: Tally, *, seed: int, sheets: int) -> dict[str, Any]:
    """Every count and sum, by its words joined with a slash; and the figures with targets."""
    return {
        "seed": seed,
        "sheets": sheets,
        "counts": {"/".join(key): n for key, n in sorted(tally.counts.items())},
        "sums": {"/".join(key): round(n, 6) for key, n in sorted(tally.sums.items())},
    }


# -- One figure ---------------------------------------------------------------------------------


def _per_1000(hits: int, of: int) -> str:
    low, high = wilson(hits, of)
    return f"{1000 * hits / max(of, 1):7.1f}  [{1000 * low:.1f} .. {1000 * high:.1f}]"


def _percent(hits: int, of: int) -> str:
    low, high = wilson(hits, of)
    return f"{100 * hits / max(of, 1):6.1f} %  [{100 * low:.1f} .. {100 * high:.1f}]  of {of}"


def _target(words: str, met: bool) -> str:
    return f"   target {words}: {'met' if met else 'NOT MET'}"


def _head(tally: Tally, seed: int, sheets: int) -> Iterator[str]:
    slips = sum(n for k in ROUTES for c, n in tally.under(k, "slips").items() if c != "OK")
    yield f"A virtual season of {sheets} sheets, seed {seed}; intervals are 95 % (Wilson)."
    yield f"  with a slip          {_percent(slips, sheets)}"
    for kind, words in ROUTES.items():
        own = sum(n for code, n in tally.under(kind, "slips").items() if code != "OK")
        yield f"    {words.lower():18} {_percent(own, tally.n(kind, 'sheets'))}"
    plain = sum(slip.weight for slip in TABLE)
    yield f"  by the table alone   {plain / (722 + plain):6.1%} (no evidence on the sheet);"
    unlisted = sum(slip.weight for slip in UNLISTED)
    yield f"  on no list           {unlisted:.0f} per 1000 where all can happen"
    yield f"  one route            {_percent(tally.n('one', 'sheets'), sheets)}"
    yield f"  metric boats         {_percent(tally.n('system', 'mm'), sheets)}"


def _desks(tally: Tally, kind: str) -> Iterator[str]:
    of = tally.n(kind, "sheets")
    yield f"  desk (a) copies the old length    {_per_1000(tally.n(kind, 'a', 'wrong'), of)}"
    yield f"  desk (b) fixed 4-3/4 in tail      {_per_1000(tally.n(kind, 'b', 'wrong'), of)}"
    first = sum(tally.under(kind, "first wrong").values())
    yield f"  desk (c) the tool, at first sight {_per_1000(first, of)}"


def _two_routes(tally: Tally) -> Iterator[str]:
    of, wrong = tally.n("two", "sheets"), tally.n("two", "wrong")
    copied = tally.n("two", "a", "wrong")
    yield f"TWO ROUTES ({of} sheets): wrong shafts per 1000 sheets"
    yield from _desks(tally, "two")
    yield f"  desk (c) the tool, after asking   {_per_1000(wrong, of)}"
    yield _target("at most 2 per 1000", wrong <= 2 * of / 1000)
    yield _target("at most a hundredth of desk (a)", wrong <= copied / 100)
    clean, asked = tally.n("two", "clean"), tally.n("two", "clean asked")
    yield f"  clean sheets asked                {_percent(asked, clean)}"
    yield _target("at most 5 %", asked <= 0.05 * clean)
    caught, out = _caught(tally, "two")
    yield f"  slips that move the gap out, asked or stopped {_percent(caught, out)}"
    yield _target("at least 97 %", caught >= 0.97 * out)
    yield from _questions(tally, "two")


def _one_route(tally: Tally) -> Iterator[str]:
    of, wrong = tally.n("one", "sheets"), tally.n("one", "wrong")
    yield f"ONE ROUTE ({of} sheets): wrong shafts per 1000 of these sheets"
    yield from _desks(tally, "one")
    yield f"  desk (c) the tool, after asking   {_per_1000(wrong, of)}"
    yield _target("at most 30 per 1000", wrong <= 30 * of / 1000)
    clean, released = tally.n("one", "clean"), tally.n("one", "clean released")
    yield f"  clean sheets released             {_percent(released, clean)}"
    yield _target("at least 95 %", released >= 0.95 * clean)
    caught, out = _caught(tally, "one")
    yield f"  slips that move the gap out, asked or stopped {_percent(caught, out)}"
    yield from _questions(tally, "one")


def _caught(tally: Tally, kind: str) -> tuple[int, int]:
    return sum(tally.under(kind, "out caught").values()), sum(tally.under(kind, "out").values())


def _questions(tally: Tally, kind: str) -> Iterator[str]:
    released, sheets = tally.n(kind, "released"), tally.n(kind, "sheets")
    each = tally.n(kind, "questions of released") / max(released, 1)
    yield f"  questions a sheet until released  {each:7.2f}"
    in_all = ", ".join(f"{n}: {_share(m, sheets)}" for n, m in _in_order(tally, kind))
    yield f"    questions in all                {in_all}"
    yield f"  held for a person                 {_percent(tally.n(kind, 'held'), sheets)}"
    calls = tally.under(kind, "first")
    yield "  first verdict                     " + ", ".join(
        f"{call} {_share(n, sheets)}" for call, n in calls.items()
    )


def _in_order(tally: Tally, kind: str) -> list[tuple[str, int]]:
    return sorted(tally.under(kind, "asked in all").items())


def _share(n: int, of: int) -> str:
    return f"{100 * n / max(of, 1):.1f} %"


# -- Tables -------------------------------------------------------------------------------------


def _by_kind(tally: Tally, kind: str) -> Iterator[str]:
    yield f"SLIPS BY KIND, {ROUTES[kind].lower()}"
    yield "  (out: those that move the gap of their own route out of band)"
    yield "  kind        sheets     out   asked or stopped     released wrong   held"
    wrong, held = tally.under(kind, "wrong kind"), tally.under(kind, "held kind")
    out, caught = tally.under(kind, "out"), tally.under(kind, "out caught")
    for code, n in tally.under(kind, "slips").items():
        of = out.get(code, 0)
        found = _percent(caught.get(code, 0), of) if of else "-"
        yield f"  {code:10} {n:7} {of:7}   {found:34} {wrong.get(code, 0):5} {held.get(code, 0):6}"


def _asked(tally: Tally) -> Iterator[str]:
    yield "CLEAN SHEETS ASKED, by the first check that held them, by half the band, by the way of X"
    for kind, words in ROUTES.items():
        yield f"  {words}: {_per_1000(tally.n(kind, 'clean asked'), tally.n(kind, 'clean'))}"
        for by in ("clean asked by", "clean asked, half band", "clean asked, x by"):
            yield f"    {by}: {_list(tally.under(kind, by).items())}"
        yield f"    clean held at last by: {_list(tally.under(kind, 'clean held by').items())}"
        yield f"    clean held, x by: {_list(tally.under(kind, 'clean held, x by').items())}"
        yield f"    questions put (all sheets): {_list(tally.under(kind, 'asked for').items())}"


def _list(items: Iterable[tuple[str, int]]) -> str:
    return ", ".join(f"{name} {n}" for name, n in items) or "none"


def _fit(tally: Tally) -> Iterator[str]:
    yield "STATED FIT PROBABILITY (target: inside its interval in every bin)"
    yield "  as released"
    yield from _bins(tally, "released", FIT_EDGES)
    for kind, words in ROUTES.items():
        yield f"    {words.lower()}"
        yield from _bins(tally, f"released {kind}", FIT_EDGES)
    yield "  at first sight, had it been cut (released, asked or stopped)"
    yield from _bins(tally, "first", FIT_EDGES)
    for kind, words in ROUTES.items():
        yield f"    {words.lower()}"
        yield from _bins(tally, f"first {kind}", FIT_EDGES)


def _causes(tally: Tally) -> Iterator[str]:
    yield "NAMED CAUSE where boat and old shaft differ (target: inside its interval in every bin)"
    yield from _bins(tally, "cause", CAUSE_EDGES)
    half = tally.n("cause half")
    first, third = tally.n("cause half top 1"), tally.n("cause half top 3")
    yield f"  one cause holds more than half: top 1 {_percent(first, half)}"
    yield _target("at least 65 %", half > 0 and first >= 0.65 * half)
    yield f"                                  top 3 {_percent(third, half)}"
    yield _target("at least 88 %", half > 0 and third >= 0.88 * half)
    missed = list(tally.under("cause half missed").items())[:12]
    yield f"  missed most: {_list(missed)}"


def _bins(tally: Tally, name: str, edges: tuple[float, ...]) -> Iterator[str]:
    ends = (0.0, *edges, 1.0)
    for place in range(len(edges) + 1):
        n, true = tally.n(name, str(place), "n"), tally.n(name, str(place), "true")
        label = f"    {ends[place]:.3f} .. {ends[place + 1]:.3f}"
        if not n:
            yield f"{label}   none"
            continue
        stated = tally.sums[name, str(place)] / n
        low, high = wilson(true, n)
        verdict = "inside" if low <= stated <= high else "OUTSIDE"
        seen = f"came true {true / n:.4f} [{low:.4f} .. {high:.4f}]"
        few = " (few)" if n < ENOUGH else ""
        yield f"{label}   {n:7} said {stated:.4f}, {seen}  {verdict}{few}"


def _what_went_wrong(tally: Tally) -> Iterator[str]:
    yield "WRONG SHAFTS RELEASED, by what was wrong"
    for kind, words in ROUTES.items():
        yield f"  {words}, at first sight: {_list(tally.under(kind, 'first wrong').items())}"
        yield f"  {words}, after asking:   {_list(tally.under(kind, 'wrong kind').items())}"
