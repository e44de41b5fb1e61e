"""Putting what a page sends into what is kept: nobody's text goes under unseen."""

from __future__ import annotations

from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from intake.desk_drafts.merging import Boxes, Merged, Sent, merge, texts_of

A, B = "answers.gap_now.text", "answers.hub_length.text"


def keep(kept: Boxes, revision: int, by: str, seen: int, **more: Any) -> Merged:
    texts = more.pop("texts")
    changed = more.pop("changed", frozenset(texts))
    sent = Sent(texts, seen=seen, changed=frozenset(changed), by=by, at="t", page=by, **more)
    return merge(kept, sent, revision)


def test_different_boxes_never_meet() -> None:
    one = keep({}, 1, "maud", 0, texts={A: "3/4"}).boxes
    two = keep(one, 2, "iolo", 0, texts={B: "2 15/16"})
    assert texts_of(two.boxes) == {A: "3/4", B: "2 15/16"}
    assert not two.conflicts


def test_the_same_box_unseen_is_refused_with_both_texts() -> None:
    one = keep({}, 1, "maud", 0, texts={A: "3/4"}).boxes
    two = keep(one, 2, "iolo", 0, texts={A: "1"})
    (conflict,) = two.conflicts
    assert (conflict.mine, conflict.theirs, conflict.by) == ("1", "3/4", "maud")
    assert texts_of(two.boxes) == {A: "3/4"}
    assert [each["text"] for each in two.boxes[A]["refused"]] == ["1"]


def test_the_same_box_seen_is_stored_and_the_old_text_stays_readable() -> None:
    one = keep({}, 1, "maud", 0, texts={A: "3/4"}).boxes
    two = keep(one, 2, "iolo", 1, texts={A: "1"})
    assert not two.conflicts
    assert two.boxes[A]["text"] == "1"
    assert [(old["text"], old["by"]) for old in two.boxes[A]["before"]] == [
        ("", ""),
        ("3/4", "maud"),
    ]


def test_to_empty_a_box_is_a_change_too() -> None:
    one = keep({}, 1, "maud", 0, texts={A: "3/4"}).boxes
    two = keep(one, 2, "iolo", 1, texts={A: ""}).boxes
    assert texts_of(two) == {}
    late = keep(two, 3, "maud", 1, texts={A: "7/8"})
    assert [conflict.theirs for conflict in late.conflicts] == [""]


def test_the_same_text_twice_is_no_conflict() -> None:
    one = keep({}, 1, "maud", 0, texts={A: "3/4"}).boxes
    two = keep(one, 2, "iolo", 0, texts={A: "3/4"})
    assert not two.conflicts
    assert not two.differs


def test_my_own_lost_answer_is_no_conflict_with_myself() -> None:
    one = keep({}, 1, "maud", 0, texts={A: "3"}, nth=1).boxes
    two = keep(one, 2, "maud", 0, texts={A: "3/4"}, nth=2)
    assert (two.boxes[A]["text"], two.conflicts) == ("3/4", ())


def test_my_own_message_that_comes_late_changes_nothing() -> None:
    one = keep({}, 1, "maud", 0, texts={A: "3/4"}, nth=2).boxes
    late = keep(one, 2, "maud", 0, texts={A: "3"}, nth=1)
    assert (late.boxes[A]["text"], late.differs) == ("3/4", False)


def test_a_form_without_scripts_changes_only_what_its_writer_changed() -> None:
    one = keep({}, 1, "maud", 0, texts={A: "3/4", B: "2"}).boxes
    two = keep(one, 2, "iolo", 1, texts={A: "1"}).boxes
    form = Sent({A: "3/4", B: "3"}, seen=1, whole=True, by="odd", at="t")
    three = merge(two, form, 3)
    assert texts_of(three.boxes) == {A: "1", B: "3"}
    assert not three.conflicts


def test_a_form_without_scripts_meets_a_conflict_too() -> None:
    one = keep({}, 1, "maud", 0, texts={A: "3/4"}).boxes
    two = keep(one, 2, "iolo", 1, texts={A: "1"}).boxes
    three = merge(two, Sent({A: "7/8"}, seen=1, whole=True, by="odd", at="t"), 3)
    assert [(c.mine, c.theirs, c.by) for c in three.conflicts] == [("7/8", "1", "iolo")]


def test_a_form_from_before_all_that_is_remembered_is_asked() -> None:
    boxes = keep({}, 1, "maud", 0, texts={A: "0"}).boxes
    for revision in range(2, 20):
        boxes = keep(boxes, revision, "iolo", revision - 1, texts={A: str(revision)}).boxes
    three = merge(boxes, Sent({A: "0"}, seen=1, whole=True, by="odd", at="t"), 20)
    assert three.conflicts


def test_what_was_refused_is_not_put_in_by_a_save_that_says_nothing_of_it() -> None:
    one = keep({}, 1, "maud", 0, texts={A: "3/4"}).boxes
    two = keep(one, 2, "iolo", 0, texts={A: "1"}).boxes
    form = Sent({A: "1"}, seen=2, whole=True, by="iolo", at="t", page="iolo")
    assert merge(two, form, 3).conflicts
    mine = keep(two, 3, "iolo", 2, texts={A: "1"})
    assert (mine.boxes[A]["text"], mine.conflicts) == ("1", ())
    assert [each["text"] for each in mine.boxes[A]["refused"]] == ["1"]


def test_a_refused_text_sent_again_is_written_down_once() -> None:
    one = keep({}, 1, "maud", 0, texts={A: "3/4"}).boxes
    two = keep(one, 2, "iolo", 0, texts={A: "1"})
    again = keep(two.boxes, 3, "iolo", 0, texts={A: "1"})
    assert again.conflicts
    assert not again.differs


def test_a_new_keep_changes_nothing_of_what_it_was_given() -> None:
    one = keep({}, 1, "maud", 0, texts={A: "3/4"}).boxes
    before = repr(one)
    keep(one, 2, "iolo", 1, texts={A: "1"})
    keep(one, 2, "iolo", 0, texts={A: "1"})
    assert repr(one) == before


steps = st.lists(
    st.tuples(st.sampled_from(["maud", "iolo", "bronagh"]), st.sampled_from([A, B]),
              st.sampled_from(["", "1", "3/4", "7/8"]), st.integers(0, 30)),
    max_size=30,
)  # fmt: skip


@settings(max_examples=200, deadline=None)
@given(steps)
def test_no_text_is_ever_lost(typed: list[tuple[str, str, str, int]]) -> None:
    """Whatever is typed in whatever order stands in the box, before it, or among the refused."""
    boxes: Boxes = {}
    for revision, (by, name, text, seen) in enumerate(typed[:11], start=1):
        merged = keep(boxes, revision, by, min(seen, revision - 1), texts={name: text})
        boxes = merged.boxes
        box = boxes.get(name, {"text": ""})
        kept = [box, *box.get("before", ()), *box.get("refused", ())]
        assert text in {each["text"] for each in kept}
        for conflict in merged.conflicts:
            assert boxes[name]["text"] == conflict.theirs != text
