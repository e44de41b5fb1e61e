// Short chords: a leader key, then one sign for a deed or two letters for a field. The leader is F2;
// Ctrl+; is the second one, for keyboards without a row of F keys: browsers and screen readers leave
// both free. Nothing is a single key that could be hit by chance while typing (WCAG 2.1.4).
import { goTo } from "./boxes.js";

const isLeader = (event) =>
  (event.key === "F2" && !event.ctrlKey && !event.altKey && !event.shiftKey && !event.metaKey) ||
  (event.key === ";" && event.ctrlKey && !event.altKey && !event.metaKey);
const LONGEST = 2; // letters of a chord
const MODIFIERS = new Set(["Shift", "Control", "Alt", "Meta", "CapsLock", "AltGraph", "Dead"]);

/**
 * Listen for chords. `deeds`: sign -> what it does. `sign` is the place that says the leader is on.
 * @returns {{go: (field: HTMLElement) => void}} which remembers the place it leaves.
 */
export function chords(form, sign, deeds) {
  const page = document;
  let active = false, letters = "", left = null, leader = "F2"; // as it was pressed

  function say(text) {
    sign.textContent = text;
    page.documentElement.toggleAttribute("data-leader", active);
  }
  function leave(text = "") {
    active = false;
    letters = "";
    say(text);
  }
  function start(event) {
    active = true;
    letters = "";
    leader = event.ctrlKey ? "Ctrl ;" : "F2";
    say(`${leader}: two letters, or one of / . ' ?`);
  }
  function go(field) {
    const from = page.activeElement;
    if (from && from !== page.body && from !== field) left = from;
    goTo(field);
  }
  function back() {
    if (left?.isConnected) go(left);
  }

  function onLetter(key) {
    letters += key.toLowerCase();
    const field = form.querySelector(`[data-code="${CSS.escape(letters)}"]`);
    if (field) { leave(); go(field); }
    // A slip in the first letter takes the second with it: it is not typed into a box.
    else if (letters.length < LONGEST) say(`${leader} ${letters}`);
    else leave(`No chord: ${leader} ${letters}`);
  }

  function onKey(event) {
    if (page.querySelector("dialog[open]") || event.isComposing) return;
    if (!active) {
      if (!isLeader(event)) return;
      event.preventDefault();
      start(event);
      return;
    }
    if (MODIFIERS.has(event.key) && event.key !== "Dead") return;
    event.preventDefault();
    event.stopPropagation();
    const key = event.code === "Quote" && event.key === "Dead" ? "'" : event.key;
    if (key === "Escape") leave();
    else if (isLeader(event)) { leave(); back(); }
    else if (key === "Backspace") { letters = ""; say(leader); }
    else if (!letters && deeds[key]) { leave(); deeds[key](); }
    else if (key.length === 1) onLetter(key);
    else leave(`No chord: ${leader} ${key}`);
  }

  addEventListener("keydown", onKey, true);
  addEventListener("pointerdown", () => { if (active) leave(); }, true);
  return { go };
}
