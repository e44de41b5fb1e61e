// What the reader says in English, said in the page's language (intake/said.py, by the same rules).
//
// A sentence with holes, "{} and {} differ", is known by its fixed pieces from left to right, so
// that the time grows with the text and no more.
import { systemOf } from "./reader/lengths.js";
import { spokenEs } from "./reader/spoken_es.js";

const SPOKEN = { es: spokenEs };
const HOLE = /\{(\d*)\}/g;
let english = true;
let exact = new Map(), templates = [], comma = false, spokenIn = null;

/** Keep what the server gave: {said: {english: words}, language, metric_first}. */
export function keepSaid(told) {
  const rows = Object.entries(told.said ?? {});
  english = told.language === "en";
  exact = new Map(rows);
  templates = rows.filter(([text]) => text.search(HOLE) >= 0).map(template);
  templates.sort((one, other) => other.fixed - one.fixed);
  comma = Boolean(told.metric_first);
  spokenIn = SPOKEN[told.language] ?? null;
}

function template([text, words]) {
  const names = [...text.matchAll(HOLE)].map((hole, at) => hole[1] || `#${at}`);
  const pieces = text.split(/\{\d*\}/);
  return { names, pieces, words, fixed: pieces.join("").length };
}

/** A sentence of the reader in the page's language; unchanged where it is not known. */
export function said(text, deep = 0) {
  if (exact.has(text)) return exact.get(text);
  for (const one of deep < 3 ? templates : []) {
    const found = valuesOf(one, text);
    if (found) return filled(one, found.map((value) => said(value, deep + 1)));
  }
  return localNumber(text);
}

/** A question of the checks in the page's language; `other` where it is not known in it. */
export const saidOr = (text, other) => (text && english ? text : exact.get(text) ?? other);

/** What stands in the holes, none of them empty; null where the sentence is another. */
function valuesOf({ pieces }, text) {
  const first = pieces[0], last = pieces.at(-1);
  if (!text.startsWith(first) || !text.endsWith(last)) return null;
  const end = text.length - last.length, found = [];
  let at = first.length;
  for (const piece of pieces.slice(1, -1)) {
    const place = text.indexOf(piece, at + 1);
    if (place < 0 || place + piece.length > end) return null;
    found.push(text.slice(at, place));
    at = place + piece.length;
  }
  if (at >= end) return null;
  return [...found, text.slice(at, end)];
}

function filled({ names, words }, values) {
  const byName = new Map(names.map((name, at) => [name, values[at]]));
  let next = 0;
  return words.replace(HOLE, (_whole, name) => byName.get(name || names[next++]));
}

/** A number with its unit, with the decimal sign of the language. */
export function localNumber(text) {
  return comma && /^[≈-]{0,2}[\d /]*\d\.\d+ ?(mm|cm|m|in|ft)$/.test(text) ? text.replace(".", ",") : text;
}

/** A reading with everything it says in the page's language. */
export function inLanguage(read) {
  if (!read) return read;
  if (!read.understood) return { ...read, message: said(read.message) };
  const both = read.both.split(" · ").map(localNumber).join(" · ");
  const spoken = spokenIn ? spokenIn(read.nm, systemOf(read.unit)) : read.spoken;
  return { ...read, both, spoken, doubts: read.doubts.map((doubt) => said(doubt)) };
}
