// A text in plain characters, cut into numbers, fractions, words and signs.
import { BOTTOMS, COMPOUNDS } from "./numerals.js";

const TOKEN = new RegExp(
  " *(?:([0-9]+ ?/ ?[0-9]+)(?:ths?|nds?)?" +
    "|([0-9]+(?:ths?|nds?))(?![a-z])" +
    "|([.]?[0-9]+(?:[.,][0-9]+)*)" +
    "|([a-z]+(?:-[a-z]+)*)(?:[.](?![.]))?" +
    "|(->|[-+&\"';,~≈ø]))",
  "y",
);

/** Numbers, fractions, words and signs, in order; null where something is none of them. */
export function tokensOf(text) {
  const tokens = [];
  TOKEN.lastIndex = 0;
  while (TOKEN.lastIndex < text.length) {
    const found = TOKEN.exec(text);
    if (!found) return null;
    const [, fraction, ordinal, number, word, sign] = found;
    if (word) tokens.push(...bound(word.split("-"), COMPOUNDS));
    else tokens.push((fraction ?? ordinal ?? number ?? sign).replace(/ /g, ""));
  }
  return bound(tokens, BOTTOMS);
}

/** Twenty-five and sixty-fourths become one word again. */
function bound(tokens, known) {
  const found = [];
  for (const here of tokens) {
    const pair = `${found[found.length - 1]}-${here}`;
    if (known.has(pair)) found[found.length - 1] = pair;
    else found.push(here);
  }
  return found;
}
