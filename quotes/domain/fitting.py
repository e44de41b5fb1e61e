"""The fitting card: how the shaft goes in, what gap to find, what to mind. Pure.

Common practice where nothing else is named; who fits follows the maker's and the yard's own
figures, and class, flag or local rules where they say more.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from catalog.domain.lengths import NM_PER_64TH, Length
from intake.domain.fit import Band
from quotes.domain.order import Shaft
from quotes.domain.thousandths import small
from quotes.domain.words import both


@dataclass(frozen=True, slots=True)
class FittingFacts:
    """Everything on the card; the same facts make the same bytes."""

    shop: str
    number: str
    version: int
    reference: str
    boat: str
    shaft: str
    address: str
    gap: tuple[str, ...]
    steps: tuple[str, ...]
    alignment: tuple[tuple[str, str], ...]
    cautions: tuple[str, ...]


def gap_lines(
    gap: Length | None, u: Length | None, band: Band | None, system: str = "inch"
) -> tuple[str, ...]:
    """The gap to find behind the strut, and what to do where it is not found.

    In fractions, as a drill's shank or a rule shows it: nobody finds 0.813 in under a boat. The
    doubt, two of ``u``, goes up to the next 1/64 in.
    """
    if gap is None or band is None:
        return ("No gap was predicted for this boat. Measure it, and tell us what you find.",)
    fair = f"Fair is from {both(band.least, system)} to {both(band.most, system)}."
    expected = f"With this shaft as it was made we expect {both(gap, system)}."
    if u is not None:
        doubt = Length(-(-2 * u.nm // NM_PER_64TH) * NM_PER_64TH)
        expected = f"{expected[:-1]}, give or take {both(doubt, system)}."
    return (
        expected,
        fair,
        "Outside that, stop and ring us before anything is cut, bolted or launched.",
    )


STEPS = (
    "Sight strut and log first; after a blow they may have moved.",
    "Taper and bore clean and dry. Try the propeller without its key, mark the bore, look at the "
    "contact, then fit the key: it must not lift the hub.",
    "Slide the shaft in with its threads and keyway covered; the rubber bearing takes water or "
    "soap, no oil or grease.",
    "Propeller home, nut tight by the maker's or the yard's figure, then locked. The order of "
    "plain and jam nut is disputed: follow the propeller's or the yard's instruction, and always "
    "cotter.",
    "Measure the gap, strut to propeller, with the shaft hard forward.",
    "Align afloat and settled, by a qualified yard; then the bolts by the maker's figure.",
    "Packing: none with graphite on stainless. A packed gland drips a few drops a minute under "
    "way.",
    "Look at nuts, bolts and gland again after the first run.",
)


def left_long_steps(shaft: Shaft) -> tuple[str, ...]:
    """What comes before everything else where the shaft was left long; nothing where it was not."""
    if not shaft.left_long:
        return ()
    left, to = (both(one, shaft.system) for one in (shaft.left_long, shaft.length))
    return (
        f"The coupling end is left long by {left}. Measure the boat with the shaft in place, then "
        f"a qualified yard faces it to length: {to} by your numbers.",
    )


CAUTIONS = (
    "Engine: battery off with its key in your pocket, remote starts off, gear lever tied in "
    "neutral, exhaust cool. Never turn the propeller by hand while the engine could start.",
    "Boat: never under her on a jack, trailer or slings alone. Keel on blocks, stands chained in "
    "pairs; move no stand to reach the strut.",
    "Afloat: an open log or gland floods her. Shafts go in and out ashore.",
    "Hands and eyes: keyways, threads and propeller edges cut, and the propeller can swing.",
    "Pulling: couplings and propellers leave a taper with a jump. The nut stays on by a few turns; "
    "no hammer on the shaft's end, no heat near rubber, fuel or fumes, no jacking against the "
    "gearbox.",
    "Lifting: two people carry a long shaft, its ends capped.",
    "Bilge: smell for fuel, blower on before any spark or grinder; nobody works alone in there.",
    "Coupling faces are never pulled together with their bolts.",
    "Corrosion: isolate bronze and stainless from aluminium, renew the anodes, no paint in bearing "
    "or taper.",
    "We do not certify strength or whip. Changed power, ratio, diameter or alloy goes to a "
    "qualified designer; class, flag and local rules decide on commercial and passenger boats.",
    "Sea trial: watch the gland's warmth and leak; stop for vibration.",
)


def alignment_rows(flange: Length | None) -> tuple[tuple[str, str], ...]:
    """How far the coupling's faces may stand apart, by whose word."""
    return tuple(_alignment(flange))


def _alignment(flange: Length | None) -> Iterator[tuple[str, str]]:
    rule = "0.001 in for each inch of the flange's diameter (common practice)"
    if flange is not None:
        most = Length(flange.nm // 1000)
        rule = f"{small(most)} on your flange of {flange.both()}: {rule}"
    yield "Faces apart", f"{rule}; afloat"
    army = "0.002 in afloat (US Army TM 55-1905-220-14-11)"
    yield "Tighter", f"{army}; the gearbox maker's own figure comes first"
    yield "Tightening", "by the makers' figures; the yard writes them here:"
