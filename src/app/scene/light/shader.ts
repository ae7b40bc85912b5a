/** GLSL shared by everything that shows calculated light. Room axes throughout: x right, y back, z up, metres. */

/** Rectangles of glass that the sun can enter by. Source: limit of the picture only; rooms have at most a dozen windows. */
export const MAX_SUN_WINDOWS = 12;
/** Boxes that can cast a sun edge. Assumed: 48 covers the largest demo room; boxes beyond it cast no edge in the picture. */
export const MAX_SUN_BOXES = 48;

/** Lux of the four sources at a point without cells of its own: the room's faces that look the same way, weighted by the
 *  square of the normal (an ambient cube). Order: up (topmost map), down, from left, from right, from front, from back. */
export const CUBE_GLSL = /* glsl */ `
uniform sampler2D uAtlas;
uniform vec4 uCubeS[6];
uniform vec4 uCubeT[6];
uniform vec3 uCubeMin;
uniform vec3 uCubeMax;
uniform vec4 uGlazed;
uniform vec3 uDoorAt;
vec4 cubeTap(int k, vec3 p) {
  vec4 h = vec4(p, 1.0);
  return textureLod(uAtlas, vec2(dot(uCubeS[k], h), dot(uCubeT[k], h)), 0.0);
}
vec4 cubeLux(vec3 p, vec3 n) {
  p = clamp(p, uCubeMin, uCubeMax);
  vec3 w = n * n;
  vec4 up = cubeTap(0, p);
  vec4 lux = w.z * (n.z > 0.0 ? up : cubeTap(1, p)) + w.x * cubeTap(n.x > 0.0 ? 2 : 3, p) + w.y * cubeTap(n.y > 0.0 ? 4 : 5, p);
  // The far wall knows nothing of a window or door close by: what faces it has at least the lux of the level surface here.
  float glass = max(max(n.y * uGlazed.x, -n.y * uGlazed.y), max(n.x * uGlazed.z, -n.x * uGlazed.w));
  lux.x = max(lux.x, up.x * glass);
  lux.w = max(lux.w, up.w * dot(n, normalize(uDoorAt - p)));
  return lux;
}
`;

/** The sun's own patch: the ray towards the sun against window rectangles (both faces of the reveal) and boxes. */
export const SUN_GLSL = /* glsl */ `
uniform vec3 uSun;
uniform int uSunWindows;
uniform vec4 uWinRect[${MAX_SUN_WINDOWS}];
uniform vec4 uWinPlane[${MAX_SUN_WINDOWS}];
uniform float uWinGlassHead[${MAX_SUN_WINDOWS}];
uniform int uSunBoxes;
uniform vec4 uBoxMin[${MAX_SUN_BOXES}];
uniform vec4 uBoxMax[${MAX_SUN_BOXES}];
float inRect(vec2 p, vec4 r, float soft) {
  float d = min(min(p.x - r.x, r.y - p.x), min(p.y - r.z, r.w - p.y));
  return smoothstep(-soft, soft, d);
}
float sunLux(vec3 p, vec3 n, float skip) {
  float facing = dot(n, uSun);
  if (uSunWindows == 0 || facing <= 0.001) return 0.0;
  float lux = 0.0;
  for (int i = 0; i < ${MAX_SUN_WINDOWS}; i++) {
    if (i >= uSunWindows) break;
    vec4 plane = uWinPlane[i];
    bool alongX = plane.x > 0.5;
    float pa = alongX ? p.y : p.x;
    float sa = alongX ? uSun.y : uSun.x;
    float tOut = (plane.z - pa) / sa;
    if (tOut <= 0.0) continue;
    // Half of the sun's width (0.53 degrees) over the distance to the edge, and never sharper than 4 mm.
    float soft = max(0.004, tOut * 0.0047);
    vec3 hit = p + uSun * tOut;
    // The blind hangs at the inner face; the glass behind it ends at its own head.
    float v = inRect(vec2(alongX ? hit.x : hit.y, hit.z), vec4(uWinRect[i].xyz, uWinGlassHead[i]), soft);
    float tIn = (plane.y - pa) / sa;
    if (tIn > 0.0) {
      hit = p + uSun * tIn;
      v *= inRect(vec2(alongX ? hit.x : hit.y, hit.z), uWinRect[i], soft);
    }
    lux += v * plane.w;
  }
  if (lux <= 0.5) return 0.0;
  vec3 inv = 1.0 / (uSun + vec3(1e-6));
  vec3 o = p + n * 0.004;
  float open = 1.0;
  for (int i = 0; i < ${MAX_SUN_BOXES}; i++) {
    if (i >= uSunBoxes) break;
    if (abs(uBoxMin[i].w - skip) < 0.5) continue;
    vec3 t0 = (uBoxMin[i].xyz - o) * inv;
    vec3 t1 = (uBoxMax[i].xyz - o) * inv;
    vec3 lo = min(t0, t1);
    vec3 hi = max(t0, t1);
    float near = max(max(lo.x, lo.y), max(lo.z, 0.0));
    float far = min(hi.x, min(hi.y, hi.z));
    open = min(open, 1.0 - smoothstep(0.0, max(0.008, near * 0.009), far - near));
  }
  return lux * facing * open;
}
`;

/** From reflected lux to screen colour. */
export const TONE_GLSL = /* glsl */ `
uniform float uExposure;
uniform float uGrey;
vec3 neutralHighlights(vec3 c) {
  const float start = 0.76;
  float peak = max(c.r, max(c.g, c.b));
  if (peak < start) return c;
  float d = 1.0 - start;
  float top = 1.0 - d * d / (peak + d - start);
  c *= top / peak;
  return mix(c, vec3(top), 1.0 - 1.0 / (0.15 * (peak - top) + 1.0));
}
vec3 toScreen(vec3 c) {
  return mix(c * 12.92, 1.055 * pow(max(c, vec3(0.0)), vec3(1.0 / 2.4)) - 0.055, step(vec3(0.0031308), c));
}
float halfGrey() {
  return (fract(52.9829189 * fract(dot(gl_FragCoord.xy, vec2(0.06711056, 0.00583715)))) - 0.5) / 255.0;
}
/** reflected: reflectance x lux per channel. */
vec3 shown(vec3 reflected) {
  vec3 L = reflected * uExposure / 314.159;
  L = L * (1.0 + L / 81.0) / (1.0 + 0.2 * L);
  vec3 c = toScreen(neutralHighlights(L));
  c = mix(c, vec3(dot(c, vec3(0.2126, 0.7152, 0.0722))), uGrey);
  return c + halfGrey();
}
`;

/** Mixes the four stored sources with their weights and tints. */
export const MIX_GLSL = /* glsl */ `
uniform vec4 uWeights;
uniform vec3 uSkyTint;
uniform vec3 uLampTint;
uniform vec3 uDoorTint;
uniform vec3 uSunTint;
vec3 mixedLux(vec4 sources) {
  vec4 w = sources * uWeights;
  return w.x * uSkyTint + (w.y + w.z) * uLampTint + w.w * uDoorTint;
}
`;

/** Light Map: false colour by the logarithm of lux. Its lines are drawn by `lines/lineMaterial.ts`. */
export const MAP_GLSL = /* glsl */ `
uniform vec3 uStops[8];
vec3 falseColour(float lux) {
  float k = clamp(log(max(lux, 1.0) / 50.0) / log(40.0), 0.0, 1.0) * 7.0;
  vec3 c = uStops[0];
  for (int i = 1; i < 8; i++) c = mix(c, uStops[i], clamp(k - float(i - 1), 0.0, 1.0));
  return c;
}
`;

/** Warmth Map: heat tells nothing of light, so surfaces are pale card; only the way they face sets them apart. */
export const PLAIN_GLSL = /* glsl */ `
uniform float uPlain;
vec3 plainCard(vec3 color, vec3 n) {
  float facing = 0.9 + 0.07 * n.z - 0.025 * abs(n.x);
  float own = dot(color, vec3(0.2126, 0.7152, 0.0722));
  return vec3(facing * mix(0.86, 1.0, smoothstep(0.1, 0.6, own))) * vec3(1.0, 0.998, 0.99);
}
`;
