"""What a form may bring: known boxes, of a length that a person types."""

from __future__ import annotations

from collections.abc import Mapping

from django.utils.translation import gettext as _

from intake.desk_drafts.boxes import known_boxes

LONGEST_BOX = 2000  # characters
MOST_BOXES = 400
_LONGEST_NAME = 60


def refusals(texts: Mapping[str, str], changed: frozenset[str] = frozenset()) -> dict[str, str]:
    """A sentence for each box that is not kept; the others are."""
    if len(texts) > MOST_BOXES:
        said = _("There are more than %(most)d boxes here, so nothing of it is kept.")
        return dict.fromkeys([*texts, *changed], said % {"most": MOST_BOXES})
    names = dict.fromkeys([*texts, *changed])
    return {name: said for name in names if (said := _refusal(name, texts.get(name, "")))}


def _refusal(name: str, text: str) -> str:
    if name not in known_boxes():
        return _("There is no box of the name “%(name)s”, so it is not kept.") % {
            "name": name[:_LONGEST_NAME]
        }
    if len(text) > LONGEST_BOX:
        return _(
            "This is longer than %(most)d characters, so it is not kept: please shorten it."
        ) % {"most": LONGEST_BOX}
    if "\x00" in text:
        return _("There is a sign in this that no keyboard types, so it is not kept.")
    return ""
