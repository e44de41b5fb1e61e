"""What is typed about pieces: can it be read?"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from django import forms
from django.core.files.uploadedfile import UploadedFile

from catalog.domain.lengths import Length
from catalog.domain.tape import LengthError
from catalog.models import Part
from catalog.pieces.models import LONGEST_WORDS, Piece
from catalog.pieces.paper import NoScan, Scan, read_scan
from catalog.pieces.reading import read_lengths, read_one
from catalog.pieces.services import Delivered, Facts, facts_of
from staff.trail.services import LONGEST_WHY


def _words(label: str, help_text: str = "", *, required: bool = False) -> forms.CharField:
    return forms.CharField(
        label=label, help_text=help_text, max_length=LONGEST_WORDS, required=required
    )


class _PieceForm(forms.Form):
    """A form whose faults stand above it as well, each with a way to its box."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        kwargs.setdefault("label_suffix", "")
        super().__init__(*args, **kwargs)

    @property
    def faults(self) -> list[dict[str, str]]:
        """For ``_errors.html``."""
        return [
            {
                "id": self[name].auto_id if name in self.fields else "",
                "label": str(self[name].label) if name in self.fields else "",
                "message": str(message),
            }
            for name, said in self.errors.items()
            for message in said
        ]

    def clean_certificate(self) -> Scan | None:
        """The file by what is in it."""
        file: UploadedFile[Any] | None = self.cleaned_data.get("certificate")
        if file is None:
            return None
        try:
            return read_scan(file.read())
        except NoScan as error:
            raise forms.ValidationError(str(error)) from error


class GoodsInForm(_PieceForm):
    """One line of a delivery paper."""

    paper = _words("Number of the delivery paper", "As the supplier printed it.", required=True)
    line = forms.IntegerField(
        label="Line of that paper",
        help_text="Each line is received once, however often it is sent.",
        min_value=1,
        max_value=999,
        initial=1,
    )
    part = forms.ChoiceField(label="Bar or blank")
    lengths = forms.CharField(
        label="Lengths",
        help_text="One a line, as they lie there: 144 in, or 3 x 144 in for three alike.",
        max_length=4000,
        widget=forms.Textarea(attrs={"rows": 3}),
    )
    heat = _words("Heat", "As stamped on the bar. Leave it empty where it is not known.")
    certificate_number = _words("Number of the certificate")
    certificate = forms.FileField(
        label="The certificate itself",
        help_text="A PDF or a JPEG of at most 2 MB.",
        required=False,
        allow_empty_file=True,
    )
    place = _words("Place in the rack", "Such as rack 2, left.")

    def __init__(self, parts: Sequence[Part], *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.parts = {part.code: part for part in parts}
        choices = [("", "Choose one"), *((p.code, f"{p.code}: {p.description}") for p in parts)]
        self.fields["part"].choices = choices  # type: ignore[attr-defined]

    def clean(self) -> dict[str, Any]:
        """Lengths without a unit are in the part's own, so they are read last."""
        cleaned = super().clean() or {}
        part = self.parts.get(cleaned.get("part", ""))
        if part and cleaned.get("lengths"):
            try:
                cleaned["read"] = read_lengths(cleaned["lengths"], part.system)
            except ValueError as error:
                self.add_error("lengths", str(error))
        return cleaned

    @property
    def chosen(self) -> Part:
        """The part, once the form is valid."""
        return self.parts[self.cleaned_data["part"]]

    @property
    def goods(self) -> Delivered:
        """What came, once the form is valid."""
        said = self.cleaned_data
        return Delivered(
            paper=said["paper"],
            line=said["line"],
            lengths=said["read"],
            heat=said["heat"],
            certificate_number=said["certificate_number"],
            certificate=said["certificate"],
            place=said["place"],
        )


class CorrectForm(_PieceForm):
    """What is true of a piece, and why it is written down anew."""

    seen = forms.CharField(max_length=40, widget=forms.HiddenInput)
    length = forms.CharField(label="Length", max_length=40)
    heat = _words("Heat", "As stamped on the bar. Leave it empty where it is not known.")
    certificate_number = _words("Number of the certificate")
    certificate = forms.FileField(
        label="The certificate itself",
        help_text="A PDF or a JPEG of at most 2 MB. Empty: the one that is kept stays.",
        required=False,
        allow_empty_file=True,
    )
    place = _words("Place in the rack")
    gone = forms.BooleanField(
        label="It is not there any more (lost, scrapped, sold)", required=False
    )
    why = forms.CharField(label="Why it is corrected", max_length=LONGEST_WHY)

    def __init__(self, piece: Piece, *args: Any, **kwargs: Any) -> None:
        now = facts_of(piece)
        kwargs["initial"] = {
            "seen": now.mark,
            "length": exact(now.length, piece.part.system),
            "heat": now.heat,
            "certificate_number": now.certificate_number,
            "place": now.place,
        }
        super().__init__(*args, **kwargs)
        self.piece = piece

    def clean_length(self) -> Length:
        """Unchanged text is the length that is stored, to the nanometre."""
        text = self.cleaned_data["length"]
        if text == self.initial["length"]:
            return self.piece.length
        try:
            return read_one(text, self.piece.part.system)
        except LengthError as error:
            raise forms.ValidationError(error.message) from error
        except ValueError as error:
            raise forms.ValidationError(str(error)) from error

    @property
    def facts(self) -> Facts:
        """What is to be written, once the form is valid."""
        said = self.cleaned_data
        names = ("length", "heat", "certificate_number", "place", "gone")
        return Facts(**{name: said[name] for name in names})


def exact(length: Length, system: str) -> str:
    """A length as it is typed back: in the part's unit, in the other where that is exact."""
    if system != "mm" and not length.inch_text.startswith("≈"):
        return length.show("in")
    return f"{length.mm_text.rstrip('0').rstrip('.')} mm"
