// A browser that was closed too early has answers the desk never got: they are offered again.
import { goTo, labelOf, fieldOf, put, texts } from "./boxes.js";
import { el } from "./dom.js";
import * as store from "./store.js";

/** Offer what an earlier page could not send; `taken` hears that something was put in. */
export function offerLeftOver(form, keeper, place, taken) {
  const own = different(form, store.left(keeper.ident));
  if (Object.keys(own).length) show(form, place, keeper.ident, own, taken, false);
  else if (!("kept" in form.dataset)) {
    const [other] = store.others(keeper.ident);
    if (other) show(form, place, other.ident, other.boxes, taken, true);
  }
}

function different(form, boxes) {
  const now = texts(form);
  return Object.fromEntries(Object.entries(boxes).filter(([name, text]) => now[name] !== text));
}

function show(form, place, ident, boxes, taken, isOther) {
  const told = Object.entries(boxes).map(([name, text]) => `${labelOf(form, name)}: ${text || "nothing"}`);
  const put_in = () => {
    for (const [name, text] of Object.entries(boxes)) put(form, name, text);
    done();
    taken();
  };
  const done = () => {
    if (isOther) store.keep(ident, {});
    notice.remove();
    goTo(fieldOf(form, Object.keys(boxes)[0]) ?? form.querySelector("[data-stop]"));
  };
  const throw_away = () => { store.keep(ident, {}); done(); };
  const words = isOther
    ? "This browser has answers of another call that the desk has not got:"
    : "This browser has answers that the desk has not got:";
  const notice = el("div", { class: "notice", role: "alert", "data-left-over": "" },
    el("p", {}, `${words} ${told.join("; ")}.`),
    el("p", {}, el("button", { type: "button", class: "button quiet", onclick: put_in }, "Put them in"), " ",
      el("button", { type: "button", class: "button quiet", onclick: throw_away }, "Throw them away")));
  place.after(notice);
}
