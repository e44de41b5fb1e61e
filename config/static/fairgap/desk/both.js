// Two people type into one call. What the other one changed arrives in its box and is marked for a
// moment; where both changed the same box, both texts stand under it until one of them is chosen.
import { fieldOf, labelOf, put, texts } from "./boxes.js";
import { el } from "./dom.js";

const MARKED = 8000;

export class Both {
  constructor(form, keeper, announce) {
    Object.assign(this, { form, keeper, announce, open: new Map() });
    form.addEventListener("input", (event) => this.retyped(event.target.name));
  }

  /** Take over what others changed and show what differs. */
  hear({ boxes = {}, conflicts = [] }) {
    for (const one of conflicts) this.differ(one);
    const now = texts(this.form), { known } = this.keeper;
    const arrived = [];
    for (const [name, text] of Object.entries(boxes)) {
      const mine = now[name] ?? "";
      if (mine === text) known[name] = text;
      else if (mine === (known[name] ?? "")) arrived.push(this.takeOver(name, text));
      else this.differ({ name, mine, theirs: text, by: "", at: "" });
    }
    if (arrived.length) this.announce(`Changed elsewhere: ${arrived.join(", ")}`);
    this.keeper.remember();
  }

  takeOver(name, text) {
    put(this.form, name, text);
    this.keeper.known[name] = text;
    const row = fieldOf(this.form, name)?.closest(".call-row");
    if (row) this.mark(row);
    return labelOf(this.form, name);
  }

  mark(row) {
    row.querySelector(".call-elsewhere")?.remove();
    const sign = el("p", { class: "call-elsewhere" }, "◂ changed elsewhere just now");
    row.append(sign);
    setTimeout(() => sign.remove(), MARKED);
  }

  /** Both texts under the box; nothing of it is sent until one is chosen. */
  differ({ name, theirs, by, at }) {
    const field = fieldOf(this.form, name), row = field?.closest(".call-row");
    this.keeper.known[name] = theirs;
    if (!row) return;
    this.keeper.held.add(name);
    this.open.get(name)?.remove();
    const said = el("span", { "data-said": "" });
    const box = el("div", { class: "call-conflict", role: "alert", "data-name": name }, said, " ",
      el("button", { type: "button", class: "button quiet", onclick: () => this.choose(name, theirs) }, "Keep theirs"), " ",
      el("button", { type: "button", class: "button quiet", onclick: () => this.choose(name, null) }, "Put mine"));
    box.dataset.who = `${by || "Somebody else"} typed ${theirs || "nothing"}${at ? ` at ${at}` : ""}`;
    this.open.set(name, box);
    this.retyped(name);
    row.append(box);
  }

  retyped(name) {
    const box = this.open.get(name);
    if (!box) return;
    const mine = texts(this.form)[name];
    box.querySelector("[data-said]").textContent = `${box.dataset.who}, you typed ${mine || "nothing"}.`;
  }

  choose(name, theirs) {
    this.open.get(name)?.remove();
    this.open.delete(name);
    this.keeper.held.delete(name);
    if (theirs !== null) put(this.form, name, theirs);
    fieldOf(this.form, name)?.focus();
    this.keeper.touch();
  }

  /** Go to the first difference that is not settled; false where there is none. */
  goToFirst() {
    const [first] = this.open.values();
    first?.querySelector("button").focus();
    return Boolean(first);
  }
}
