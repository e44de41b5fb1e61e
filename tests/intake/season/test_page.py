"""The documented run can be written again, and only its report changes."""

from __future__ import annotations

import pytest

from tests.bench.season import MARK, PAGE, with_report


def test_the_page_keeps_its_model_and_takes_the_report() -> None:
    page = PAGE.read_text("utf-8")
    written = with_report(page, "a report\n")
    assert written.startswith(page.partition(MARK)[0])
    assert written.endswith("```text\na report\n```\n")
    assert with_report(written, "another\n") == with_report(page, "another\n")


def test_a_page_without_its_mark_is_refused() -> None:
    with pytest.raises(ValueError, match="mark"):
        with_report("no mark here", "a report\n")
