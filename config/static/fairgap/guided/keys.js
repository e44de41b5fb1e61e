// Our own keys for a number: large enough for a wet thumb, with the signs a tape needs and no
// telephone keyboard has together. Letters are one key away, for "58 and a bit".
import { el, say } from "./dom.js";

const ROWS = [["1", "2", "3", "/"], ["4", "5", "6", " "], ["7", "8", "9", "."], ["abc", "0", "½", "del"]];
const TOUCH = matchMedia("(pointer: coarse)");

/** Keys for an input, or null where there is a real keyboard. */
export function keysFor(input) {
  if (!TOUCH.matches) return null;
  input.inputMode = "none";
  const keys = ROWS.flat().map((key) => el("button", {
    type: "button", class: "key", "aria-label": nameOf(key), onclick: () => press(input, key),
  }, faceOf(key)));
  return el("div", { class: "keys", role: "group", "aria-label": say("keys") }, ...keys);
}

function nameOf(key) {
  return { " ": say("key_space"), del: say("key_delete"), abc: say("key_letters") }[key] ?? null;
}

function faceOf(key) {
  return { " ": say("key_space"), del: "⌫", abc: "abc", ".": say("decimal_sign") }[key] ?? key;
}

function press(input, key) {
  if (key === "abc") {
    input.inputMode = "text";
    input.blur();
    input.focus();
    return;
  }
  const at = input.selectionStart ?? input.value.length, end = input.selectionEnd ?? at;
  const from = key === "del" && at === end ? Math.max(at - 1, 0) : at;
  const typed = { del: "", "½": at && input.value[at - 1] !== " " ? " 1/2" : "1/2",
                  ".": say("decimal_sign") }[key] ?? key;
  input.setRangeText(typed, from, end, "end");
  input.dispatchEvent(new Event("input", { bubbles: true }));
}
