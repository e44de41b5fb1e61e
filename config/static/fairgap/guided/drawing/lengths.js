// A length of the stack as the drawing prints it: the same text as the server's.

const NM_PER_64TH = 396875;

/** "44 1/8 in" or "1121 mm", from millimetres as a number or text. */
export function lengthText(mm, system) {
  const nm = toNm(mm);
  return system === "mm" ? `${tenths(nm)} mm` : `${inches(nm)} in`;
}

/** Millimetres, a number or text, to whole nanometres. */
export function toNm(mm) {
  return Math.round(Number(mm) * 1e6);
}

/** To the nearest 1/64 in, with ≈ in front when that rounded. */
function inches(nm) {
  const whole = Math.abs(nm), rest = whole % NM_PER_64TH;
  let marks = (whole - rest) / NM_PER_64TH;
  if (rest * 2 >= NM_PER_64TH) marks += 1;
  return `${rest ? "≈" : ""}${nm < 0 && marks ? "-" : ""}${mixed(marks)}`;
}

function mixed(marks) {
  const whole = Math.floor(marks / 64);
  let over = marks % 64, under = 64;
  if (!over) return String(whole);
  while (over % 2 === 0) {
    over /= 2;
    under /= 2;
  }
  return whole ? `${whole} ${over}/${under}` : `${over}/${under}`;
}

/** To a tenth of a millimetre, half to even, without a useless .0. */
function tenths(nm) {
  const whole = Math.abs(nm), rest = whole % 100000;
  let count = (whole - rest) / 100000;
  if (rest > 50000 || (rest === 50000 && count % 2 === 1)) count += 1;
  const sign = nm < 0 ? "-" : "";
  return sign + Math.floor(count / 10) + (count % 10 ? `.${count % 10}` : "");
}
