"""Which bar for which shaft: against every way there is, on small cases.

The allowances (1/16 in facing at each end, 1/8 in saw), the 24 in under which a drop is scrap and
the 1 to 6 in by which a remnant fits well are common practice, no source. Lengths are invented.
"""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from catalog.domain.lengths import Length, inches
from quotes.domain.nesting import Demand, Plan, Rod, bar_needed, plan

INCH = 25_400_000


def shafts(*lengths: str | int, **more: str) -> list[Demand]:
    return [Demand(f"J{at}", inches(one), **more) for at, one in enumerate(lengths)]


def bar(name: str, length: str | int, heat: str = "") -> Rod:
    return Rod(name, inches(length), heat, whole=True)


def remnant(name: str, length: str | int, heat: str = "") -> Rod:
    return Rod(name, inches(length), heat)


# --- Brute force: every shaft on every piece or nowhere, judged from the finished plan -----


def cost(jobs: list[Demand], rods: list[Rod], on: tuple[int, ...]) -> tuple[int, ...] | None:
    """The five numbers of one way of cutting, None where a piece is too short for its shafts."""
    rest = [rod.length.nm for rod in rods]
    for job, at in zip(jobs, on, strict=True):
        if at < len(rods):
            rest[at] -= job.length.nm
    if min(rest, default=0) < 0:
        return None
    used = [at in on for at in range(len(rods))]
    apart = 0
    for pair in {job.pair for job in jobs if job.pair}:
        places = [at for job, at in zip(jobs, on, strict=True) if job.pair == pair]
        if len(places) == 2 and len(rods) not in places and places[0] != places[1]:
            heats = {rods[at].heat for at in places}
            apart += len(heats) == 2 or heats == {""}
    for job, at in zip(jobs, on, strict=True):
        apart += bool(job.heat) and at < len(rods) and rods[at].heat != job.heat
    scrap = 0
    for rod, nm, is_used in zip(rods, rest, used, strict=True):
        keeps = nm >= 24 * INCH or (not rod.whole and INCH <= nm <= 6 * INCH)
        scrap += nm if is_used and not keeps else 0
    opened = sum(rod.whole for rod, is_used in zip(rods, used, strict=True) if is_used)
    return on.count(len(rods)), apart, opened, scrap, -sum(nm * nm for nm in rest)


def best_of_all(jobs: list[Demand], rods: list[Rod]) -> tuple[int, ...]:
    ways = product(range(len(rods) + 1), repeat=len(jobs))
    return min(found for on in ways if (found := cost(jobs, rods, on)) is not None)


def as_way(jobs: list[Demand], rods: list[Rod], made: Plan) -> tuple[int, ...]:
    names = [rod.piece for rod in rods]
    return tuple(
        names.index(made.cuts[job.job]) if job.job in made.cuts else len(rods) for job in jobs
    )


some_nm = st.integers(20 * 8, 75 * 8).map(lambda eighths: Length(eighths * INCH // 8))
a_job = st.tuples(some_nm, st.sampled_from(["", "", "p"]), st.sampled_from(["", "", "", "H1"]))
a_rod = st.tuples(some_nm, st.sampled_from(["", "H1", "H2"]), st.booleans())


@settings(max_examples=120, deadline=None)
@given(st.lists(a_job, max_size=5), st.lists(a_rod, max_size=4))
def test_no_way_of_cutting_is_better(
    wanted: list[tuple[Length, str, str]], racked: list[tuple[Length, str, bool]]
) -> None:
    jobs, paired = [], 0
    for at, (length, pair, heat) in enumerate(wanted):
        paired += bool(pair)
        together = pair if paired <= 2 else ""
        jobs.append(Demand(f"J{at}", length, pair=together, heat="" if together else heat))
    rods = [
        Rod(f"P{at}", Length(nm.nm * (2 if whole else 1)), heat, whole)
        for at, (nm, heat, whole) in enumerate(racked)
    ]
    made = plan(jobs, rods)
    told = (
        *(made.score.unserved, made.score.apart, made.score.opened),
        *(made.score.scrap, made.score.worth if jobs else best_of_all(jobs, rods)[4]),
    )
    assert made.proven
    assert told == best_of_all(jobs, rods)
    assert cost(jobs, rods, as_way(jobs, rods, made)) == best_of_all(jobs, rods)


@settings(max_examples=60, deadline=None)
@given(st.lists(a_job, min_size=6, max_size=14), st.lists(a_rod, min_size=3, max_size=8))
def test_however_few_steps_no_piece_is_overfilled(
    wanted: list[tuple[Length, str, str]], racked: list[tuple[Length, str, bool]]
) -> None:
    jobs = [Demand(f"J{at}", length) for at, (length, _pair, _heat) in enumerate(wanted)]
    rods = [Rod(f"P{at}", nm, heat, whole) for at, (nm, heat, whole) in enumerate(racked)]
    made = plan(jobs, rods, steps=30)
    for rod in rods:
        taken = sum(job.length.nm for job in jobs if made.cuts.get(job.job) == rod.piece)
        assert taken <= rod.length.nm
        assert not taken or made.left[rod.piece].nm == rod.length.nm - taken
    assert {*made.cuts, *made.unserved} == {job.job for job in jobs}


# --- By hand ------------------------------------------------------------------------------


def test_a_shaft_takes_its_facing_and_its_saw_cut() -> None:
    assert bar_needed(inches("49 3/16")) == inches("49 7/16")


def test_two_shafts_take_two_saw_cuts_to_the_nanometre() -> None:
    needs = [Demand("A", bar_needed(inches(40))), Demand("B", bar_needed(inches("31 1/2")))]
    exact = inches("40 1/4") + inches("31 3/4")
    assert plan(needs, [Rod("P", exact)]).left == {"P": Length(0)}
    one_short = plan(needs, [Rod("P", exact - Length(1))])
    assert (len(one_short.unserved), len(one_short.cuts)) == (1, 1)


def test_a_remnant_comes_before_a_bar() -> None:
    made = plan(shafts(50), [bar("B-1", 144), remnant("R-1", 90)])
    assert made.cuts == {"J0": "R-1"}
    assert made.left["R-1"] == inches(40)


@pytest.mark.parametrize(
    ("over", "chosen"),
    [("1", "R-1"), ("6", "R-1"), ("6 1/64", "R-2"), ("63/64", "R-2")],
)
def test_a_remnant_that_has_one_to_six_inches_over_is_used_up(over: str, chosen: str) -> None:
    """Else a longer one that leaves 24 in or more is the better one."""
    rods = [Rod("R-1", inches(50) + inches(over)), remnant("R-2", 90)]
    assert plan(shafts(50), rods).cuts == {"J0": chosen}


def test_a_drop_of_24_inches_is_kept_and_a_nanometre_less_is_scrap() -> None:
    kept = plan(shafts(50), [bar("B-1", 74)])
    lost = plan(shafts(50), [Rod("B-1", inches(74) - Length(1), whole=True)])
    assert (kept.scrap, lost.scrap) == (Length(0), inches(24) - Length(1))


def test_a_pair_is_of_one_heat_though_it_opens_a_bar_more() -> None:
    """Each remnant alone would do for one of them."""
    rods = [remnant("R-1", 52, "H1"), remnant("R-2", 52, "H2"), bar("B-1", 144, "H3")]
    made = plan(shafts(50, 48, pair="Biscuit Barrel"), rods)
    assert set(made.cuts.values()) == {"B-1"}
    assert made.apart == ()


def test_a_pair_that_cannot_be_of_one_heat_is_served_and_said() -> None:
    rods = [remnant("R-1", 52, "H1"), remnant("R-2", 52, "H2")]
    made = plan(shafts(50, 48, pair="Biscuit Barrel"), rods)
    assert set(made.cuts.values()) == {"R-1", "R-2"}
    assert len(made.apart) == 1


def test_two_pieces_of_unknown_heat_are_not_taken_for_one() -> None:
    rods = [remnant("R-1", 52), remnant("R-2", 52)]
    assert plan(shafts(50, 48, pair="Biscuit Barrel"), rods).score.apart == 1
    assert plan(shafts(50, 48, pair="Biscuit Barrel"), [remnant("R-1", 104)]).score.apart == 0


def test_a_shaft_follows_the_heat_its_twin_was_cut_from() -> None:
    rods = [remnant("R-1", 52, "H1"), bar("B-1", 144, "H2")]
    assert plan(shafts(50, heat="H2"), rods).cuts == {"J0": "B-1"}


def test_metals_do_not_mix() -> None:
    wanted = [Demand("A", inches(50), metal="1 in S20910"), Demand("B", inches(50), metal="25 mm")]
    made = plan(wanted, [Rod("P", inches(144), metal="25 mm")])
    assert (made.cuts, made.unserved) == ({"B": "P"}, ("A",))


def test_when_steps_run_out_it_says_so() -> None:
    jobs = shafts(*(f"{31 + at} {at % 8}/8" for at in range(14)))
    rods = [bar(f"B-{at}", 100 + 7 * at) for at in range(9)]
    made = plan(jobs, rods, steps=200)
    assert (made.proven, made.words) == (False, "good, not proven best")
    assert made.unserved == ()


def test_nothing_wanted_is_nothing_planned() -> None:
    assert plan([], [bar("B-1", 144)]) == Plan()
