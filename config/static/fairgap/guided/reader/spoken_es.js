// Lengths as they are said in Spanish: cincuenta y ocho y cinco octavos de pulgada
// (catalog/domain/spoken_es.py, by the same rules).
const NM_PER_INCH = 25400000, NM_PER_MM = 1000000, NM_PER_64TH = 396875;
const SMALL = (
  "cero uno dos tres cuatro cinco seis siete ocho nueve diez once doce trece catorce quince dieciséis " +
  "diecisiete dieciocho diecinueve veinte veintiuno veintidós veintitrés veinticuatro veinticinco " +
  "veintiséis veintisiete veintiocho veintinueve"
).split(" ");
const TENS = "- - - treinta cuarenta cincuenta sesenta setenta ochenta noventa".split(" ");
const HUNDREDS = (
  "- ciento doscientos trescientos cuatrocientos quinientos seiscientos setecientos ochocientos novecientos"
).split(" ");
const PARTS = {
  2: "medio", 4: "cuarto", 8: "octavo", 16: "dieciseisavo", 32: "treintaidosavo", 64: "sesentaicuatroavo",
};

/** A whole number from 0 to 999 999 in words. */
export function whole(number) {
  const thousands = Math.floor(number / 1000), rest = number % 1000;
  if (thousands) return `${thousands === 1 ? "" : `${beforeNoun(thousands)} `}mil${rest ? ` ${whole(rest)}` : ""}`;
  if (number === 100) return "cien";
  if (number > 100) return HUNDREDS[Math.floor(number / 100)] + (number % 100 ? ` ${whole(number % 100)}` : "");
  if (number < 30) return SMALL[number];
  return TENS[Math.floor(number / 10)] + (number % 10 ? ` y ${SMALL[number % 10]}` : "");
}

/** The number before what is counted: veintiún, doscientas una. */
export function beforeNoun(number, feminine = false) {
  const words = whole(number);
  if (feminine) return words.replaceAll("cientos", "cientas").replaceAll("quinientos", "quinientas").replace(/uno$/, "una");
  return words.replace(/veintiuno$/, "veintiún").replace(/uno$/, "un");
}

const part = (top, bottom) => `${beforeNoun(top)} ${PARTS[bottom]}${top === 1 ? "" : "s"}`;

function mixed(number, top, bottom) {
  if (!top) return `${beforeNoun(number, true)} ${number === 1 ? "pulgada" : "pulgadas"}`;
  if (!number) return bottom === 2 ? "media pulgada" : `${part(top, bottom)} de pulgada`;
  if (bottom === 2) return `${mixed(number, 0, 1)} y media`;
  // "Treinta y cinco octavos" would be heard as 35/8.
  if (number >= 30 && number % 10 === 0) return `${mixed(number, 0, 1)} y ${part(top, bottom)}`;
  return `${whole(number)} y ${part(top, bottom)} de pulgada`;
}

const decimal = (number, digits) => `${whole(number)} coma ${[...digits].map((digit) => SMALL[digit]).join(" ")}`;
const digits = (number, places) => String(number).padStart(places, "0").replace(/0+$/, "");

function marks(number, count) {
  let [top, bottom] = [count, 64];
  while (bottom > 1 && top % 2 === 0) [top, bottom] = [top / 2, bottom / 2];
  return mixed(number, top, bottom);
}

function inches(nm) {
  const rest = nm % NM_PER_INCH, number = (nm - rest) / NM_PER_INCH;
  if (rest % NM_PER_64TH === 0) return marks(number, rest / NM_PER_64TH);
  if ((rest * 10000) % NM_PER_INCH === 0) return `${decimal(number, digits((rest * 10000) / NM_PER_INCH, 4))} pulgadas`;
  const near = Math.floor((nm * 2 + NM_PER_64TH) / (NM_PER_64TH * 2));
  return `alrededor de ${marks(Math.floor(near / 64), near % 64)}`;
}

function millimetres(nm) {
  const about = nm % 1000 ? "alrededor de " : "";
  const near = about ? Math.floor((nm + 50000) / 100000) * 100000 : nm;
  const rest = near % NM_PER_MM, number = (near - rest) / NM_PER_MM;
  if (rest) return `${about}${decimal(number, digits(rest / 1000, 3))} milímetros`;
  return `${about}${beforeNoun(number)} ${number === 1 ? "milímetro" : "milímetros"}`;
}

/** A length in nanometres as it is said, in "in" or in "mm". */
export function spokenEs(nm, system) {
  const words = system === "in" ? inches : millimetres;
  return nm < 0 ? `menos ${words(-nm)}` : words(nm);
}
