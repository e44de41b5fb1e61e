"""What the manager's numbers are counted from: facts, one row for each thing that happened.

Facts are worked out from the desk's records and may be thrown away and made anew at any time:
nothing else knows them, nobody types them, and they hold no names. Cells are the same counted by
month, so that a page reads hundreds of rows where there are a million requests.
"""

from __future__ import annotations

from django.db import models

_WORD = 40


class Circumstances(models.Model):
    """What every fact can be filtered by, as it was told on the request.

    ``month`` is that of the thing itself ("2026-04"), not of the request it belongs to.
    ``method``: how the strut distance was taken, or else the old shaft; "" for neither.
    ``parts``: first letters of what was wanted, in the order s(haft), c(oupling), b(earing).
    """

    month = models.CharField(max_length=7)
    channel = models.CharField(max_length=5, blank=True)
    method = models.CharField(max_length=20, blank=True)
    layout = models.CharField(max_length=20, blank=True)
    role = models.CharField(max_length=10, blank=True)
    parts = models.CharField(max_length=3, blank=True)

    class Meta:
        abstract = True


class RequestFact(Circumstances):
    """One request, from the day it came to the day it was heard of last.

    ``month``: of its coming. ``flags``: checks that held it, each once. ``answered``: names of the
    answers it had at first. Waits are whole seconds from coming to the first issued quote, split
    by who was waited for; None while none is issued. ``stated_fit``: what was said when the shaft
    left; ``z``: the fitted gap less the predicted one, over its standard uncertainty. ``fits``:
    True fitted without rework, False with it or not at all, None nothing heard (which is no
    success). ``caught``: where its first mistake came to light: "", entry, call, shop or boat.
    ``over``: reasons of the findings that were released over. ``lacking``: what was asked for and
    is not in the catalogue, in words.
    """

    submission = models.OneToOneField(
        "intake.Submission", models.CASCADE, primary_key=True, related_name="fact"
    )
    received_at = models.DateTimeField()
    customer = models.PositiveBigIntegerField(null=True, blank=True)
    family = models.CharField(max_length=140, blank=True)
    rules_version = models.CharField(max_length=20, blank=True)
    first_verdict = models.CharField(max_length=7, blank=True)
    flags = models.PositiveSmallIntegerField(default=0)
    calls = models.PositiveSmallIntegerField(default=0)
    answered = models.JSONField(default=list)
    machine_seconds = models.PositiveIntegerField(null=True, blank=True)
    desk_seconds = models.PositiveIntegerField(null=True, blank=True)
    customer_seconds = models.PositiveIntegerField(null=True, blank=True)
    shipped_on = models.DateField(null=True, blank=True)
    shipped_month = models.CharField(max_length=7, blank=True)
    stated_fit = models.FloatField(null=True, blank=True)
    z = models.FloatField(null=True, blank=True)
    fits = models.BooleanField(null=True, blank=True)
    caught = models.CharField(max_length=5, blank=True)
    over = models.JSONField(default=list)
    lacking = models.JSONField(default=list)
    audited = models.BooleanField(default=False)
    audit_wrong = models.BooleanField(null=True, blank=True)

    class Meta:
        app_label = "quotes"
        indexes = [
            models.Index(fields=["month", "submission"], name="fact_by_month"),
            models.Index(fields=["shipped_month", "submission"], name="fact_by_shipping"),
        ]

    def __str__(self) -> str:
        return f"fact of {self.submission_id}"


class FlagFact(Circumstances):
    """One check that held one request, once. ``month``: of the request's coming.

    ``was_right``: the value changed by more than its tolerance, or a wrong part was avoided; None
    while nobody has answered. ``over``: it was released over, with that reason.
    """

    fact = models.ForeignKey(RequestFact, models.CASCADE, related_name="flag_facts")
    check_id = models.CharField(max_length=_WORD)
    answer = models.CharField(max_length=_WORD, blank=True)
    asked = models.BooleanField(default=False)
    was_right = models.BooleanField(null=True, blank=True)
    over = models.CharField(max_length=200, blank=True)

    class Meta:
        app_label = "quotes"
        indexes = [models.Index(fields=["month", "check_id"], name="flag_fact_by_check")]

    def __str__(self) -> str:
        return f"{self.check_id} on {self.fact_id}"


class MismatchFact(Circumstances):
    """One mistake that came to light, with its cause. ``month``: of coming to light.

    ``found``: before_quote, before_cut, before_ship, at_fitting. ``born``: the stage it was made
    at. ``answer``: the question it was made in. ``cost`` is what was booked, or where it was found
    on a call, what calls cost. ``again``: whether the same cause was seen in the ninety days
    before for the same customer, hull family or question, as letters c, f, q ("" for none).
    ``what``: of which part, where that is known (its code). ``case``: its case, if it has one.
    """

    fact = models.ForeignKey(RequestFact, models.CASCADE, related_name="mismatch_facts")
    on = models.DateField()
    cause = models.CharField(max_length=16)
    found = models.CharField(max_length=12)
    born = models.CharField(max_length=10, blank=True)
    answer = models.CharField(max_length=_WORD, blank=True)
    cost = models.DecimalField(max_digits=11, decimal_places=2, default=0)
    fired = models.BooleanField(default=False)
    overridden = models.BooleanField(default=False)
    again = models.CharField(max_length=3, blank=True)
    what = models.CharField(max_length=_WORD, blank=True)
    case = models.ForeignKey("quotes.Case", models.CASCADE, null=True, blank=True, related_name="+")

    class Meta:
        app_label = "quotes"
        indexes = [
            models.Index(fields=["month", "cause"], name="mismatch_fact_by_cause"),
            models.Index(fields=["cause", "on"], name="mismatch_fact_by_day"),
        ]

    def __str__(self) -> str:
        return f"{self.cause} of {self.fact_id}"


class BarFact(models.Model):
    """One bar or remnant that was sawn for a shaft. Lengths are whole nanometres.

    ``used_nm`` went into the shaft, ``kept_nm`` is back in the rack, ``dropped_nm`` is scrap.
    """

    hold = models.OneToOneField("quotes.Hold", models.CASCADE, primary_key=True, related_name="+")
    fact = models.ForeignKey(RequestFact, models.CASCADE, related_name="bar_facts")
    month = models.CharField(max_length=7)
    part_code = models.CharField(max_length=_WORD)
    size = models.CharField(max_length=60)
    used_nm = models.BigIntegerField()
    kept_nm = models.BigIntegerField(default=0)
    dropped_nm = models.BigIntegerField(default=0)

    class Meta:
        app_label = "quotes"
        indexes = [models.Index(fields=["month", "part_code"], name="bar_fact_by_month")]

    def __str__(self) -> str:
        return f"{self.size}: {self.used_nm}"


class Cell(Circumstances):
    """How often one thing was counted in one month under the same circumstances.

    ``measure`` and ``key`` are those of quotes/domain/insight/measures.py; ``n`` how many,
    ``amount`` a whole sum beside it (cents, millionths, nanometres, as the measure says).
    """

    measure = models.CharField(max_length=20)
    key = models.CharField(max_length=120, blank=True)
    n = models.IntegerField(default=0)
    amount = models.BigIntegerField(default=0)

    class Meta:
        app_label = "quotes"
        indexes = [
            models.Index(fields=["measure", "month", "key", "n", "amount"], name="cell_by_measure"),
            models.Index(fields=["month"], name="cell_by_month"),
        ]

    def __str__(self) -> str:
        return f"{self.measure} {self.key} {self.month}: {self.n}"


class CountedUpTo(models.Model):
    """How far the records of one kind have been counted, so that what is newer is counted next."""

    record = models.CharField(max_length=40, primary_key=True)
    key = models.PositiveBigIntegerField(default=0)
    at = models.DateTimeField(null=True, blank=True)

    class Meta:
        app_label = "quotes"

    def __str__(self) -> str:
        return f"{self.record} up to {self.key}"


class MonthToCount(models.Model):
    """A month whose cells are behind its facts."""

    month = models.CharField(max_length=7, primary_key=True)

    class Meta:
        app_label = "quotes"

    def __str__(self) -> str:
        return self.month
