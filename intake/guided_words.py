"""What the guided path says besides its questions. The scripts hold keys, the words come from here.

``{n}`` and the like are filled in by the page.
"""

from __future__ import annotations

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

WORDS: dict[str, str | Promise] = {
    # moving about
    "next": _("Next"),
    "back": _("Back"),
    "done": _("Done"),
    "progress": _("{n} of {all}"),
    "left_one": _("the last one"),
    "left": _("{n} to go"),
    "skip_hint": _("Nothing here yet. You can go on, and come back later."),
    "how": _("How to measure it"),
    "why": _("Why we ask"),
    "slip": _("Easy to miss:"),
    "know": _("Read more, with pictures"),
    "picture": _("Picture: {what}"),
    "fallback": _("Then this instead"),
    "cannot": _("I can't measure this"),
    "cannot_on": _("Noted: you can't measure this."),
    "cannot_undo": _("I can after all"),
    "measured_with": _("Measured with"),
    "caution": _("First, your safety."),
    "caution_read": _("Seen to"),
    "usual_mistake": _("The usual mistake"),
    # numbers
    "inches": _("in"),
    "millimetres": _("mm"),
    "tape_in": _("This tape is in"),
    "reads": _("{both}: {spoken}"),
    "say": _("Say it aloud"),
    "say_always": _("Say every number aloud"),
    "meant": _("Did you mean:"),
    "not_read": _("We cannot read that here; the desk will."),
    "implausible": _(
        "That is outside of what such a part usually measures. Please look once more."
    ),
    # Translators: the sign between whole numbers and decimals.
    "decimal_sign": _("."),
    "keys": _("Keys for the number"),
    "key_space": _("space"),
    "key_delete": _("delete"),
    "key_letters": _("Type words"),
    "key_and": _("and"),
    "first_hidden": _("Your first number is hidden until the second is in."),
    "first_was": _("First: {first}. Second: {second}."),
    "apart": _("They are {apart} apart."),
    "the_same": _("They are the same."),
    "apart_fine": _("That is what two honest readings look like. Both are kept."),
    "apart_much": _("That is far apart. If you can, take it once more; if not, both are kept."),
    "unit_question": _("No unit chosen: we go by what is likely."),
    # boats
    "boats": _("Your boats on this phone"),
    "no_boats": _("Nothing is kept here yet."),
    "start": _("Measure a boat"),
    "start_another": _("Measure another boat"),
    "nameless": _("A boat without a name"),
    "resume": _("Go on at: {ask}"),
    "open": _("Go on"),
    "rename": _("Rename"),
    "name": _("Boat"),
    "delete": _("Delete"),
    "delete_sure": _("Delete {name} from this phone? It cannot be brought back."),
    "delete_keep": _("Keep it"),
    "state_draft": _("on this phone"),
    "state_waiting": _("waiting for signal"),
    "state_sending": _("sending"),
    "state_sent": _("sent"),
    "state_trouble": _("needs another look"),
    "sent_as": _("Sent as {reference}."),
    "status_page": _("See what the desk says"),
    "try_now": _("Try now"),
    "retry_at": _("We try again at {time}."),
    "many": _("The desk is busy just now."),
    "server_down": _("The desk's computer did not answer."),
    "conflict": _(
        "The desk already has a sheet under this number. Please look it over and send it again."
    ),
    "refused": _("The desk could not read all of it. Please put this right and send it again."),
    "take_back": _("Take it back to change it"),
    "away": _("That page needs a signal. Your boats are here, and measuring works without one."),
    "offline": _("No signal: all of this works, and is sent when it returns."),
    "online": _("Signal is back."),
    "no_store": _(
        "This browser keeps nothing, perhaps because of a private window. Please use the form on "
        "one page."
    ),
    "one_page": _("Everything on one page"),
    "other_tab": _("Changed in another window just now; you see the newest."),
    "saved": _("Kept on this phone."),
    "ready_offline": _("Ready to work without a signal."),
    "settings": _("Settings"),
    "save_first": _("Kept on this phone as you type. Nothing is sent before you say so."),
    # review
    "review": _("As we understood you"),
    "review_lead": _("Read it once more, aloud if you can. Then send it."),
    "review_more": _("A few more, because something does not add up yet or would make us surer."),
    "checking": _("One moment: looking whether it adds up."),
    "change": _("Change"),
    "change_what": _("Change: {what}"),
    "unanswered": _("not answered"),
    "cannot_said": _("can't be measured"),
    "no_contact": _("Please leave a phone number or an e-mail address."),
    "no_wants": _("Tick at least one thing that you want from us."),
    "send": _("Send it to the desk"),
    "send_later": _("Finish; it is sent when there is a signal"),
    "thanks": _("Done. It is kept here until it has gone out, once."),
    "second": _("second reading: {both}"),
    "more_asked": _("asked because of what the checks saw"),
    # helper
    "hand_over": _("Give it to my helper's phone"),
    "hand_over_lead": _(
        "Let the other phone's camera look at this, or send the link. It works for 24 hours. From "
        "then on each phone has its own copy: go on with one of them."
    ),
    "hand_over_qr": _("Square code of the link"),
    "hand_over_fails": _("This needs a signal for a moment."),
    "hand_over_gone": _("That link is no longer good. Ask for a new one."),
    "hand_over_came": _("Here it is. Go on where the other phone stopped."),
    "copy": _("Copy the link"),
    "copied": _("Copied"),
    "paper": _("Print a measuring sheet"),
    # photos
    "photo_add": _("Add a photo"),
    "photo_one": _("{n} photo"),
    "photo_many": _("{n} photos"),
    "photo_remove": _("Remove this photo"),
    "photo_full": _("Six photos are enough; remove one to add another."),
    "photo_bad": _("That is no picture this phone can open."),
    "photos_waiting": _("photos waiting"),
    "photos_sent": _("photos sent"),
    "photo_refused": _("A photo was not taken: {why}"),
}
