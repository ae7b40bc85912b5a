/** Draws `lineGeometry`: the same width in px everywhere, the setpoint wide and in dashes, each line only where it is true. */
import { DoubleSide, ShaderMaterial, Vector2 } from 'three';
import { SUN_GLSL } from '../light/shader.ts';
import type { RoomUniforms } from '../light/uniforms.ts';
import { DASH_EVERY_M, DASH_M } from './lineGeometry.ts';

/** Half width of a line and of the setpoint's, px of the page. Value: `look`, 2.4 times as wide. */
const HALF_PX = 0.8;
const WIDE_HALF_PX = 1.9;
/** Stage width that widths are given for, px, and how far the setpoint's shrinks on a smaller one. Value: `look`. */
const STAGE_PX = 1480;
const LEAST_SCALE = 0.7;
/** Above the surface, and above what lies flat on it (a paper takes the colour of its table), m. */
const LIFT_M = 0.013;
/** Above this lux the map is light enough for ink, lx. Value: `look`: ink on light stops, near-white on dark ones. */
const INK_FROM_LX = 240;

export function createLineMaterial(uniforms: RoomUniforms): ShaderMaterial {
  return new ShaderMaterial({
    uniforms: { ...uniforms, uViewPx: { value: new Vector2(1, 1) }, uRatio: { value: 1 }, uLeastPx: { value: 0 } },
    transparent: true,
    depthWrite: false,
    side: DoubleSide,
    vertexShader: /* glsl */ `
      uniform vec2 uViewPx;
      uniform float uRatio;
      uniform float uLeastPx;
      uniform float uSetpointLx;
      attribute vec2 along; attribute vec4 line; attribute float own;
      varying vec3 vPos; varying vec4 vLine; varying float vOwn; varying float vHalf;
      vec2 pixel(vec3 p) {
        vec4 c = projectionMatrix * modelViewMatrix * vec4(p, 1.0);
        return c.xy / c.w * 0.5 * uViewPx;
      }
      void main() {
        float wide = ${WIDE_HALF_PX.toFixed(2)} * clamp(uViewPx.x / uRatio / ${STAGE_PX.toFixed(1)}, ${LEAST_SCALE.toFixed(2)}, 1.0);
        bool set = abs(line.z - uSetpointLx) < 0.5;
        vHalf = uRatio * max(set ? wide : ${HALF_PX.toFixed(2)}, uLeastPx * (set ? 1.0 : 0.5));
        // Sideways on the surface itself, as far as it takes to be that wide on the screen.
        vec3 across = vec3(-along.y, along.x, 0.0);
        vec3 p = position + vec3(0.0, 0.0, ${LIFT_M.toFixed(3)});
        vec2 here = pixel(p);
        vec2 t = normalize(pixel(p + vec3(along, 0.0) * 0.01) - here);
        vec2 s = (pixel(p + across * 0.01) - here) * 100.0;
        float pxPerM = max(abs(t.x * s.y - t.y * s.x), 4.0);
        float reach = vHalf + 1.0;
        vPos = p + across * line.x * reach / pxPerM;
        vLine = line;
        vLine.x *= reach;
        vOwn = own;
        gl_Position = projectionMatrix * modelViewMatrix * vec4(vPos, 1.0);
      }`,
    fragmentShader: /* glsl */ `
      ${SUN_GLSL}
      uniform float uSetpointLx;
      varying vec3 vPos; varying vec4 vLine; varying float vOwn; varying float vHalf;
      void main() {
        float lux = vLine.z;
        // A line of shade is none in the sun, and the other way round.
        if (abs(sunLux(vPos - vec3(0.0, 0.0, ${LIFT_M.toFixed(3)}), vec3(0.0, 0.0, 1.0), vOwn) - vLine.w) > 0.03 * lux) discard;
        float ink = 1.0 - smoothstep(vHalf - 0.5, vHalf + 0.5, abs(vLine.x));
        if (abs(lux - uSetpointLx) < 0.5) {
          float pxM = max(fwidth(vLine.y), 1e-5);
          float off = abs(mod(vLine.y, ${DASH_EVERY_M.toFixed(2)}) - ${(DASH_EVERY_M / 2).toFixed(2)}) - ${(DASH_M / 2).toFixed(2)};
          ink *= 1.0 - smoothstep(-0.5, 0.5, off / pxM);
        }
        if (ink < 0.01) discard;
        gl_FragColor = vec4(lux > ${INK_FROM_LX.toFixed(1)} ? vec3(0.106, 0.145, 0.188) : vec3(0.95, 0.945, 0.918), ink);
      }`,
  });
}
