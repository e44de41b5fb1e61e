"""Whether the shaft can carry what the engine gives; its metal is in `metal`."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from catalog.domain.lengths import NM_PER_INCH
from catalog.domain.materials import material
from catalog.domain.strength import bearing_span_inches, safety_factor
from intake.checks import metal
from intake.checks.base import DIAMETER, STRUT, Mismatch, check
from intake.domain.case import Case
from intake.domain.verdict import Severity

_PLATES = ("engine_power", "engine_max_rpm", "gear_ratio")
_SPEED = ("engine_max_rpm", "gear_ratio")


@check(
    "torque-margin",
    Severity.ASK,
    ask=(
        "What is the full power and top revs on the engine's plate, and the ratio on the gearbox's?"
    ),
    source="ABYC P-6 formula and 2/3 rule; service factors published",
    inputs=DIAMETER,
    needs=_PLATES,
    likely={"I-COMBO": 3, "I-DIAREAD": 3, "K-TYPED": 2},
)
def the_shaft_carries_the_torque(case: Case) -> Iterator[Mismatch]:
    """The shaft's margin against the engine's torque is below what its service wants.

    Kilowatts taken for horsepower, a ratio turned over, or a weak alloy.
    """
    factor = torque_safety(case)
    if factor is None:
        return
    limits = case.limits
    wanted = wanted_safety(case)
    if factor < wanted:
        stop = factor < wanted * limits.safety_stop_share
        words = (
            f"The safety factor against torque is {factor:.2f}, and this service wants {wanted:g}."
        )
        yield Mismatch(_PLATES, words, severity=Severity.STOP if stop else None)


@check(
    "span-whip",
    Severity.NOTE,
    ask="What holds the shaft between gearbox and strut?",
    source="ABYC P-6 spacing formula; beam coefficients from vibration texts",
    inputs=DIAMETER | STRUT,
    needs=_SPEED,
    likely={"I-COMBO": 3, "K-TYPED": 2, "I-DIAREAD": 2},
)
def the_span_does_not_whip(case: Case) -> Iterator[Mismatch]:
    """The shaft would turn near the speed at which so long a span begins to whip.

    A bearing in between was not told, or the speed is not the real one. Many boats with the engine
    straight before the shaft run between the two limits: noted, and asked only past them.
    """
    speed, size, spans = shaft_rpm(case), case.size, _spans_nm(case)
    shaft = material(case.alloy) if size else None
    if speed is None or size is None or shaft is None or not spans:
        return
    longest = max(spans) / NM_PER_INCH
    bar = (size.diameter, speed, float(shaft.modulus_psi), float(shaft.density_lb_in3))
    # The critical speed falls with the square of the span.
    share = (longest / bearing_span_inches(*bar, fixed=True)) ** 2
    answers = ("supports", "face_to_strut_aft", *_SPEED)
    if share > case.limits.whip_share:
        words = "At full speed so long a free span of this shaft may whip."
        yield Mismatch(answers, words, severity=Severity.ASK)
    elif longest > bearing_span_inches(*bar):
        yield Mismatch(answers, "The free span of this shaft is long for its full speed.")


@check(
    "span-short",
    Severity.NOTE,
    ask="What holds the shaft, and how far apart are the supports?",
    source="20 to 40 diameters: D. Gerr, Propeller Handbook p. 93 as quoted; common practice",
    inputs=DIAMETER | STRUT,
    needs=("supports|face_to_strut_aft",),
)
def the_supports_are_not_too_close(case: Case) -> Iterator[Mismatch]:
    """Two supports of the shaft stand so close together that it is hard to align.

    A bearing was added since she was built.
    """
    size, spans = case.size, _spans_nm(case)
    if size is None or not spans:
        return
    if min(spans) < case.limits.span_least_diameters * size.diameter.nm:
        words = "Two supports of the shaft stand close together for its size: hard to align."
        yield Mismatch(("supports", "face_to_strut_aft"), words)


@check(
    "prop-over-shaft",
    Severity.ASK,
    ask="What two numbers are stamped on the hub, in what order?",
    source="common practice (the rule of one fourteenth)",
    inputs=DIAMETER,
    needs=("prop_size",),
    likely={"K-TYPED": 4, "I-DIAREAD": 3, "I-OTHER": 3},
)
def propeller_and_shaft_go_together(case: Case) -> Iterator[Mismatch]:
    """The propeller is too large or too small for the shaft it turns on.

    Its pitch was told as its diameter, or the shaft's size is wrong.
    """
    wide, size, limits = case.sheet.part("prop_size", "diameter"), case.size, case.limits
    if wide is None or size is None:
        return
    times = wide.nm / size.diameter.nm
    if not limits.propeller_least_diameters <= times <= limits.propeller_most_diameters:
        words = "A propeller of this diameter is not usual on a shaft of this size."
        yield Mismatch(("prop_size", "dia_clean"), words)


@check(
    "shaft-rpm",
    Severity.ASK,
    ask="For one turn of the shaft, how many turns does the engine make?",
    needs=_SPEED,
    likely={"I-COMBO": 3, "K-TYPED": 3},
)
def the_shaft_turns_at_a_usual_speed(case: Case) -> Iterator[Mismatch]:
    """The shaft would turn slower or faster than shafts do.

    The ratio was turned over, or the engine's speed came from a gauge set for another engine.
    """
    speed, limits = shaft_rpm(case), case.limits
    if speed is None or limits.shaft_rpm_least <= speed <= limits.shaft_rpm_most:
        return
    words = "By these plates the shaft turns at a speed at which shafts do not turn."
    stop = speed > limits.shaft_rpm_stop
    yield Mismatch(_SPEED, words, severity=Severity.STOP if stop else None)


@check(
    "kw-as-hp",
    Severity.NOTE,
    ask="Does the plate say kW, PS or hp?",
    source="1 hp = 0.7457 kW by definition; which figures are usual, common practice",
    needs=("engine_power",),
)
def the_power_is_in_the_plates_unit(case: Case) -> Iterator[Mismatch]:
    """A figure that is usual in kilowatts was told as horsepower, by somebody who measures in mm.

    The engine is then a third stronger. Where the shaft carries that as well it is of no matter.
    """
    power = case.sheet.part("engine_power", "text")
    if not power or power.unit == "kW" or case.sheet.tape_unit != "mm":
        return
    factor = torque_safety(case)
    if factor is not None and factor * _HP_PER_KW >= wanted_safety(case):
        return
    if power.value in case.limits.usual_kilowatts:
        words = f"{power.value} is a usual figure in kilowatts, and was told in {power.unit}."
        yield Mismatch(("engine_power",), words)


# What a factor shrinks to where the power was in kilowatts all along: 1 hp = 0.7457 kW.
_HP_PER_KW = 745.6998715822702 / 1000


def wanted_safety(case: Case) -> float:
    """The least safety factor in torsion for this use; pleasure where none was told."""
    limits = case.limits
    if case.sheet.use == "work":
        return limits.safety_work
    return limits.safety_passenger if case.sheet.use == "passenger" else limits.safety_pleasure


def shaft_rpm(case: Case) -> float | None:
    """The shaft's full speed, or None where engine speed or ratio is not known."""
    speed, ratio = case.sheet.part("engine_max_rpm", "text"), case.sheet.part("gear_ratio", "text")
    return speed / float(ratio) if speed and ratio else None


def torque_safety(case: Case) -> float | None:
    """The safety factor in torsion, or None where power, speed, ratio or alloy is not known."""
    power, speed = case.sheet.part("engine_power", "text"), shaft_rpm(case)
    shaft = material(case.alloy) if case.size else None
    if shaft is None or case.size is None or not power or not power.value or not speed:
        return None
    return safety_factor(case.size.diameter, shaft.torsional_yield_psi, speed, power.horsepower)


def _spans_nm(case: Case) -> list[int]:
    """What lies between the flange, each bearing on the way, and the strut, in nanometres.

    A gland steadies a shaft and holds it not; a support beside the flange or the strut is that end.
    """
    routes, size, limits = case.routes, case.size, case.limits
    if routes is None or routes.strut is None or size is None:
        return []
    strut = round(routes.strut.nm)
    apart = limits.support_apart_diameters * size.diameter.nm
    held = {
        where.nm
        for what, where in case.sheet.lists.get("supports", ())
        if apart < where.nm < strut - apart
        and not any(word in what.casefold() for word in limits.not_supports)
    }
    return [after - before for before, after in pairwise([0, *sorted(held), strut])]


CHECKS = (
    the_shaft_carries_the_torque,
    the_span_does_not_whip,
    the_supports_are_not_too_close,
    propeller_and_shaft_go_together,
    the_shaft_turns_at_a_usual_speed,
    the_power_is_in_the_plates_unit,
    *metal.CHECKS,
)
