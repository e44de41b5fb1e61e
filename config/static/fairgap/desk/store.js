// What the desk has not got yet, kept in this browser under the call's ident, and only until the
// desk has it. A browser that may not keep anything simply keeps nothing.
const STEM = "fairgap-call-";

/** Keep the boxes the desk has not acknowledged; none left takes the entry away. */
export function keep(ident, boxes) {
  try {
    if (Object.keys(boxes).length) {
      localStorage.setItem(STEM + ident, JSON.stringify({ at: Date.now(), boxes }));
    } else localStorage.removeItem(STEM + ident);
  } catch { /* full, or forbidden: the page itself still has everything */ }
}

/** The boxes left from before, by name; empty where there are none. */
export function left(ident) {
  return entry(STEM + ident)?.boxes ?? {};
}

/** Other calls with something the desk has not got: ident and boxes, the newest first. */
export function others(ident) {
  try {
    return Object.keys(localStorage)
      .filter((key) => key.startsWith(STEM) && key !== STEM + ident)
      .map((key) => ({ ident: key.slice(STEM.length), ...entry(key) }))
      .filter((one) => one.boxes)
      .sort((one, other) => other.at - one.at);
  } catch {
    return [];
  }
}

function entry(key) {
  try {
    return JSON.parse(localStorage.getItem(key));
  } catch {
    return null;
  }
}
