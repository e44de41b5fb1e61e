// What only the plausible range can tell: the unit of a bare number, the meaning of a comma.
import { NM } from "./lengths.js";
import * as refusals from "./refusals.js";

const NAMES = { in: "inches", mm: "millimetres" };

/** 10 to that power, exact. */
export const ten = (places) => 10n ** BigInt(places);

/** What the last of so many decimal places stands for; null where finer than a nanometre. */
export function step(unit, places) {
  return NM[unit] % 10 ** places ? null : NM[unit] / 10 ** places;
}

/** True where nm / scale lies in the range [lowest, highest]; never without a range. */
export function fitting(nm, scale, plausible) {
  if (!plausible) return false;
  const [low, high] = plausible.map((end) => BigInt(end) * BigInt(scale));
  return low <= nm && nm <= high;
}

/** The sentence for a unit that was chosen because the other does not fit. */
export function unitDoubt(unit) {
  const [read, other] = [NAMES[unit], NAMES[unit === "in" ? "mm" : "in"]];
  return `No unit is written; we read ${read}, because ${other} would not fit here. Is that right?`;
}

/** The one unit in which a bare number fits the range, with the doubt that says so. */
export function whichUnit(number, decimals, plausible) {
  const digits = BigInt(number + decimals);
  if (!digits) return ["in", []];
  const scale = ten(decimals.length);
  const fits = ["in", "mm"].filter((unit) => fitting(digits * BigInt(NM[unit]), scale, plausible));
  if (fits.length !== 1) {
    const text = `${number || 0}${decimals && "."}${decimals}`;
    refusals.refuse(refusals.eitherUnit(text));
  }
  return [fits[0], [unitDoubt(fits[0])]];
}

/** `1,489`: a decimal comma or one between thousands, as only one of them fits the range. */
export function eitherComma(number, decimals, unit, written, plausible) {
  const digits = BigInt(number + decimals);
  const scales = [1, 2, 3].includes(number.length) && number[0] !== "0" ? [1, 1000] : [1000];
  const fits = (unit ? [unit] : ["in", "mm"])
    .flatMap((known) => scales.map((scale) => [known, scale]))
    .filter(([known, scale]) => fitting(digits * BigInt(NM[known]), scale, plausible));
  if (fits.length !== 1) refusals.refuse(refusals.eitherComma(number, decimals, written));
  const [known, scale] = fits[0];
  const nm = (Number(digits) * NM[known]) / scale; // exact: it lies in the range
  if (!Number.isInteger(nm)) refusals.refuse(refusals.TOO_FINE);
  const doubts = unit ? [] : [unitDoubt(known)];
  if (scales.length > 1) {
    const texts = [`${number}${decimals}`, `${number}.${decimals}`];
    const [read, other] = scale === 1 ? texts : texts.reverse();
    doubts.unshift(
      `We read the comma so that this is ${read}, because ${other} would not fit. Is that right?`,
    );
  }
  return [known, nm, step(known, scale === 1 ? 0 : 3), doubts];
}
