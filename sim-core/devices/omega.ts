/**
 * Wright's omega function, the solution y of y + ln y = x: the closed form of a junction behind a resistance.
 * Iteration: Fritsch, Shafer, Crowley 1973, CACM 16(2), Algorithm 443; two rounds reach the last digits from the starts below.
 */
export function wrightOmega(x: number): number {
  if (x < -36) return Math.exp(x);
  let y = x < -1 ? Math.exp(x) / (1 + Math.exp(x)) : x < 2 ? 0.5671432904097838 * Math.exp(0.6381 * x) : x - Math.log(x);
  for (let round = 0; round < 3; round++) {
    const r = x - y - Math.log(y);
    if (Math.abs(r) <= 4e-16 * (1 + Math.abs(x))) break;
    const q = 2 * (1 + y) * (1 + y + (2 / 3) * r);
    y *= 1 + (r / (1 + y)) * ((q - r) / (q - 2 * r));
  }
  return y;
}
