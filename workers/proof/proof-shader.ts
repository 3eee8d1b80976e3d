/** The tilt proof's shaders. One triangle covers the print; every pixel computes the views that it shows. */
import { mixGlsl } from './mix-glsl.ts';
import { DRIFT_STEPS } from '../../src/core/proof/scene.ts';

const DRIFT_NODES = DRIFT_STEPS + 1;

export const vertexShader = /* glsl */ `#version 300 es
out vec2 onPrint;
void main() {
  vec2 corner = vec2(float((gl_VertexID & 1) << 2), float((gl_VertexID & 2) << 1)) - 1.0;
  onPrint = vec2(corner.x + 1.0, 1.0 - corner.y) / 2.0;
  gl_Position = vec4(corner, 0.0, 1.0);
}
`;

export const fragmentShader = /* glsl */ `#version 300 es
precision highp float;
precision highp int;
precision highp sampler2DArray;
precision highp usampler2D;

in vec2 onPrint;
out vec4 colour;

uniform sampler2DArray frames;   // sRGB textures: what is read is linear light
uniform usampler2D slotFrames;   // one row: for each view slot, its layer
uniform int viewSlots;
uniform bool lying;
uniform float lenticules;        // that the frames span across the ribs
uniform vec2 across;             // where the print begins, and how far it spans, in lenticules
uniform float perPixel;          // lenticules a pixel covers
uniform float alongPerPixel;     // the print's length along the ribs, the share a pixel covers
uniform vec2 places;             // u of the left eye and of the right
uniform bool bothEyes;
uniform vec3 slide;              // offset, across, along: added to u
uniform vec2 drift[${2 * DRIFT_NODES}]; // left eye, right eye: Drift of scene.ts, from edge to edge
uniform vec2 blur;               // spot and printed dot / pitch
${mixGlsl}

vec3 readFrame(int slot, float at, float along) {
  float layer = float(texelFetch(slotFrames, ivec2(slot, 0), 0).r);
  // Within one rib the picture does not change across: only a pixel wider than a rib needs averaging.
  vec2 steps = vec2(perPixel < 1.0 ? 0.0 : perPixel / lenticules, alongPerPixel);
  vec2 spot = vec2(at / lenticules, along);
  if (lying)
    return textureGrad(frames, vec3(spot.yx, layer), vec2(steps.y, 0.0), vec2(0.0, steps.x)).rgb;
  return textureGrad(frames, vec3(spot, layer), vec2(steps.x, 0.0), vec2(0.0, steps.y)).rgb;
}

/** As driftAt of scene.ts. */
float driftAt(int eye, float fromMiddle, float along) {
  float at = clamp(fromMiddle + 0.5, 0.0, 1.0) * float(${DRIFT_STEPS});
  int low = min(int(at), ${DRIFT_STEPS - 1});
  int from = eye * ${DRIFT_NODES} + low;
  vec2 here = mix(drift[from], drift[from + 1], at - float(low));
  float end = 2.0 * along - 1.0;
  return here.x + here.y * end * end;
}

/** What an eye sees through the rib at \`at\`, counted in lenticules. */
vec3 seen(int eye, float at, float along) {
  float fromMiddle = (at - across.x) / across.y - 0.5;
  float place = (eye == 0 ? places.x : places.y) + driftAt(eye, fromMiddle, along);
  float u = place + slide.x + slide.y * fromMiddle + slide.z * (along - 0.5);
  ivec2 cells = cellsSeen(u, viewSlots, blur);
  vec3 light = vec3(0.0);
  for (int cell = cells.x; cell <= cells.y; cell++) {
    float share = shareOfCell(cell, cells, u, viewSlots, blur);
    ivec2 whose = ribAndSlot(cell, viewSlots);
    if (share > 0.0) light += share * readFrame(whose.y, at + float(whose.x), along);
  }
  return light;
}

vec3 seenAt(int eye, float position, float along) {
  if (perPixel >= 1.0) return seen(eye, position, along);
  float rib = floor(position);
  float inside = position - rib;
  // Share of this pixel that lies over the rib on its left, or on its right.
  float left = max(0.0, 0.5 - inside / perPixel);
  float right = max(0.0, 0.5 - (1.0 - inside) / perPixel);
  vec3 light = (1.0 - left - right) * seen(eye, rib + 0.5, along);
  if (left > 0.0) light += left * seen(eye, rib - 0.5, along);
  if (right > 0.0) light += right * seen(eye, rib + 1.5, along);
  return light;
}

vec3 encode(vec3 light) {
  light = clamp(light, 0.0, 1.0);
  return mix(12.92 * light, 1.055 * pow(light, vec3(1.0 / 2.4)) - 0.055, step(0.0031308, light));
}

void main() {
  float position = across.x + across.y * (lying ? onPrint.y : onPrint.x);
  float along = lying ? onPrint.x : onPrint.y;
  vec3 light = seenAt(0, position, along);
  if (bothEyes) {
    // Red glass over the left eye: the left view's luminance in red (ITU-R BT.709 weights).
    float left = dot(light, vec3(0.2126, 0.7152, 0.0722));
    light = vec3(left, seenAt(1, position, along).gb);
  }
  colour = vec4(encode(light), 1.0);
}
`;
