// Everything in words before it goes out, each line with its way back.
import { button, el, notice, say, show } from "./dom.js";
import { bodyOf, isCannot, pathOf, unitOf } from "./path.js";
import { wholePicture } from "./picture.js";
import { both, namesItsUnit, readBox } from "./reading.js";

/** Show the review of a draft. */
export function showReview(app, draft) {
  const lines = pathOf(draft).map((step) => line(app, draft, step));
  const missing = missingIn(draft);
  show(
    el("h1", {}, say("review")), el("p", { class: "lead" }, say("review_lead")),
    ...missing.map((said) => el("p", { class: "error" }, said)), wholePicture(draft),
    el("dl", { class: "facts review" }, ...lines),
    el("div", { class: "moving" }, button(say("back"), () => app.back("review")),
      button(say(navigator.onLine ? "send" : "send_later"), () => send(app, draft), "button")),
    el("p", { class: "row-actions" }, button(say("hand_over"), () => app.open(draft.id, "hand"))));
}

function send(app, draft) {
  const missing = missingIn(draft);
  if (missing.length) {
    notice(missing.join(" "), "warning");
    return app.open(draft.id, (draft.values.wants ?? []).length ? "contact" : "wants");
  }
  return app.finish(draft, bodyOf(draft, namesItsUnit));
}

function missingIn({ values }) {
  const reach = values["contact.phone"]?.trim() || values["contact.email"]?.trim();
  return [(values.wants ?? []).length ? "" : say("no_wants"), reach ? "" : say("no_contact")].filter(Boolean);
}

function line(app, draft, step) {
  const told = answerOf(step, draft.values);
  const name = step.boxes.length === 1 || step.boxes[0].kind === "length" ? step.boxes[0].label : step.ask;
  const change = el("a", { href: app.address(draft.id, step.slug), "aria-label": say("change_what", { what: name }) }, say("change"));
  return el("div", { "data-slug": step.slug }, el("dt", {}, name), el("dd", {}, ...told), el("dd", { class: "change" }, change));
}

/** An answer in words, as nodes. */
function answerOf(step, values) {
  if (isCannot(step.slug, values)) return [say("cannot_said")];
  const told = step.boxes.flatMap((box) => boxInWords(box, values));
  if (!told.length) return [el("em", {}, say("unanswered"))];
  return told.flatMap((piece, n) => (n && !isOwnLine(piece) ? [" · ", piece] : [piece]));
}

const isOwnLine = (piece) => ["said", "doubt"].includes(piece.className);

function boxInWords(box, values) {
  const value = values[box.name];
  if (!value?.length) return [];
  if (box.options) {
    const words = new Map(box.options);
    return [[value].flat().map((one) => words.get(one) ?? one).join(", ")];
  }
  if (box.kind !== "length") return [value];
  const read = readBox(box, value, unitOf(box.name, values));
  if (!read.understood) return [el("span", { class: "doubt" }, `${value}: ${read.message}`)];
  return [el("strong", {}, both(read)), el("span", { class: "said" }, read.spoken),
          ...read.doubts.map((doubt) => el("span", { class: "doubt" }, doubt))];
}
