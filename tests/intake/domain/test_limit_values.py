"""Limits as data: what is kept reads back exactly, and what makes no sense is refused kindly."""

from __future__ import annotations

import pytest

from catalog.domain.lengths import Length, inches, mm
from intake.domain.limit_values import (
    LimitErrors,
    as_text,
    changed_values,
    from_text,
    limit_fields,
    limits_from,
    read_values,
    shown,
)
from intake.domain.limit_words import LABELS, group_title, label
from intake.domain.limits import DEFAULT_LIMITS, Limits

EDITABLE = [field for field in limit_fields().values() if field.is_editable]


def refused(typed: dict[str, str], limits: Limits = DEFAULT_LIMITS) -> dict[str, str]:
    with pytest.raises(LimitErrors) as caught:
        read_values(typed, limits)
    return caught.value.errors


def test_every_limit_stands_under_the_title_its_group_gives_itself() -> None:
    assert len(limit_fields()) > 80
    assert {"name", "cause_counts"}.isdisjoint(limit_fields())
    groups = {field.group: field.about for field in limit_fields().values()}
    assert set(groups) <= {base.__name__ for base in Limits.__bases__}
    assert all(about.startswith("Limits of ") for about in groups.values())
    assert group_title(groups["GapLimits"]) == "The gap behind the strut"


@pytest.mark.parametrize("field", EDITABLE, ids=lambda field: field.name)
def test_what_is_kept_reads_back_the_very_value(field: object) -> None:
    one = limit_fields()[field.name]  # type: ignore[attr-defined]
    assert from_text(one, as_text(one.default)) == one.default


@pytest.mark.parametrize("field", EDITABLE, ids=lambda field: field.name)
def test_every_default_may_be_typed_as_it_is_shown(field: object) -> None:
    """What the page shows, its own form takes; and the usual value is no change."""
    one = limit_fields()[field.name]  # type: ignore[attr-defined]
    typed = f"{one.default.mm_text} mm" if isinstance(one.default, Length) else as_text(one.default)
    if one.kind in ("number", "share"):
        typed = f"{one.default:.9f}".rstrip("0").rstrip(".")
    kept = read_values({one.name: typed}, DEFAULT_LIMITS)
    assert kept == {} or from_text(one, kept[one.name]) == pytest.approx(one.default, rel=1e-8)


def test_a_changed_limit_is_kept_in_millimetres_with_six_places() -> None:
    kept = read_values({"route_ask": "7/16 in", "fit_ask": "0.98"}, DEFAULT_LIMITS)
    assert kept == {"route_ask": "11.112500", "fit_ask": "0.98"}
    limits = limits_from("2026.2", kept, {"OK": 3})
    assert limits.route_ask == inches("7/16")
    assert limits.fit_ask == 0.98
    assert limits.name == "2026.2"
    assert limits.cause_counts == {"OK": 3}
    assert limits.route_stop == DEFAULT_LIMITS.route_stop
    assert changed_values(limits) == kept


def test_what_was_changed_before_stays_changed_until_it_is_typed_back() -> None:
    first = limits_from("a", read_values({"route_ask": "7/16 in"}, DEFAULT_LIMITS), {})
    second = limits_from("b", read_values({"fit_ask": "0.98"}, first), {})
    assert second.route_ask == inches("7/16")
    assert read_values({"route_ask": ""}, second) == {"fit_ask": "0.98"}
    assert read_values({"route_ask": "3/8 in"}, second) == {"fit_ask": "0.98"}


@pytest.mark.parametrize(
    ("name", "text", "says"),
    [
        ("no_such_limit", "1", "no limit called"),
        ("route_ask", "soon", ""),
        ("route_ask", "7", "unit"),
        ("route_ask", "-1/8 in", "below nothing"),
        ("route_ask", "5 in", "stay between"),
        ("route_ask", "1/64 in", "stay between"),
        ("fit_ask", "1.2", "stay between 0 and 1"),
        ("fit_ask", "97 %", "plain number"),
        ("fit_ask", "-0.5", "plain number"),
        ("route_z_ask", "300", "stay between"),
        ("alloy_inch", "unobtainium", "table of materials"),
        ("flanges", "4 in", "changed in the program"),
    ],
)
def test_nonsense_is_refused_in_one_sentence(name: str, text: str, says: str) -> None:
    errors = refused({name: text})
    assert set(errors) == {name}
    assert says in errors[name]
    if name in limit_fields() and limit_fields()[name].is_editable:
        assert f"usual value is {shown(limit_fields()[name].default)}" in errors[name]
        assert "Now it is" in errors[name]


@pytest.mark.parametrize(
    ("typed", "wrong"),
    [
        ({"gap_least": "7/8 in"}, "gap_least"),
        ({"fit_stop": "0.98"}, "fit_stop"),
        ({"route_ask": "3 1/2 in"}, "route_ask"),
        ({"route_z_note": "5"}, "route_z_note"),
    ],
)
def test_steps_of_one_rule_keep_their_order(typed: dict[str, str], wrong: str) -> None:
    assert "must not be above" in refused(typed)[wrong]
    both = {"fit_stop": "0.98", "fit_ask": "0.99"}
    assert read_values(both, DEFAULT_LIMITS) == both


def test_a_limit_the_code_has_forgotten_hinders_nobody() -> None:
    assert limits_from("x", {"gone_since": "1.0"}, {}).fit_ask == DEFAULT_LIMITS.fit_ask


def test_every_limit_has_words_of_its_own() -> None:
    assert set(limit_fields()) == set(LABELS)
    assert len(set(LABELS.values())) == len(LABELS), "two limits with the same words"


def test_a_new_limit_reads_well_without_a_label() -> None:
    assert label("u_between") == "doubt of between"
    assert shown(mm("0.0254")) == "0.001 in · 0.025 mm"
