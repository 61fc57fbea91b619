// Lengths on the ellipsoid WGS 84 (Vincenty 1975, Survey Review 23(176), inverse formula): good to a millimetre for
// anything that is walked.
import type { LonLat } from './mercator';

const A = 6378137;
const F = 1 / 298.257223563;
const B = A * (1 - F);

/** Metres along the ellipsoid; NaN for nearly opposite ends of the globe, where the series does not settle. */
export function distanceM(from: LonLat, to: LonLat): number {
  const rad = Math.PI / 180;
  const l = (to.lon - from.lon) * rad;
  const u1 = Math.atan((1 - F) * Math.tan(from.lat * rad));
  const u2 = Math.atan((1 - F) * Math.tan(to.lat * rad));
  const [s1, c1, s2, c2] = [Math.sin(u1), Math.cos(u1), Math.sin(u2), Math.cos(u2)];
  let lambda = l;
  for (let turn = 0; turn < 100; turn++) {
    const sl = Math.sin(lambda);
    const cl = Math.cos(lambda);
    const sinSigma = Math.hypot(c2 * sl, c1 * s2 - s1 * c2 * cl);
    if (sinSigma === 0) return 0;
    const cosSigma = s1 * s2 + c1 * c2 * cl;
    const sigma = Math.atan2(sinSigma, cosSigma);
    const sinAlpha = (c1 * c2 * sl) / sinSigma;
    const cos2Alpha = 1 - sinAlpha ** 2;
    const middle = cos2Alpha === 0 ? 0 : cosSigma - (2 * s1 * s2) / cos2Alpha;
    const c = (F / 16) * cos2Alpha * (4 + F * (4 - 3 * cos2Alpha));
    const before = lambda;
    lambda = l + (1 - c) * F * sinAlpha * (sigma + c * sinSigma * (middle + c * cosSigma * (-1 + 2 * middle ** 2)));
    if (Math.abs(lambda - before) < 1e-12) return onEllipsoid(cos2Alpha, sinSigma, cosSigma, sigma, middle);
  }
  return NaN;
}

function onEllipsoid(cos2Alpha: number, sinSigma: number, cosSigma: number, sigma: number, middle: number): number {
  const u = (cos2Alpha * (A * A - B * B)) / (B * B);
  const a = 1 + (u / 16384) * (4096 + u * (-768 + u * (320 - 175 * u)));
  const b = (u / 1024) * (256 + u * (-128 + u * (74 - 47 * u)));
  const delta =
    b *
    sinSigma *
    (middle +
      (b / 4) *
        (cosSigma * (-1 + 2 * middle ** 2) - (b / 6) * middle * (-3 + 4 * sinSigma ** 2) * (-3 + 4 * middle ** 2)));
  return B * a * (sigma - delta);
}

export function lengthM(points: readonly LonLat[]): number {
  let sum = 0;
  for (let i = 1; i < points.length; i++) sum += distanceM(points[i - 1]!, points[i]!);
  return sum;
}

/** The longest of 1, 2, 5 x 10^n metres that is not longer than `mostM`. */
export function roundLengthM(mostM: number): number {
  const power = 10 ** Math.floor(Math.log10(mostM));
  const lead = mostM / power;
  return power * (lead >= 5 ? 5 : lead >= 2 ? 2 : 1);
}
