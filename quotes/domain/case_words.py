"""What can be said of a case in plain words: kinds, states, stages, who pays, what it cost."""

from __future__ import annotations

NONE_YET = ""
KINDS = {
    NONE_YET: "nothing chosen yet",
    "shorten": "shorten",
    "spacer": "spacer",
    "remake": "remake",
    "swap": "swap a part",
}
OPEN, AGREED, DOING, DONE, WITHOUT = "open", "agreed", "doing", "done", "without"
STATES = {
    OPEN: "open",
    AGREED: "agreed",
    DOING: "being done",
    DONE: "done",
    WITHOUT: "closed without",
}
STANDS_OPEN = (OPEN, AGREED, DOING)
# From where to where; nothing is ever moved back from its end: a new case refers to the old one.
MOVES = {
    OPEN: (AGREED, WITHOUT),
    AGREED: (DOING, OPEN, WITHOUT),
    DOING: (DONE, AGREED),
    DONE: (),
    WITHOUT: (),
}
# How a case came to be.
OPENED_AS = {
    "no": "the customer says it does not fit",
    "outside": "the gap is outside its band",
    "shift": "it fits, though not as predicted",
    "staff": "opened at the desk",
}
NO_MISFIT = "shift"
# Each of trade practice's four moments; common practice, no source.
FOUND = {
    "before_quote": "before the quote",
    "before_cut": "before it was cut",
    "before_ship": "before it was sent",
    "at_fitting": "at fitting",
}
BORN = {
    "measuring": "measuring at the boat",
    "boat": "on the boat itself",
    "desk": "at the desk",
    "catalogue": "in the catalogue",
    "shop": "in the shop",
    "way": "on the way",
    "fitting": "at fitting",
    "unknown": "not known",
}
US, CUSTOMER = "us", "customer"
PAYERS = {
    US: "we do",
    CUSTOMER: "the customer, by the terms",
}
COSTS = {
    "material": "material",
    "labour": "labour",
    "freight_out": "freight to the customer",
    "freight_in": "freight back to us",
    "desk": "time at the desk",
    "goodwill": "goodwill",
}
