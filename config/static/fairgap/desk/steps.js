// Enter goes on to the next thing people say, Shift+Enter back, Ctrl+Enter saves. How a number was
// taken and "cannot" are passed over: they are said in the number's own box, and Tab reaches them.
import { goTo } from "./boxes.js";

const isShown = (field) => !field.disabled && field.offsetParent !== null;

/** Let Enter walk through the form; `save` is called for Ctrl+Enter. */
export function walkByEnter(form, save) {
  form.addEventListener("keydown", (event) => {
    if (event.key !== "Enter" || event.isComposing || event.defaultPrevented) return;
    if (event.ctrlKey || event.metaKey) {
      event.preventDefault();
      save();
    } else if (!event.target.matches("button, summary, a, textarea")) {
      event.preventDefault();
      step(form, event.target, event.shiftKey ? -1 : 1);
    }
  });
}

function step(form, from, by) {
  const next = inOwnRow(from, by) ?? nextStop(form, from, by);
  if (next) goTo(next);
}

/** A rare question has no stop of its own: its parts are walked through once one is in it. */
function inOwnRow(from, by) {
  const row = from.closest(".call-row");
  if (!row || row.querySelector("[data-stop]")) return null;
  const parts = [...row.querySelectorAll(".call-box:not(.call-by) :is(input, select)")];
  return parts[parts.indexOf(from) + by] ?? null;
}

function nextStop(form, from, by) {
  const stops = [...form.querySelectorAll("[data-stop], [data-save-last]")].filter(isShown);
  const way = by > 0 ? Node.DOCUMENT_POSITION_FOLLOWING : Node.DOCUMENT_POSITION_PRECEDING;
  const ahead = stops.filter((stop) => from.compareDocumentPosition(stop) & way);
  return by > 0 ? ahead[0] : ahead.at(-1);
}
