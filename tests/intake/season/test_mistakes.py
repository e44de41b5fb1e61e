"""The slips of the season are the table's: their weights, their evidence, what each does."""

from __future__ import annotations

from collections import Counter, defaultdict
from random import Random
from statistics import mean, stdev

import pytest

from catalog.domain.lengths import inches
from intake.season import mistakes
from intake.season.boats import MM
from intake.season.mistakes import TABLE, Slip, draw, happen, repeats, rows_for
from tests.intake.season.given import a_boat, a_how

# code: weight per 1000 sheets with two routes, as the desk's starting table has it.
WEIGHTS = {
    "R-BURN-X": 12, "R-BURN-O": 10, "R-TWICE": 6, "R-TEN": 7, "R-WHOLE": 10, "R-FLIP": 12,
    "R-DECFRAC": 6, "R-CASE": 4, "R-FTIN": 3, "R-SWAP": 4, "D-GBACK": 10, "D-CBACK": 14,
    "D-HUB": 8, "D-FWD": 10, "D-MID": 2, "D-RUB": 5, "D-SLOPE": 6, "D-SAG": 8, "D-OPEN": 7,
    "D-PIN": 14, "D-TAPER": 4, "D-END": 4, "G-ASSUME": 45, "G-BLADE": 6, "G-SLID": 8,
    "P-RULE": 20, "B-MOVED": 12, "I-OTHER": 6, "X": 15,
}  # fmt: skip


def weights(rows) -> dict[str, float]:
    total: dict[str, float] = defaultdict(float)
    for slip, weight in rows:
        total[slip.code] += weight
    return dict(total)


def the(code: str, touches: str) -> Slip:
    return next(slip for slip in TABLE if (slip.code, slip.touches) == (code, touches))


def test_the_table_is_whole() -> None:
    assert weights((slip, slip.weight) for slip in TABLE) == WEIGHTS
    assert sum(WEIGHTS.values()) == 278
    assert mistakes.NOTHING_WRONG + 278 == 1000


def test_slips_fall_as_often_as_the_table_says() -> None:
    """Chi-square over every kind; the limit is the one that chance passes once in a thousand."""
    rng, boat, how = Random(7), a_boat(), a_how()
    rows = weights(rows_for(boat, how))
    sheets, total = 60_000, mistakes.NOTHING_WRONG + sum(rows.values())
    drawn = Counter(made[0].code for made in (draw(rng, boat, how) for _ in range(sheets)) if made)
    square = sum(
        (drawn[code] - sheets * weight / total) ** 2 / (sheets * weight / total)
        for code, weight in rows.items()
    )
    assert set(drawn) == set(rows)
    assert len(rows) == 31  # 29 of the table less P-RULE, two of the units, the bad tape
    assert square < 59.7  # 30 degrees of freedom, 0.999


def test_a_second_slip_is_rare() -> None:
    rng, boat, how = Random(3), a_boat(), a_how()
    made = [draw(rng, boat, how) for _ in range(40_000)]
    slips = [one for one in made if one]
    doubles = [one for one in slips if len(one) == 2]
    assert 0.005 < len(doubles) / len(slips) < 0.015
    assert all(one.touches != other.touches for one, other in doubles)


@pytest.mark.parametrize(
    ("code", "touches", "changes", "ratio"),
    [
        ("R-BURN-X", "x", {"x": "rod"}, 0.5),
        ("R-WHOLE", "x", {"x": "rod"}, 0.5),
        ("R-WHOLE", "old", {"x": "rod"}, 1.0),
        ("D-SLOPE", "x", {"x": "rod"}, 0.1),
        ("D-CBACK", "x", {"x": "rod"}, 1.0),
        ("D-CBACK", "x", {"shaft_in": "in"}, 2.0),
        ("D-OPEN", "x", {"shaft_in": "in"}, 0.1),
        ("D-FWD", "x", {"both_strut_ends": True}, 0.1),
        ("G-SLID", "gap", {"coupling_tight": True}, 0.3),
        ("G-SLID", "gap", {"coupling_tight": True, "gap": "drill_shank"}, 0.06),
        ("G-BLADE", "gap", {"gap": "drill_shank"}, 0.2),
        ("G-ASSUME", "gap", {"gap": "drill_shank"}, 0.05),
        ("G-ASSUME", "gap", {"gap_is_the_goal": True}, 3.0),
        ("D-PIN", "old", {"pin_end": "yes"}, 4.0),
        ("D-PIN", "old", {"pin_end": "no"}, 0.0),
        ("B-MOVED", "old", {"changed": "engine"}, 8.0),
        ("B-MOVED", "old", {"changed": "nothing"}, 0.25),
        ("D-GBACK", "x", {"datum_said": "gearbox_face"}, 0.25),
        ("G-ASSUME", "gap", {"tail": "rule"}, 0.1),
    ],
)
def test_evidence_multiplies_the_weight(code, touches, changes, ratio) -> None:
    found = mistakes.evidence(the(code, touches), a_boat(), a_how(**changes))
    assert found == pytest.approx(ratio)


def test_a_twin_is_taken_for_the_other_three_times_as_often() -> None:
    twin = a_boat(station="port")
    assert mistakes.evidence(the("I-OTHER", "x"), twin, a_how()) == 3.0


def test_only_what_is_on_the_sheet_can_be_wrong() -> None:
    codes = set(weights(rows_for(a_boat(), a_how(routes="boat", old="", gap=""))))
    assert not codes & {"R-BURN-O", "D-PIN", "G-ASSUME", "B-MOVED", "P-RULE", "Z-TAPE"}
    assert {"R-BURN-X", "D-CBACK", "X", "I-OTHER"} <= codes
    assert "P-RULE" in weights(rows_for(a_boat(), a_how(hub="")))
    assert "P-RULE" not in weights(rows_for(a_boat(), a_how(hub="", tail="rule")))


def test_about_14_per_cent_carry_a_slip_on_the_boat_alone() -> None:
    """Without what nothing could speak to: 14 %, and 9 % with a rod (derived from the table)."""

    def share(how) -> float:
        rows = weights(rows_for(a_boat(), how))
        left = sum(w for code, w in rows.items() if code not in ("X", "I-OTHER", "U-MMIN", "U-CM"))
        return left / (mistakes.NOTHING_WRONG + left)

    assert share(a_how(routes="boat", old="", gap="")) == pytest.approx(0.14, abs=0.005)
    assert share(a_how(routes="boat", old="", gap="", x="rod")) == pytest.approx(0.09, abs=0.01)


@pytest.mark.parametrize(
    ("code", "touches", "inch", "metric_mm"),
    [
        ("R-BURN-X", "x", 1, 10),
        ("R-BURN-O", "old", 1, 10),
        ("R-TWICE", "old", -1, -10),
        ("R-TEN", "x", 10, 100),
        ("D-GBACK", "x", 0.5, 12.7),
        ("D-CBACK", "x", -0.55, -13.97),
        ("D-HUB", "x", -2.5, -63.5),
        ("D-FWD", "x", -2.0, -50.8),
        ("D-PIN", "old", 0.3125, 7.9375),
        ("D-TAPER", "old", -1.4375, -36.5125),
        ("D-SLOPE", "x", -0.6533, -16.594),
    ],
)
def test_what_a_slip_moves_its_reading_by(code, touches, inch, metric_mm) -> None:
    """Inch marks on an inch tape, centimetres on a metric one; the boat's own pieces on both."""
    on_inches = happen(Random(1), a_boat(), the(code, touches))
    on_metric = happen(Random(1), a_boat(system="mm", size=inches(1)), the(code, touches))
    assert on_inches.off[touches] == pytest.approx(inch, abs=1e-3)
    assert on_metric.off[touches] == pytest.approx(metric_mm * MM, abs=1e-3)


@pytest.mark.parametrize(
    ("code", "touches", "middle", "spread"),
    [
        ("D-SAG", "x", 0.3, 0.25),
        ("D-OPEN", "x", -0.3, 0.25),
        ("D-END", "old", -0.1, 0.1),
        ("G-ASSUME", "gap", 0, 0.75),
        ("G-BLADE", "gap", 0.5, 0.25),
        ("P-RULE", "p", 0, 0.35),
        ("B-MOVED", "old", 0, 1.5),
        ("I-OTHER", "x", 0, 4),
        ("X", "old", 0, 3),
        ("R-CASE", "x", -3, 0.25),
    ],
)
def test_a_spread_slip_has_its_mean_and_spread(code, touches, middle, spread) -> None:
    rng, boat = Random(5), a_boat()
    sizes = [happen(rng, boat, the(code, touches)).off[touches] for _ in range(4000)]
    assert mean(sizes) == pytest.approx(middle, abs=4 * spread / 4000**0.5)
    assert stdev(sizes) == pytest.approx(spread, rel=0.05)


def test_second_readings_repeat_a_datum_one_time_in_four_and_a_reading_one_in_fifty() -> None:
    rng = Random(9)
    datum = happen(rng, a_boat(), the("D-CBACK", "x"))
    burned = happen(rng, a_boat(), the("R-BURN-X", "x"))
    times = 20_000
    assert sum(repeats(rng, datum) for _ in range(times)) / times == pytest.approx(0.25, abs=0.012)
    assert sum(repeats(rng, burned) for _ in range(times)) / times == pytest.approx(0.02, abs=0.004)


def test_a_shaft_slid_aft_takes_its_tail_along_half_the_time() -> None:
    rng, boat = Random(2), a_boat()
    made = [happen(rng, boat, the("G-SLID", "gap")) for _ in range(2000)]
    slid = [one for one in made if "tail" in one.off]
    assert all(one.off["tail"] == one.off["gap"] for one in slid)
    assert 0.45 < len(slid) / len(made) < 0.55


def test_the_nose_counted_twice_is_wrong_by_the_same_on_both() -> None:
    nose = next(slip for slip in mistakes.UNLISTED if slip.code == "Z-NOSE")
    assert happen(Random(1), a_boat(), nose).off == {"tail": 0.3125, "old": 0.3125}
