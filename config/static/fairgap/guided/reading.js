// A number read back at once: by the reader on the phone, and aloud if wanted.
import { isPlausible, readAnswer } from "./reader/answers.js";
import { el, say } from "./dom.js";
import { inLanguage, localNumber } from "./said.js";

let metricFirst = false;

/** Whether this language expects millimetres first. */
export function keepOrder(metric) {
  metricFirst = metric;
}

/** Read one box. Null where nothing stands in it. */
export function readBox(box, text, unit, startMark = "0") {
  if (!text?.trim()) return null;
  return inLanguage(readAnswer(text, unit, box.range ?? null, startMark || "0"));
}

/** Whether a text names its unit itself. */
export function namesItsUnit(text) {
  const read = readAnswer(text, "in", null, "0");
  return read.understood && read.unitWritten;
}

/** Both systems, the one this language expects first. */
export function both(read) {
  const texts = read.both.split(" · ");
  return (metricFirst ? texts.reverse() : texts).join(" · ");
}

/** A difference of two readings, in the system of the first. */
export function apart(one, other) {
  const nm = Math.abs(one.nm - other.nm);
  return { nm, text: localNumber(`${Math.round(nm / 100_000) / 10} mm`) };
}

/**
 * What was understood, what is doubtful, what was probably meant. `use(text)` takes a suggestion;
 * not `settled`: somebody is still typing, and only what is understood is shown.
 */
export function shownRead(read, box, use, settled = true) {
  if (!read || (!settled && !read.understood)) return [];
  if (!read.understood) return refusal(read, use);
  const lines = [el("strong", { class: "both" }, both(read)), el("span", { class: "said" }, read.spoken)];
  const doubts = [...read.doubts];
  if (!settled) return lines;
  if (box.range && !isPlausible(read, box.range)) doubts.push(say("implausible"));
  return [...lines, ...doubts.map((doubt) => el("span", { class: "doubt" }, doubt))];
}

/** Does it deserve a second look, with the picture of the usual mistake? */
export function isDoubtful(read, box) {
  return Boolean(read && (!read.understood || read.doubts.length
    || (box.range && !isPlausible(read, box.range))));
}

function refusal(read, use) {
  const taps = read.suggestions.map((text) =>
    el("button", { type: "button", class: "button quiet", onclick: () => use(text) }, text));
  return [el("span", { class: "doubt" }, read.message),
          taps.length ? el("span", { class: "meant" }, say("meant"), " ", ...taps) : null].filter(Boolean);
}
