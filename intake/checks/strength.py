"""Whether the shaft can carry what the engine gives."""

from __future__ import annotations

from collections.abc import Iterator

from catalog.domain.materials import material
from catalog.domain.strength import safety_factor
from intake.checks.base import DIAMETER, Mismatch, check
from intake.domain.case import Case
from intake.domain.verdict import Severity


@check(
    "torque-margin",
    Severity.ASK,
    ask=(
        "What is the full power and top revs on the engine's plate, and the ratio on the gearbox's?"
    ),
    source="ABYC P-6 formula and 2/3 rule; service factors published",
    inputs=DIAMETER,
)
def the_shaft_carries_the_torque(case: Case) -> Iterator[Mismatch]:
    """The shaft's margin against the engine's torque is below what its service wants.

    Kilowatts taken for horsepower, a ratio turned over, or a weak alloy.
    """
    factor = torque_safety(case)
    if factor is None:
        return
    limits = case.limits
    wanted = {"work": limits.safety_work, "passenger": limits.safety_passenger}.get(
        case.sheet.use, limits.safety_pleasure
    )
    if factor < wanted:
        stop = factor < wanted * limits.safety_stop_share
        words = (
            f"The safety factor against torque is {factor:.2f}, and this service wants {wanted}."
        )
        answers = ("engine_power", "engine_max_rpm", "gear_ratio")
        yield Mismatch(answers, words, severity=Severity.STOP if stop else None)


def torque_safety(case: Case) -> float | None:
    """The safety factor in torsion, or None where power, speed, ratio or alloy is not known."""
    sheet, metal = case.sheet, material(case.alloy) if case.size else None
    power, speed = sheet.part("engine_power", "text"), sheet.part("engine_max_rpm", "text")
    ratio = sheet.part("gear_ratio", "text")
    if metal is None or case.size is None or not power or not speed or not ratio:
        return None
    if not power.value:
        return None
    shaft_rpm = speed / float(ratio)
    yield_psi = metal.torsional_yield_psi
    return safety_factor(case.size.diameter, yield_psi, shaft_rpm, power.horsepower)


CHECKS = (the_shaft_carries_the_torque,)
