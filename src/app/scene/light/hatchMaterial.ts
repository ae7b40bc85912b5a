/** Hatching in px of the page, for bodies and flat things of the Warmth Map and for what furniture hides. */
import { DoubleSide, ShaderMaterial } from 'three';
import { HATCH_LINE_PX, HATCH_STEPS } from '../../theme/hatch.ts';

/** Gap of the hatching by contrast, px; 0: none. */
const GAP_GLSL = /* glsl */ `
float gapPx(float k) {
  float size = abs(k);
  float gap = 0.0;
  ${HATCH_STEPS.map(({ fromK, gapPx }) => `if (size >= ${fromK.toFixed(2)}) gap = ${gapPx.toFixed(2)};`).join(' ')}
  return gap;
}
uniform float uRatio;
/** Ink of the line at this pixel: leaning right for warmer, left for colder. */
float hatchInk(float k) {
  float gap = gapPx(k);
  if (gap == 0.0) return 0.0;
  vec2 p = gl_FragCoord.xy / uRatio;
  float along = (k > 0.0 ? p.x - p.y : p.x + p.y) * 0.70710678;
  float off = abs(mod(along, gap) - gap * 0.5);
  float soft = 0.5 / uRatio;
  return 1.0 - smoothstep(${(HATCH_LINE_PX / 2).toFixed(2)} - soft, ${(HATCH_LINE_PX / 2).toFixed(2)} + soft, off);
}
const vec3 INK = vec3(0.106, 0.145, 0.188);
const vec3 PAPER = vec3(0.996, 0.996, 0.992);
`;

/**
 * Bodies. Attribute `contrast`: kelvin against the room, and how it is shown: 0 hatched, 1 an outline in dashes (too
 * little contrast), 2 an outline in dots (not seen).
 */
export function createWarmFigureMaterial(): ShaderMaterial {
  return new ShaderMaterial({
    uniforms: { uRatio: { value: 1 } },
    vertexShader: /* glsl */ `
      attribute vec2 contrast;
      varying vec2 vContrast; varying vec3 vNormal; varying vec3 vToEye;
      void main() {
        vContrast = contrast;
        vNormal = normalMatrix * normal;
        vec4 at = modelViewMatrix * vec4(position, 1.0);
        vToEye = -at.xyz;
        gl_Position = projectionMatrix * at;
      }`,
    fragmentShader: /* glsl */ `
      ${GAP_GLSL}
      varying vec2 vContrast; varying vec3 vNormal; varying vec3 vToEye;
      void main() {
        float facing = dot(normalize(vNormal), normalize(vToEye));
        float rim = 1.0 - smoothstep(0.22, 0.34, facing);
        if (vContrast.y > 0.5) {
          float dash = vContrast.y > 1.5 ? 5.0 : 9.0;
          float on = vContrast.y > 1.5 ? 2.0 : 6.0;
          vec2 p = gl_FragCoord.xy / uRatio;
          if (rim < 0.4 || mod(p.y + 0.6 * p.x, dash) > on) discard;
          gl_FragColor = vec4(INK, 1.0);
          return;
        }
        gl_FragColor = vec4(mix(PAPER, INK, max(hatchInk(vContrast.x), rim)), 1.0);
      }`,
  });
}

/** Flat things: attribute `contrast`, kelvin. Paper between the lines lets a little of what is below through. */
export function createWarmPatchMaterial(): ShaderMaterial {
  return new ShaderMaterial({
    uniforms: { uRatio: { value: 1 } },
    transparent: true,
    depthWrite: false,
    side: DoubleSide,
    polygonOffset: true,
    polygonOffsetFactor: -2,
    polygonOffsetUnits: -2,
    vertexShader: /* glsl */ `
      attribute float contrast; varying float vK;
      void main() { vK = contrast; gl_Position = projectionMatrix * modelViewMatrix * vec4(position, 1.0); }`,
    fragmentShader: /* glsl */ `
      ${GAP_GLSL}
      varying float vK;
      void main() { gl_FragColor = mix(vec4(PAPER, 0.5), vec4(INK, 1.0), hatchInk(vK)); }`,
  });
}

/** Dots over floor that the detector does not see. `uTone`: ink by day, paper by night. */
export function createShadowMaterial(): ShaderMaterial {
  return new ShaderMaterial({
    uniforms: { uRatio: { value: 1 }, uNight: { value: 0 } },
    transparent: true,
    depthWrite: false,
    side: DoubleSide,
    polygonOffset: true,
    polygonOffsetFactor: -2,
    polygonOffsetUnits: -2,
    vertexShader: 'void main() { gl_Position = projectionMatrix * modelViewMatrix * vec4(position, 1.0); }',
    fragmentShader: /* glsl */ `
      uniform float uRatio; uniform float uNight;
      void main() {
        vec2 p = gl_FragCoord.xy / uRatio;
        p.x += mod(floor(p.y / 4.0), 2.0) * 4.0;
        float off = length(vec2(mod(p.x, 8.0) - 4.0, mod(p.y, 4.0) - 2.0));
        float dot = 1.0 - smoothstep(0.7, 1.3, off);
        gl_FragColor = vec4(mix(vec3(0.106, 0.145, 0.188), vec3(0.95, 0.945, 0.918), uNight), dot * 0.62);
      }`,
  });
}
