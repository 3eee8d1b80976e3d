/** The shaders that follow the scene: averaging samples, reading depth, and the picture as it is shown. */

export const wholeVertex = /* glsl */ `
out vec2 at;
void main() {
  at = position.xy * 0.5 + 0.5;
  gl_Position = vec4(position.xy, 0.0, 1.0);
}`;

/** The mean of \`count\` samples from that of one fewer. */
export const meanFragment = /* glsl */ `
in vec2 at;
out vec4 mean;
uniform sampler2D before;
uniform sampler2D fresh;
uniform float count;
void main() {
  vec4 now = texture(fresh, at);
  mean = count < 1.5 ? now : mix(texture(before, at), now, 1.0 / count);
}`;

const distance = /* glsl */ `
uniform sampler2D depth;
uniform vec2 reach; // near, far
/** From the camera's plane; below 0 where nothing is. */
float distanceAt(vec2 at) {
  float d = texture(depth, at).r;
  if (d >= 1.0) return -1.0;
  float z = 2.0 * d - 1.0;
  return 2.0 * reach.x * reach.y / (reach.y + reach.x - z * (reach.y - reach.x));
}`;

export const depthFragment = /* glsl */ `
in vec2 at;
out vec4 found;
${distance}
void main() {
  found = vec4(distanceAt(at), 0.0, 0.0, 1.0);
}`;

/**
 * Linear light to codes. Tones: the published "PBR Neutral" curve of the Khronos Group (2024), which leaves colours
 * below 0.76 as they are. Codes: IEC 61966-2-1. The ground comes out as it was chosen.
 */
export const shownFragment = /* glsl */ `
in vec2 at;
out vec4 shown;
uniform sampler2D mean;
uniform vec3 ground; // linear
uniform float light;
uniform float ribsFar; // below 0: no tint
uniform float keyDistance;
${distance}
vec3 neutral(vec3 colour) {
  const float start = 0.8 - 0.04;
  const float desaturation = 0.15;
  float least = min(colour.r, min(colour.g, colour.b));
  float offset = least < 0.08 ? least - 6.25 * least * least : 0.04;
  colour -= offset;
  float peak = max(colour.r, max(colour.g, colour.b));
  if (peak < start) return colour;
  float d = 1.0 - start;
  float newPeak = 1.0 - d * d / (peak + d - start);
  colour *= newPeak / peak;
  float g = 1.0 - 1.0 / (desaturation * (peak - newPeak) + 1.0);
  return mix(colour, vec3(newPeak), g);
}
vec3 codes(vec3 linear) {
  vec3 c = clamp(linear, 0.0, 1.0);
  return mix(12.92 * c, 1.055 * pow(c, vec3(1.0 / 2.4)) - 0.055, step(0.0031308, c));
}
/** Sharp stays as it is; soft is amber, broken red and hatched: not by colour alone. */
vec3 tinted(vec3 colour) {
  float far = distanceAt(at);
  if (far < 0.0) return colour;
  float ribs = abs(ribsFar * (far - keyDistance) / far);
  float grey = dot(colour, vec3(0.299, 0.587, 0.114));
  bool stripe = mod(gl_FragCoord.x + gl_FragCoord.y, 10.0) < 3.0;
  if (ribs <= 1.0) return colour;
  if (ribs <= 2.0) return mix(mix(colour, vec3(grey), 0.5), vec3(0.95, 0.66, 0.1), 0.42);
  return mix(mix(colour, vec3(grey), 0.7), vec3(0.8, 0.12, 0.12), stripe ? 0.8 : 0.4);
}
void main() {
  vec4 seen = texture(mean, at);
  vec3 lit = seen.a > 0.0 ? neutral(light * seen.rgb / seen.a) : vec3(0.0);
  vec3 colour = codes(lit * seen.a + ground * (1.0 - seen.a));
  shown = vec4(ribsFar < 0.0 ? colour : tinted(colour), 1.0);
}`;
