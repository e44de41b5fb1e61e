// The boxes of a question: big choices, texts, and lengths with their unit, keys and read-back.
import { el, say } from "./dom.js";
import { keysFor } from "./keys.js";
import { unitOf } from "./path.js";
import { isDoubtful, readBox, shownRead } from "./reading.js";
import { canSpeak, speak, speaksAlways } from "./speech.js";

const CHOSEN_FROM = { radio: "radio", select: "radio", checks: "checkbox" };
const PAUSE = 900; // ms: who is still typing is not doubted, and the keys do not jump away
const ALONE = ["nothing", "unknown"]; // of a list: chosen, they leave nothing else true

/**
 * One box. `now.values` is what stands in the draft, `now.set(name, value)` keeps it there,
 * `now.doubt(yes)` is told whether a number deserves a second look.
 */
export function boxOf(box, step, now) {
  if (CHOSEN_FROM[box.kind]) return choices(box, step, now);
  return box.kind === "length" ? length(box, step, now) : text(box, step, now);
}

const idOf = (box) => `f-${box.name.replaceAll(".", "-")}`;

function choices(box, step, now) {
  const kind = CHOSEN_FROM[box.kind], chosen = [now.values[box.name] ?? []].flat();
  const given = box.options.map(([value, words]) => {
    const input = el("input", { type: kind, name: box.name, value, checked: chosen.includes(value) });
    return el("label", { class: "big-choice" }, input, el("span", {}, words));
  });
  const field = el("fieldset", { class: "big-choices", "data-box": box.name },
                   el("legend", { class: step.boxes.length > 1 ? "" : "visually-hidden" }, box.label),
                   ...given);
  field.addEventListener("change", (event) => {
    if (kind === "checkbox") leaveAlone(field, event.target);
    const ticked = [...field.querySelectorAll("input:checked")].map((input) => input.value);
    now.set(box.name, kind === "checkbox" ? ticked : ticked[0] ?? "");
  });
  return field;
}

function leaveAlone(field, touched) {
  if (!touched.checked) return;
  for (const input of field.querySelectorAll("input")) {
    const clash = ALONE.includes(touched.value) || ALONE.includes(input.value);
    if (input !== touched && clash) input.checked = false;
  }
}

function text(box, step, now) {
  const types = { tel: "tel", email: "email" };
  const input = el("input", {
    type: types[box.kind] ?? "text", id: idOf(box), name: box.name, value: now.values[box.name] ?? "",
    autocomplete: box.autocomplete ?? "off", inputmode: box.kind === "count" ? "numeric" : null,
    "aria-describedby": now.described, oninput: () => now.set(box.name, input.value),
  });
  return el("div", { class: "field big-field", "data-box": box.name },
            el("label", { for: input.id }, box.label), input);
}

function length(box, step, now) {
  const read = el("output", { class: "read-back", for: idOf(box), id: `${idOf(box)}-read`,
                              "aria-live": "polite" });
  const input = el("input", {
    type: "text", id: idOf(box), name: box.name, value: now.values[box.name] ?? "",
    autocomplete: "off", autocapitalize: "off", spellcheck: "false", enterkeyhint: "next",
    "aria-describedby": now.described,
  });
  const mark = `${box.name.replace(/text$/, "")}start_mark`;
  const look = () => readBox(box, input.value, unitOf(box.name, now.values), now.values[mark]);
  const use = (said) => {
    input.value = said;
    input.dispatchEvent(new Event("input", { bubbles: true }));
    input.focus();
  };
  let waiting = 0;
  const refresh = (settled = true) => {
    const seen = look();
    clearTimeout(waiting);
    read.replaceChildren(...shownRead(seen, box, use, settled));
    if (settled) now.doubt(box.name, isDoubtful(seen, box));
    else waiting = setTimeout(refresh, PAUSE);
  };
  input.addEventListener("input", () => { now.set(box.name, input.value); refresh(false); });
  input.addEventListener("change", () => { if (speaksAlways()) speak(spokenOf(look())); });
  const alone = step.boxes.filter((one) => one.kind === "length").length === 1;
  const keys = alone ? keysFor(input) : null;
  const field = el("div", { class: "field big-field", "data-box": box.name },
                   el("label", { for: input.id, class: alone ? "visually-hidden" : "" }, box.label),
                   el("div", { class: "number-row" }, input, units(box, now, refresh)),
                   el("div", { class: "read-row" }, read, canSpeak && loud(() => spokenOf(look()))), keys,
                   alone && now.mistake);
  refresh();
  field.refresh = refresh;
  field.look = look;
  return field;
}

function loud(text) {
  return el("button", { type: "button", class: "button quiet say", "aria-label": say("say"),
                        onclick: () => speak(text()) }, "♪");
}

function spokenOf(read) {
  return read?.understood ? read.spoken : read?.message ?? "";
}

/** Inches or millimetres: of this tape, remembered for the next number taken with such a tool. */
function units(box, now, refresh) {
  const unit = unitOf(box.name, now.values);
  const made = [["in", say("inches")], ["mm", say("millimetres")]].map(([value, words]) => {
    const input = el("input", { type: "radio", name: `${box.name}:unit`, value, checked: unit === value,
                                onchange: () => { now.unit(box.name, value); refresh(); } });
    return el("label", { class: "unit" }, input, el("span", {}, words));
  });
  return el("fieldset", { class: "units" }, el("legend", { class: "visually-hidden" }, say("tape_in")), ...made);
}
