"""What stands in the rack: one question answered each, in a constant number of queries."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass

from django.db.models import F, Q, QuerySet

from catalog.models import Part
from catalog.pieces.models import BAR, BLANK, Certificate, Piece, ReorderPoint
from catalog.selectors import PAGE

FILTERS = {"": "in the rack", "free": "free", "held": "held", "gone": "gone"}


@dataclass(frozen=True, slots=True)
class PiecePage:
    """Some pieces by diameter, alloy and number, or of those that are gone the last one first;
    ``after``: the key the next page begins behind, None where there is none."""

    pieces: list[Piece]
    after: int | None


def pieces_page(
    *, part: str = "", show: str = "", after: int | None = None, size: int = PAGE
) -> PiecePage:
    """One page. ``part``: only of that code; ``show``: one of FILTERS, "" for all in the rack."""
    rows = _shown(show).select_related("part")
    if part:
        rows = rows.filter(part__code=part)
    if after is not None:
        rows = rows.filter(_gone_before(after) if show == "gone" else _behind(after))
    order = ("-gone_at", "-pk") if show == "gone" else ("part__diameter_nm", "part__alloy", "pk")
    found = list(rows.order_by(*order)[: size + 1])
    return PiecePage(found[:size], found[size - 1].pk if len(found) > size else None)


def _shown(show: str) -> QuerySet[Piece]:
    gone = Piece.objects.filter(gone_at__isnull=show != "gone")
    if show == "free":
        return gone.filter(free_nm=F("length_nm"))
    return gone.filter(free_nm__lt=F("length_nm")) if show == "held" else gone


def _behind(key: int) -> Q:
    """Behind that piece in the list's order; a key no piece has begins behind nothing."""
    piece = Piece.objects.filter(pk=key).select_related("part").first()
    if piece is None:
        return Q()
    diameter, alloy = piece.part.diameter_nm or 0, piece.part.alloy
    same = Q(part__diameter_nm=diameter)
    return (
        Q(part__diameter_nm__gt=diameter)
        | same & Q(part__alloy__gt=alloy)
        | same & Q(part__alloy=alloy, pk__gt=key)
    )


def _gone_before(key: int) -> Q:
    """The same among those that are gone."""
    moment = Piece.objects.filter(pk=key).values_list("gone_at", flat=True).first()
    if moment is None:
        return Q()
    before = Q(gone_at__lt=moment) | Q(gone_at=moment, pk__lt=key)
    return before & Q(gone_at__lte=moment)  # which an index can be read from


def piece(pk: int) -> Piece | None:
    """One piece with its part, its certificate's kind and what it was cut from."""
    found = Piece.objects.select_related("part", "cut_from", "goods_in", "certificate")
    return found.defer("certificate__content").filter(pk=pk).first()


def cut_off(found: Piece) -> list[Piece]:
    """What was left when this piece was sawn."""
    return list(found.cut_off.order_by("pk"))


def certificate_of(pk: int) -> Certificate | None:
    """The file that came with this piece, if one did."""
    return Certificate.objects.filter(pieces=pk).first()


def every_piece() -> Iterator[Piece]:
    """All pieces, also those that are gone, in the order in which they came."""
    return Piece.objects.select_related("part", "goods_in").order_by("pk").iterator(2000)


def receivable() -> list[Part]:
    """Bars and blanks, by size and alloy."""
    parts = Part.objects.filter(kind__in=(BAR, BLANK))
    return list(parts.order_by("kind", "diameter_nm", "alloy", "code"))


def part_of(code: str) -> Part | None:
    """The part of that code."""
    return Part.objects.filter(code=code).first()


def rack_of(
    system: str, diameter_nm: int, alloys: Collection[str], *, least_nm: int = 0
) -> list[Piece]:
    """Bars and remnants of one metal with at least so much free, by number."""
    pieces = Piece.objects.filter(gone_at=None, free_nm__gte=least_nm, part__kind=BAR)
    metal = pieces.filter(
        part__system=system, part__diameter_nm=diameter_nm, part__alloy__in=alloys
    )
    return list(metal.select_related("part").order_by("pk"))


def is_kept_by_piece(code: str) -> bool:
    """Whether the pieces of this part are listed one by one."""
    return Piece.objects.filter(part__code=code).exists()


def low_parts() -> list[ReorderPoint]:
    """Parts of which so few are free that they are to be ordered, by code."""
    free = F("part__on_hand") - F("part__held")
    low = ReorderPoint.objects.filter(part__on_hand__isnull=False).alias(free=free)
    return list(low.filter(free__lte=F("at")).select_related("part").order_by("part__code"))


def reorder_points() -> list[ReorderPoint]:
    """Every reorder point, by code."""
    return list(ReorderPoint.objects.select_related("part").order_by("part__code"))


def parts_of(codes: Collection[str]) -> list[Part]:
    """The parts of these codes, as they stand in the database now."""
    return list(Part.objects.filter(code__in=codes).order_by("pk"))


def bars_of(diameters_nm: Collection[int]) -> list[Piece]:
    """Bars and remnants of these diameters that stand in the rack, by number."""
    pieces = Piece.objects.filter(gone_at=None, part__kind=BAR)
    return list(
        pieces.filter(part__diameter_nm__in=diameters_nm).select_related("part").order_by("pk")
    )
