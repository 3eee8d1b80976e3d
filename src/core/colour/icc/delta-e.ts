/** How far apart two colours look: CIEDE2000 (ISO/CIE 11664-6; Sharma, Wu and Dalal 2005). */

export type Lab = readonly [L: number, a: number, b: number];

const RAD = Math.PI / 180;
const hueOf = (a: number, b: number): number =>
  a === 0 && b === 0 ? 0 : (Math.atan2(b, a) / RAD + 360) % 360;

/** 25⁷. */
const CHROMA_7 = 6103515625;
const seventh = (chroma: number) => Math.sqrt(chroma ** 7 / (chroma ** 7 + CHROMA_7));

export const deltaE00 = ([l1, a1, b1]: Lab, [l2, a2, b2]: Lab): number => {
  const grey = 0.5 * (1 - seventh((Math.hypot(a1, b1) + Math.hypot(a2, b2)) / 2));
  const [p1, p2] = [a1 * (1 + grey), a2 * (1 + grey)];
  const [c1, c2] = [Math.hypot(p1, b1), Math.hypot(p2, b2)];
  const [h1, h2] = [hueOf(p1, b1), hueOf(p2, b2)];
  const isGrey = c1 * c2 === 0;
  const apart = Math.abs(h1 - h2) > 180;
  let dh = isGrey ? 0 : h2 - h1;
  if (!isGrey && apart) dh += h2 > h1 ? -360 : 360;
  const dL = l2 - l1;
  const dC = c2 - c1;
  const dH = 2 * Math.sqrt(c1 * c2) * Math.sin((dh * RAD) / 2);
  const L = (l1 + l2) / 2;
  const C = (c1 + c2) / 2;
  let h = h1 + h2;
  if (!isGrey) h = apart ? (h < 360 ? h + 360 : h - 360) / 2 : h / 2;
  const t =
    1 -
    0.17 * Math.cos((h - 30) * RAD) +
    0.24 * Math.cos(2 * h * RAD) +
    0.32 * Math.cos((3 * h + 6) * RAD) -
    0.2 * Math.cos((4 * h - 63) * RAD);
  const sL = 1 + (0.015 * (L - 50) ** 2) / Math.sqrt(20 + (L - 50) ** 2);
  const sC = 1 + 0.045 * C;
  const sH = 1 + 0.015 * C * t;
  const turn = -Math.sin(60 * Math.exp(-(((h - 275) / 25) ** 2)) * RAD) * 2 * seventh(C);
  return Math.sqrt((dL / sL) ** 2 + (dC / sC) ** 2 + (dH / sH) ** 2 + turn * (dC / sC) * (dH / sH));
};
