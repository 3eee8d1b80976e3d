/**
 * `core/lens/mix.ts` in GLSL ES 3.00. Tested in a real browser against it: shares agree within
 * MIX_ERROR for widths of 0 or from 0.001 of a pitch up.
 */
export const MIX_ERROR = 2e-4;

/** `blur` holds the widths of the spot and of the printed dot, as shares of the pitch. */
export const mixGlsl = /* glsl */ `
float blurLeftOf(float x, vec2 blur) {
  float wide = max(blur.x, blur.y);
  float narrow = min(blur.x, blur.y);
  float reach = (wide + narrow) / 2.0;
  float away = abs(x);
  float beyond;
  if (away >= reach) beyond = x == 0.0 ? 0.5 : 0.0;
  else if (away <= (wide - narrow) / 2.0) beyond = 0.5 - away / wide;
  else beyond = (reach - away) * (reach - away) / (2.0 * wide * narrow);
  return x < 0.0 ? beyond : 1.0 - beyond;
}

/** First and last cell that the blur around place u reaches; cells run on under the neighbours. */
ivec2 cellsSeen(float u, int viewSlots, vec2 blur) {
  float reach = (blur.x + blur.y) / 2.0;
  int first = int(floor((u - reach) * float(viewSlots)));
  int last = max(first, int(ceil((u + reach) * float(viewSlots))) - 1);
  return ivec2(first, last);
}

float shareOfCell(int cell, ivec2 seen, float u, int viewSlots, vec2 blur) {
  float left = cell == seen.x ? 0.0 : blurLeftOf(float(cell) / float(viewSlots) - u, blur);
  float right = cell == seen.y ? 1.0 : blurLeftOf(float(cell + 1) / float(viewSlots) - u, blur);
  return max(0.0, right - left);
}

/** Which rib the cell lies under, counted from the one looked through, and its view slot. */
ivec2 ribAndSlot(int cell, int viewSlots) {
  int rib = int(floor((float(cell) + 0.5) / float(viewSlots)));
  return ivec2(rib, viewSlots - 1 - (cell - rib * viewSlots));
}
`;
