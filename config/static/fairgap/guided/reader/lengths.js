// Lengths are whole nanometres, so that every mark on every tape is exact: 1/64 in is 396 875 nm.
// 100 m, the longest we read, is far below 2^53: a Number holds each of them exactly.
import { decimal, mixed, whole } from "./spoken.js";

export const NM_PER_INCH = 25400000;
export const NM_PER_MM = 1000000;
export const NM_PER_64TH = 396875;
export const LONGEST_NM = 1e11;

export const NM = {
  in: NM_PER_INCH, ft: 12 * NM_PER_INCH, mm: NM_PER_MM, cm: 10 * NM_PER_MM, m: 1000 * NM_PER_MM,
};

/** The system a unit belongs to: in or mm. */
export const systemOf = (unit) => (unit === "in" || unit === "ft" ? "in" : "mm");

/** Millimetres with six places, exact: 1489.075000. */
export function mmText(nm) {
  const size = Math.abs(nm);
  const places = String(size % NM_PER_MM).padStart(6, "0");
  return `${nm < 0 ? "-" : ""}${Math.floor(size / NM_PER_MM)}.${places}`;
}

/** Inches to the nearest 1/64, with ≈ in front when that rounded: 58 5/8. */
export function inchText(nm) {
  const size = Math.abs(nm);
  const rest = size % NM_PER_64TH;
  const marks = (size - rest) / NM_PER_64TH + (rest * 2 >= NM_PER_64TH ? 1 : 0);
  return (rest ? "≈" : "") + (nm < 0 && marks ? "-" : "") + marksText(marks);
}

function marksText(marks) {
  const [top, bottom] = lowest(marks % 64);
  const inches = Math.floor(marks / 64);
  if (!top) return String(inches);
  return inches ? `${inches} ${top}/${bottom}` : `${top}/${bottom}`;
}

function lowest(marks) {
  let [top, bottom] = [marks, 64];
  while (bottom > 1 && top % 2 === 0) [top, bottom] = [top / 2, bottom / 2];
  return [top, bottom];
}

/** For people, in inches or millimetres: 58 5/8 in, 1489.1 mm. */
export const show = (nm, system) => (system === "in" ? `${inchText(nm)} in` : `${tenths(nm)} mm`);

/** For people, in both systems: 58 5/8 in · 1489.1 mm. */
export const both = (nm) => `${show(nm, "in")} · ${show(nm, "mm")}`;

/** To a tenth, half away from zero, without a useless .0. */
function tenths(nm) {
  if (nm % NM_PER_MM === 0) return String(nm / NM_PER_MM);
  const count = Math.floor((Math.abs(nm) * 10 + NM_PER_MM / 2) / NM_PER_MM);
  return `${nm < 0 && count ? "-" : ""}${Math.floor(count / 10)}.${count % 10}`;
}

/** As said on the phone, in inches or millimetres: fifty-eight and five eighths inches. */
export function spoken(nm, system) {
  const words = system === "in" ? inchesSpoken : mmSpoken;
  return nm < 0 ? `minus ${words(-nm)}` : words(nm);
}

function inchesSpoken(nm) {
  const rest = nm % NM_PER_INCH;
  const number = (nm - rest) / NM_PER_INCH;
  if (rest % NM_PER_64TH === 0) return marksSpoken(number, rest / NM_PER_64TH);
  if ((rest * 10000) % NM_PER_INCH === 0) {
    return `${decimal(number, digits((rest * 10000) / NM_PER_INCH, 4))} inches`;
  }
  const marks = Math.floor((nm * 2 + NM_PER_64TH) / (NM_PER_64TH * 2));
  return `about ${marksSpoken(Math.floor(marks / 64), marks % 64)}`;
}

const marksSpoken = (number, marks) => mixed(number, ...lowest(marks));

function mmSpoken(nm) {
  const about = nm % 1000 ? "about " : "";
  const near = about ? Math.floor((nm + 50000) / 100000) * 100000 : nm;
  const rest = near % NM_PER_MM;
  const number = (near - rest) / NM_PER_MM;
  if (rest) return `${about}${decimal(number, digits(rest / 1000, 3))} millimetres`;
  return `${about}${whole(number)} ${number === 1 ? "millimetre" : "millimetres"}`;
}

const digits = (number, places) => String(number).padStart(places, "0").replace(/0+$/, "");
