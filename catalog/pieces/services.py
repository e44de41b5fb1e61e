"""Pieces of metal: received, held by the inch, sawn, corrected. What is held is never too much.

Every change takes the turn first (``catalog.services.next_version``), then pieces by ascending
key, then parts. ``hold_some``, ``let_go`` and ``saw`` are for whoever has taken the turn already,
inside their transaction.
"""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass

from django.contrib.auth.models import User
from django.db import transaction
from django.db.models import F
from django.utils import timezone

from catalog.domain.lengths import Length
from catalog.models import Part
from catalog.pieces.counting.services import recount
from catalog.pieces.models import BAR, BLANK, REMNANT, Certificate, GoodsIn, Piece, ReorderPoint
from catalog.pieces.paper import Scan
from catalog.pieces.signals import goods_came
from catalog.services import next_version
from staff.errors import Overtaken, Refused
from staff.trail.services import States, note_change, note_changes

TRAIL = "piece"  # the trail's name for these records; the key is the piece's number
POINT_TRAIL = "reorder point"  # the key is the part's code
KEPT_FROM = Length(25_400_000)  # a shorter end goes into the bin (invented)
MOST_AT_ONCE = 200


# --- Goods in -------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Delivered:
    """One line of a delivery paper as it was read. ``heat`` "" is not known."""

    paper: str
    lengths: tuple[Length, ...]
    line: int = 1
    heat: str = ""
    certificate_number: str = ""
    place: str = ""
    certificate: Scan | None = None


@dataclass(frozen=True, slots=True)
class Received:
    """``pieces``: what stands in the rack by this line; ``new``: False where it did already.

    ``listed``: how many bars that were only counted so far were listed with it, heat not known.
    """

    pieces: tuple[Piece, ...]
    new: bool = True
    listed: int = 0


@transaction.atomic
def receive_goods(*, part: Part, goods: Delivered, by: User | None = None) -> Received:
    """Put the bars of one line of a delivery paper into the rack, once however often it is sent.

    Raises Refused where the part is no bar or blank, a length is nothing, or the same line of
    that paper was received for another part.
    """
    _receivable(part, goods)
    next_version()
    line, new = GoodsIn.objects.get_or_create(
        paper=goods.paper, line=goods.line, defaults={"part": part, "by": by}
    )
    if not new:
        return _received_before(line, part)
    listed = _list_counted(part)
    certificate = _kept(goods.certificate)
    pieces = Piece.objects.bulk_create(
        [_piece(part, length, line, goods, certificate) for length in goods.lengths]
    )
    recount([part.pk])
    changes: list[tuple[object, States]] = [(piece.pk, ({}, _told(piece))) for piece in pieces]
    note_changes(record=TRAIL, by=by, why=f"came with {line}", changes=changes)
    goods_came.send(sender=Piece)
    return Received(tuple(pieces), listed=listed)


def _receivable(part: Part, goods: Delivered) -> None:
    if part.kind not in (BAR, BLANK):
        raise Refused(f"{part.code} is no bar and no blank, so it is not kept piece by piece.")
    if not 0 < len(goods.lengths) <= MOST_AT_ONCE:
        raise Refused(f"Give at least one length and at most {MOST_AT_ONCE} at once.")
    if min(goods.lengths).nm <= 0:
        raise Refused("A piece has a length above nothing.")


def _received_before(line: GoodsIn, part: Part) -> Received:
    if line.part_id != part.pk:
        raise Refused(
            f"{line} was received for {line.part.code} already. Look at the paper's line number."
        )
    return Received(tuple(line.pieces.filter(cut_from=None).order_by("pk")), new=False)


def _piece(
    part: Part, length: Length, line: GoodsIn, goods: Delivered, certificate: Certificate | None
) -> Piece:
    return Piece(
        part=part,
        kind=part.kind,
        length_nm=length.nm,
        free_nm=length.nm,
        heat=goods.heat,
        certificate_number=goods.certificate_number,
        certificate=certificate,
        place=goods.place,
        goods_in=line,
    )


def _kept(scan: Scan | None) -> Certificate | None:
    """The same paper is kept once, for however many pieces and deliveries."""
    if scan is None:
        return None
    certificate, _new = Certificate.objects.get_or_create(
        sha256=scan.sha256, defaults={"kind": scan.kind, "content": scan.content}
    )
    return certificate


@transaction.atomic
def lay_out_pieces() -> int:
    """List the bars and blanks that were only counted so far; how many pieces that made.

    For a shop that begins to keep its rack piece by piece. Each is as long as the catalogue's
    stock length; heat and place are not known and stay empty. A part that has pieces, or ever
    had, is left alone: it may be called again.
    """
    next_version()
    parts = Part.objects.filter(kind__in=(BAR, BLANK), pieces__isnull=True).order_by("pk")
    listed = sum(map(_list_counted, list(parts)))
    if listed:
        goods_came.send(sender=Piece)
    return listed


def _list_counted(part: Part) -> int:
    """The bars of one part by its count; none where it is kept piece by piece already."""
    count, length = part.on_hand or 0, part.stock_length_nm
    if not count or not length or part.pieces.exists():
        return 0
    one = {"part": part, "kind": part.kind, "length_nm": length, "free_nm": length}
    Piece.objects.bulk_create([Piece(**one) for _ in range(count)])
    recount([part.pk])
    return count


# --- Holding, letting go, sawing: for whoever has the turn ----------------------------------


def hold_some(piece_id: int, needed: Length) -> bool:
    """Hold so much of a piece if so much is free; the database decides."""
    there = Piece.objects.filter(pk=piece_id, gone_at=None, free_nm__gte=needed.nm)
    held = bool(there.update(free_nm=F("free_nm") - needed.nm))
    if held:
        _count_again(piece_id)
    return held


def let_go(piece_id: int, needed: Length) -> None:
    """What was held of a piece is free again; nothing happens to a piece that is gone."""
    held = Piece.objects.filter(pk=piece_id, gone_at=None)
    if held.update(free_nm=F("free_nm") + needed.nm):
        _count_again(piece_id)


def _count_again(piece_id: int) -> None:
    recount(Piece.objects.filter(pk=piece_id).values_list("part_id", flat=True))


@dataclass(frozen=True, slots=True)
class Sawn:
    """``remnant`` is the piece that is left, None where it is an end for the bin."""

    piece: Piece
    left: Length
    remnant: Piece | None


def saw(piece_id: int, needed: Length, *, why: str, by: User | None) -> Sawn | None:
    """Saw off what was held. The piece is gone; what is left is a piece of its own.

    It keeps heat, certificate, place and what others hold of it. None where the piece is gone.
    """
    piece = Piece.objects.select_for_update().filter(pk=piece_id, gone_at=None).first()
    if piece is None:
        return None
    others = piece.held - needed
    left = piece.length - needed
    Piece.objects.filter(pk=piece.pk).update(gone_at=timezone.now(), gone_why=why, free_nm=0)
    remnant = _left_over(piece, left, others) if left >= KEPT_FROM or others.nm > 0 else None
    recount([piece.part_id])
    after = {"gone": why, "left": remnant.label if remnant else f"an end of {left.both()}"}
    _note(piece, by, why, {}, after)
    return Sawn(piece, left, remnant)


def _left_over(piece: Piece, left: Length, others: Length) -> Piece:
    return Piece.objects.create(
        part_id=piece.part_id,
        kind=REMNANT,
        length_nm=left.nm,
        free_nm=left.nm - others.nm,
        heat=piece.heat,
        certificate_number=piece.certificate_number,
        certificate_id=piece.certificate_id,
        place=piece.place,
        goods_in_id=piece.goods_in_id,
        cut_from=piece,
    )


# --- Parts that are counted -----------------------------------------------------------


def hold_counted(code: str, quantity: int) -> bool:
    """Promise so many of a part if so many are free; also where nobody counts it."""
    part = Part.objects.filter(code=code)
    enough = part.filter(on_hand__gte=F("held") + quantity)
    held = enough.update(held=F("held") + quantity)
    return bool(held) or part.filter(on_hand=None).exists()


def let_go_counted(code: str, quantity: int) -> None:
    """So many are promised to nobody again."""
    part = Part.objects.filter(code=code)
    part.filter(held__gte=quantity).update(held=F("held") - quantity)
    recount(part.values_list("pk", flat=True))


def take_counted(code: str, quantity: int) -> None:
    """So many that were promised leave the shelf. Who counted fewer meanwhile was right."""
    part = Part.objects.filter(code=code, on_hand__isnull=False)
    let_go_counted(code, quantity)
    if not part.filter(on_hand__gte=quantity).update(on_hand=F("on_hand") - quantity):
        part.update(on_hand=0)
    recount(part.values_list("pk", flat=True))


# --- Correcting -----------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Facts:
    """What may be corrected of a piece. ``gone``: it is not there any more."""

    length: Length
    heat: str
    certificate_number: str
    place: str
    gone: bool = False

    @property
    def mark(self) -> str:
        """The same text as long as nothing of it has changed."""
        return hashlib.sha256(repr(self).encode()).hexdigest()[:20]


def facts_of(piece: Piece) -> Facts:
    """What is written of a piece now."""
    return Facts(
        piece.length, piece.heat, piece.certificate_number, piece.place, piece.gone_at is not None
    )


@transaction.atomic
def correct_piece(
    *, piece: Piece, seen: str, to: Facts, by: User, why: str, certificate: Scan | None = None
) -> Piece:
    """Write down what is true of a piece, with a reason.

    ``seen``: the mark of its facts as the page showed them. Raises Overtaken where somebody
    changed it since, Refused where more of it is held
    than would be left.
    """
    next_version()
    now = Piece.objects.select_for_update().get(pk=piece.pk)
    if facts_of(now).mark != seen:
        raise Overtaken
    _leaves_what_is_held(now, to)
    before = _told(now)
    now.free_nm = 0 if to.gone else to.length.nm - now.held.nm
    now.length_nm, now.heat, now.place = to.length.nm, to.heat, to.place
    now.certificate_number = to.certificate_number
    now.certificate = _kept(certificate) or now.certificate
    if to.gone and now.gone_at is None:
        now.gone_at, now.gone_why = timezone.now(), why[:200]
    now.save()
    recount([now.part_id])
    _note(now, by, why, before, _told(now))
    return now


def _leaves_what_is_held(now: Piece, to: Facts) -> None:
    if now.gone_at is not None:
        raise Refused(f"{now.label} is gone: {now.gone_why}. What is gone is not corrected.")
    if to.length.nm <= 0:
        raise Refused("A piece has a length above nothing.")
    if now.held.nm and (to.gone or to.length < now.held):
        raise Refused(
            f"{now.held.both()} of {now.label} is held for accepted shafts. Hold other pieces for "
            "them first, on the page of bars and shafts."
        )


def _told(piece: Piece) -> dict[str, str]:
    told = {
        "length": piece.length.both(),
        "heat": piece.heat,
        "certificate number": piece.certificate_number,
        "certificate": piece.certificate.sha256[:12] if piece.certificate else "",
        "place": piece.place,
        "gone": piece.gone_why if piece.gone_at else "",
    }
    return {name: text for name, text in told.items() if text}


def _note(
    piece: Piece, by: User | None, why: str, before: Mapping[str, str], after: Mapping[str, str]
) -> None:
    note_change(record=TRAIL, key=piece.pk, by=by, why=why, before=before, after=after)


# --- Reorder points -------------------------------------------------------------------


@transaction.atomic
def set_reorder_point(*, part: Part, at: int | None, to: int, by: User, why: str) -> None:
    """Order this part at so many free, up to so many; ``at`` None: it has no such point."""
    next_version()
    old = ReorderPoint.objects.filter(part=part).first()
    before = {"order at": old.at, "up to": old.to} if old else {}
    if at is None:
        ReorderPoint.objects.filter(part=part).delete()
    elif to <= at:
        raise Refused("Order up to more than the number it is ordered at.")
    else:
        ReorderPoint.objects.update_or_create(part=part, defaults={"at": at, "to": to})
    after = {} if at is None else {"order at": at, "up to": to}
    note_change(record=POINT_TRAIL, key=part.code, by=by, why=why, before=before, after=after)
