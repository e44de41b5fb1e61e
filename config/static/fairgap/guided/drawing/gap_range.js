// Between what the gap will lie, nineteen times in twenty: slips included.
// The same as intake/domain/gap_range.py.

const SHARE = 0.95, STARTS = 11, NEAR = 0.02; // mm

/** The narrowest range in mm that holds 19 of 20 gaps, or null where no gap is predicted. */
export function likelyRange(stack) {
  if (!stack.predicted_gap) return null;
  const gap = Number(stack.predicted_gap), chances = stack.explained;
  let best = null;
  for (let step = 0; step < STARTS; step += 1) {
    const tail = ((1 - SHARE) * (step + 0.5)) / STARTS;
    const ends = [quantile(chances, tail), quantile(chances, tail + SHARE)];
    if (!best || ends[1] - ends[0] < best[1] - best[0]) best = ends;
  }
  return best.map((end) => gap + Math.round(end * 1e6) / 1e6);
}

/** Where that share of the outcomes lies below, in mm from the predicted gap. */
function quantile(chances, share) {
  let low = Math.min(...chances.map(([, mean, sd]) => mean - 6 * sd));
  let high = Math.max(...chances.map(([, mean, sd]) => mean + 6 * sd));
  const total = chances.reduce((sum, [chance]) => sum + chance, 0);
  while (high - low > NEAR) {
    const middle = (low + high) / 2;
    const below = chances.reduce((sum, one) => sum + belowOf(one, middle), 0) / total;
    if (below < share) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

function belowOf([chance, mean, sd], at) {
  return chance * 0.5 * (1 + erf((at - mean) / (sd * Math.SQRT2)));
}

/** The error function, by its power series near zero and its continued fraction beyond. */
function erf(x) {
  const size = Math.abs(x);
  if (size > 6) return Math.sign(x);
  if (size > 2.5) {
    let fraction = 0;
    for (let n = 60; n > 0; n -= 1) fraction = n / 2 / (size + fraction);
    return Math.sign(x) * (1 - Math.exp(-size * size) / Math.sqrt(Math.PI) / (size + fraction));
  }
  let term = x, sum = x;
  for (let n = 1; Math.abs(term) > 1e-17; n += 1) {
    term *= (-x * x) / n;
    sum += term / (2 * n + 1);
  }
  return (2 / Math.sqrt(Math.PI)) * sum;
}
