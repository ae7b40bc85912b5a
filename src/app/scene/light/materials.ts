/** The three kinds of surface: lit by the calculated light, lamps, and what is not in the room. */
import { Color, DoubleSide, ShaderMaterial, Vector3 } from 'three';
import { CUBE_GLSL, MAP_GLSL, MIX_GLSL, PLAIN_GLSL, SUN_GLSL, TONE_GLSL } from './shader.ts';
import type { RoomUniforms } from './uniforms.ts';

/**
 * Interior surfaces. Attributes: `color` reflectance; `field` atlas coordinates, or x = -1 for the ambient cube, or
 * x = -2 for the corridor's one lux; `extra` = share of the lux, own furniture (its boxes are skipped by the sun ray), map.
 */
export function createInteriorMaterial(uniforms: RoomUniforms): ShaderMaterial {
  return new ShaderMaterial({
    uniforms,
    vertexShader: /* glsl */ `
      ${CUBE_GLSL}
      uniform float uCorridorLx;
      attribute vec3 color;
      attribute vec2 field;
      attribute vec3 extra;
      varying vec3 vPos; varying vec3 vNormal; varying vec3 vColor; varying vec2 vField; varying vec3 vExtra; varying vec4 vCube;
      void main() {
        vPos = position; vNormal = normal; vColor = color; vField = field; vExtra = extra;
        vCube = field.x < -1.5 ? vec4(0.0, 0.0, 0.0, uCorridorLx) : field.x < -0.5 ? cubeLux(position, normal) : vec4(0.0);
        gl_Position = projectionMatrix * modelViewMatrix * vec4(position, 1.0);
      }`,
    fragmentShader: /* glsl */ `
      uniform sampler2D uAtlas;
      uniform float uMapOn;
      uniform vec3 uOutsideTone;
      ${MIX_GLSL} ${SUN_GLSL} ${TONE_GLSL} ${MAP_GLSL} ${PLAIN_GLSL}
      varying vec3 vPos; varying vec3 vNormal; varying vec3 vColor; varying vec2 vField; varying vec3 vExtra; varying vec4 vCube;
      void main() {
        bool own = vField.x > -0.5;
        vec4 sources = (own ? texture(uAtlas, vField) : vCube) * vExtra.x;
        float sun = sunLux(vPos, vNormal, vExtra.y);
        if (uMapOn > 0.5 && vExtra.z > 0.5) {
          gl_FragColor = vec4(falseColour(dot(sources, uWeights) + sun), 1.0);
          return;
        }
        if (uPlain > 0.5) {
          gl_FragColor = vec4(plainCard(vColor, vNormal), 1.0);
          return;
        }
        vec3 c = shown(vColor * (mixedLux(sources) + sun * uSunTint));
        // The corridor is not in the room: presentation light as well, so that it is not a hole by day.
        if (vField.x < -1.5) c = max(c, toScreen(vColor * uOutsideTone * (0.35 + 0.45 * vNormal.z)));
        gl_FragColor = vec4(c, 1.0);
      }`,
  });
}

/** Bodies: no cells of their own, so always the ambient cube; per vertex colour is their reflectance. */
export function createFigureMaterial(uniforms: RoomUniforms): ShaderMaterial {
  return new ShaderMaterial({
    uniforms,
    vertexShader: /* glsl */ `
      ${CUBE_GLSL}
      attribute vec3 color;
      varying vec3 vPos; varying vec3 vNormal; varying vec3 vColor; varying vec4 vCube;
      void main() {
        vPos = position; vNormal = normal; vColor = color; vCube = cubeLux(position, normal);
        gl_Position = projectionMatrix * modelViewMatrix * vec4(position, 1.0);
      }`,
    fragmentShader: /* glsl */ `
      ${MIX_GLSL} ${SUN_GLSL} ${TONE_GLSL}
      varying vec3 vPos; varying vec3 vNormal; varying vec3 vColor; varying vec4 vCube;
      void main() {
        float sun = sunLux(vPos, normalize(vNormal), -2.0);
        gl_FragColor = vec4(shown(vColor * (mixedLux(vCube) + sun * uSunTint)), 1.0);
      }`,
  });
}

/** Lamp bars: plain grey in the room's light when off, flat warm white by their level when on. `row`: 0 inner, 1 window. */
export function createLampMaterial(uniforms: RoomUniforms): ShaderMaterial {
  return new ShaderMaterial({
    uniforms,
    vertexShader: /* glsl */ `
      ${CUBE_GLSL}
      uniform vec4 uWeights;
      attribute vec3 color;
      attribute vec3 extra;
      varying vec3 vColor; varying vec4 vCube; varying float vLevel;
      void main() {
        vColor = color; vCube = cubeLux(position, normal);
        vLevel = extra.y > 0.5 ? uWeights.z : uWeights.y;
        gl_Position = projectionMatrix * modelViewMatrix * vec4(position, 1.0);
      }`,
    fragmentShader: /* glsl */ `
      ${MIX_GLSL} ${TONE_GLSL} ${PLAIN_GLSL}
      varying vec3 vColor; varying vec4 vCube; varying float vLevel;
      void main() {
        if (uPlain > 0.5) {
          gl_FragColor = vec4(plainCard(vColor, vec3(0.0, 0.0, 1.0)), 1.0);
          return;
        }
        vec3 off = shown(vColor * mixedLux(vCube));
        gl_FragColor = vec4(mix(off, vec3(1.0, 0.957, 0.855), smoothstep(0.0, 0.35, vLevel)), 1.0);
      }`,
  });
}

/** Glow around lit lamps, drawn over the picture; faint, carries no number. */
export function createHaloMaterial(uniforms: RoomUniforms): ShaderMaterial {
  return new ShaderMaterial({
    uniforms: { ...uniforms, uHalo: { value: 0.5 } },
    transparent: true,
    depthWrite: false,
    depthTest: false,
    premultipliedAlpha: true,
    side: DoubleSide,
    vertexShader: /* glsl */ `
      uniform vec4 uWeights;
      attribute vec3 axis; attribute vec2 corner; attribute float row;
      varying vec2 vCorner; varying float vLevel;
      void main() {
        vCorner = corner;
        vLevel = row > 0.5 ? uWeights.z : uWeights.y;
        vec3 along = mat3(modelViewMatrix) * axis;
        vec3 across = normalize(vec3(-along.y, along.x, 0.0));
        vec4 p = modelViewMatrix * vec4(position, 1.0);
        p.xyz += normalize(along) * corner.x * 1.5 + across * corner.y * 0.8;
        gl_Position = projectionMatrix * p;
      }`,
    fragmentShader: /* glsl */ `
      uniform float uHalo;
      varying vec2 vCorner; varying float vLevel;
      void main() {
        float d = length(vec2(max(abs(vCorner.x) - 0.42, 0.0) / 0.58, vCorner.y));
        float glow = exp(-5.5 * d * d) * smoothstep(1.0, 0.7, d) * uHalo * vLevel * 0.42;
        gl_FragColor = vec4(vec3(1.0, 0.93, 0.78) * glow, 0.0);
      }`,
  });
}

/** Outer walls and baseboard: a soft dome and one key from the upper left. Not calculated light, and not in the room. */
export function createOutsideMaterial(): ShaderMaterial {
  return new ShaderMaterial({
    uniforms: { uTone: { value: new Vector3(1, 1, 1) }, uCut: { value: new Color('#343A41') } },
    vertexShader: /* glsl */ `
      attribute vec3 color; attribute vec3 extra;
      varying vec3 vColor; varying float vLight; varying float vCut;
      void main() {
        vColor = color; vCut = extra.z;
        float dome = 0.62 * (0.5 + 0.5 * normal.z * 0.9 + 0.05);
        vLight = 0.86 * (dome + 0.48 * max(dot(normal, normalize(vec3(-0.45, -0.55, 0.75))), 0.0));
        gl_Position = projectionMatrix * modelViewMatrix * vec4(position, 1.0);
      }`,
    fragmentShader: /* glsl */ `
      uniform vec3 uTone; uniform vec3 uCut;
      varying vec3 vColor; varying float vLight; varying float vCut;
      vec3 toScreen(vec3 c) { return mix(c * 12.92, 1.055 * pow(max(c, vec3(0.0)), vec3(1.0 / 2.4)) - 0.055, step(vec3(0.0031308), c)); }
      void main() {
        gl_FragColor = vec4(vCut > 0.5 ? toScreen(uCut) : toScreen(vColor * vLight * uTone), 1.0);
      }`,
  });
}
