"""Everything the page of one case shows."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any, cast

from catalog.domain.lengths import Length
from intake.cause_words import cause_words
from intake.domain.causes import CAUSES, family
from quotes.cases import selectors
from quotes.cases.forms import (
    AgreeForm,
    CauseForm,
    CostForm,
    RemakeForm,
    SizeForm,
    StepForm,
    WordsForm,
    new_once,
)
from quotes.cases.models import Case
from quotes.domain import case_words as words
from quotes.domain.case_costs import USUAL
from quotes.domain.case_policy import Suggestion, born_in, suggest_payer
from quotes.domain.fitted import Expected
from quotes.domain.lifecycle import QuoteStatus
from quotes.domain.remedy import Advice, Misfit, advise, shorten_card
from quotes.models import Quote
from quotes.outcomes.models import Outcome
from quotes.outcomes.selectors import expected_of, outcomes_of

FORMS: dict[str, type[StepForm]] = {
    form.step: form for form in (SizeForm, CauseForm, AgreeForm, CostForm, WordsForm, RemakeForm)
}


@dataclass(frozen=True)
class CaseShown:
    """One case with its forms; ``bound``: the form that was sent, as it was typed. ``kept``: what
    a list has read already for all its lines."""

    case: Case
    bound: StepForm | None = None
    refused: str = ""
    writes: bool = True
    kept: dict[str, Any] = field(default_factory=dict)

    @property
    def quote(self) -> Quote:
        return self.case.quote

    @property
    def is_open(self) -> bool:
        return self.case.state in words.STANDS_OPEN

    @property
    def state(self) -> str:
        return words.STATES[self.case.state]

    @property
    def opened_as(self) -> str:
        return words.OPENED_AS[self.case.opened_as]

    @cached_property
    def misfit(self) -> Misfit | None:
        return selectors.misfit_of(self.case, self.expected)

    @cached_property
    def advice(self) -> Advice | None:
        """What would help; None where no shaft was ordered."""
        return advise(self.misfit) if self.misfit else None

    @cached_property
    def expected(self) -> Expected | None:
        if "expected" in self.kept:
            return cast("Expected | None", self.kept["expected"])
        return expected_of(self.quote, without=self.case)

    @property
    def gap(self) -> str:
        """The gap as fitted, in both systems."""
        return Length(self.case.gap_nm).both() if self.case.gap_nm is not None else ""

    @property
    def excess(self) -> str:
        """Too long or too short, as it was told."""
        if self.case.excess_nm is None:
            return ""
        way = "long" if self.case.excess_nm > 0 else "short"
        return f"too {way} by {Length(abs(self.case.excess_nm)).both()}"

    @property
    def by_how_much(self) -> str:
        return Length(self.case.by_nm).both() if self.case.by_nm is not None else ""

    @cached_property
    def outcomes(self) -> list[Outcome]:
        return outcomes_of(self.quote)

    # --- Why ---

    @property
    def cause(self) -> str:
        """The primary cause in words, with its code."""
        code = self.case.cause
        return f"{code}: {cause_words(code)} ({family(code)})" if code else ""

    @property
    def contributing(self) -> list[str]:
        return [f"{code}: {CAUSES.get(code, code)}" for code in self.case.contributing]

    @property
    def suggestion(self) -> Suggestion:
        kind = self.case.kind or (self.advice.kind if self.advice else "")
        return suggest_payer(self.case.cause, kind)

    @cached_property
    def asked(self) -> list[Any]:
        """Checks that had asked before it was made, with what settled them."""
        return selectors.asked_before(self.case)

    # --- What is done ---

    @property
    def card(self) -> tuple[str, ...]:
        """The shop's lines for shortening."""
        if self.misfit is None or self.case.kind != "shorten" or self.case.by_nm is None:
            return ()
        return shorten_card(self.misfit, Length(self.case.by_nm))

    @cached_property
    def parts(self) -> list[Any]:
        return selectors.parts_of(self.case)

    @cached_property
    def remake(self) -> Quote | None:
        return selectors.remake_for(self.case)

    @property
    def may_remake(self) -> bool:
        return self.case.kind == "remake" and self.case.state in (words.AGREED, words.DOING)

    @property
    def may_accept(self) -> bool:
        """A remake at our cost waits for the desk's own yes."""
        issued = self.remake is not None and self.remake.status == QuoteStatus.ISSUED
        return issued and self.case.payer == words.US

    # --- Costs and history ---

    @cached_property
    def costs(self) -> list[Any]:
        return selectors.costs_of(self.case)

    @property
    def total(self) -> Any:
        return sum((line.amount for line in self.costs), start=0)

    @property
    def has_usual(self) -> bool:
        booked = {line.once for line in self.costs}
        return self.case.kind in USUAL and f"usual:{self.case.kind}:0" not in booked

    @cached_property
    def events(self) -> list[Any]:
        return selectors.events_of(self.case)

    # --- Forms ---

    @property
    def wrong(self) -> list[dict[str, str]]:
        return self.bound.wrong if self.bound else []

    def _form(self, step: str, initial: Mapping[str, Any]) -> StepForm:
        if self.bound is not None and self.bound.step == step:
            return self.bound
        return FORMS[step](self.case, initial=dict(initial))

    @property
    def size_form(self) -> StepForm:
        case, told = self.case, {}
        if case.gap_nm is not None:
            told["gap"] = self._typed(case.gap_nm)
        if case.excess_nm is not None:
            told["excess"] = self._typed(abs(case.excess_nm))
            told["way"] = "long" if case.excess_nm > 0 else "short"
        return self._form("size", {"part": case.part, **told})

    @property
    def cause_form(self) -> StepForm:
        case = self.case
        also = dict(zip(("also_1", "also_2"), case.contributing, strict=False))
        kept = {name: getattr(case, name) for name in ("cause", "evidence", "found_by", "found")}
        return self._form("cause", {**kept, **also, "born": case.born or born_in(case.cause)})

    @property
    def agree_form(self) -> StepForm:
        case, advice = self.case, self.advice
        kept: dict[str, Any] = {"kind": case.kind or (advice.kind if advice else "")}
        if case.by_nm is not None:
            kept["by_length"] = self._typed(case.by_nm)
        elif advice and advice.by is not None and advice.kind in ("shorten", "spacer"):
            kept["by_length"] = self._typed(advice.by.nm)
        payer = case.payer or self.suggestion.payer
        why = case.payer_why or (self.suggestion.why if payer else "")
        return self._form("agree", {**kept, "payer": payer, "why": why, "comes_back": True})

    @property
    def cost_form(self) -> StepForm:
        return self._form("cost", {"once": new_once()})

    @property
    def words_form(self) -> StepForm:
        return self._form("words", {})

    @property
    def remake_form(self) -> StepForm:
        return self._form("remake", {})

    def _typed(self, nm: int) -> str:
        """As somebody would type it into a box of this tape's unit, always with the unit."""
        unit = "mm" if self.quote.sheet.body.get("tape_unit") == "mm" else "in"
        text = Length(nm).show(unit)
        return text if "≈" not in text else f"{Length(nm).mm_text} mm"
