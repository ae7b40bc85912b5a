/** What the parts of one Room View share: uniforms, materials, the view of this instant, the atlas. */
import { createContext, useContext } from 'react';
import type { ShaderMaterial } from 'three';
import type { FieldAtlas } from './light/fieldAtlas.ts';
import { createWarmFigureMaterial } from './light/hatchMaterial.ts';
import {
  createFigureMaterial,
  createHaloMaterial,
  createInteriorMaterial,
  createLampMaterial,
  createOutsideMaterial,
} from './light/materials.ts';
import { createRoomUniforms, type RoomUniforms } from './light/uniforms.ts';
import type { LightLine } from './lines/lightLines.ts';
import { createLineMaterial } from './lines/lineMaterial.ts';
import { createView, type ViewNow } from './view.ts';

export interface SceneResources {
  uniforms: RoomUniforms;
  interior: ShaderMaterial;
  figure: ShaderMaterial;
  /** Bodies of the Warmth Map. */
  warmFigure: ShaderMaterial;
  lamp: ShaderMaterial;
  halo: ShaderMaterial;
  outside: ShaderMaterial;
  line: ShaderMaterial;
  /** Lines of the Light Map as they are drawn. */
  lines: readonly LightLine[];
  /** The processor draws: no in-between pictures, it has the engine to run. */
  software: boolean;
  view: ViewNow;
  /** Mean lux of what is seen, weighted by reflectance, per source: daylight, inner row, window row, doors. */
  meanLx: [number, number, number, number];
}

export function createResources(software: boolean): SceneResources {
  const uniforms = createRoomUniforms();
  return {
    uniforms,
    interior: createInteriorMaterial(uniforms),
    figure: createFigureMaterial(uniforms),
    warmFigure: createWarmFigureMaterial(),
    lamp: createLampMaterial(uniforms),
    halo: createHaloMaterial(uniforms),
    outside: createOutsideMaterial(),
    line: createLineMaterial(uniforms),
    lines: [],
    software,
    view: createView(),
    meanLx: [0, 0, 0, 0],
  };
}

export function disposeResources(r: SceneResources): void {
  for (const material of [r.interior, r.figure, r.warmFigure, r.lamp, r.halo, r.outside, r.line]) material.dispose();
  r.uniforms.uAtlas.value?.dispose();
  r.uniforms.uAtlas.value = null;
}

export const ResourcesContext = createContext<SceneResources | null>(null);

export function useResources(): SceneResources {
  const resources = useContext(ResourcesContext);
  if (!resources) throw new Error('A part of the Room View stands outside it.');
  return resources;
}

export const AtlasContext = createContext<FieldAtlas | null>(null);

/** Null until the first field has come. */
export function useAtlas(): FieldAtlas | null {
  return useContext(AtlasContext);
}
