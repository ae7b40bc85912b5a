/** Keeps the light field's texture: refilled when a field comes, laid out anew when its faces changed. */
import { useThree } from '@react-three/fiber';
import { type ReactNode, useEffect, useState } from 'react';
import type { RoomSpec } from '../../engine/types.ts';
import { live, onLive } from '../state/live.ts';
import { createAtlasTexture, type FieldAtlas, fillAtlas, layOutAtlas, layoutKeyOf } from './light/fieldAtlas.ts';
import { pointCube } from './light/uniforms.ts';
import { sourceMeansLx, viewField } from './light/viewField.ts';
import { AtlasContext, type SceneResources, useResources } from './resources.ts';

function takeField(r: SceneResources, room: RoomSpec, atlas: FieldAtlas | null): FieldAtlas | null {
  if (!live.field || live.field.faces.length === 0) return atlas;
  const field = viewField(room, live.field);
  const same = atlas !== null && atlas.layoutKey === layoutKeyOf(field.faces);
  const next = same ? atlas : layOutAtlas(field.faces);
  if (!same || !r.uniforms.uAtlas.value) {
    r.uniforms.uAtlas.value?.dispose();
    r.uniforms.uAtlas.value = createAtlasTexture(next);
    pointCube(r.uniforms, next, room);
  }
  fillAtlas(next, field, r.uniforms.uAtlas.value);
  r.meanLx = sourceMeansLx(field);
  return next;
}

export function FieldKeeper({ room, children }: { room: RoomSpec; children: ReactNode }) {
  const resources = useResources();
  const invalidate = useThree((s) => s.invalidate);
  const [atlas, setAtlas] = useState<FieldAtlas | null>(null);
  useEffect(() => {
    let seen = -1;
    let held: FieldAtlas | null = null;
    const look = () => {
      if (seen === live.fieldVersion) return;
      seen = live.fieldVersion;
      held = takeField(resources, room, held);
      setAtlas(held);
    };
    look();
    invalidate();
    // What is drawn of later ones the Conductor asks for.
    return onLive(look);
  }, [resources, room, invalidate]);
  return <AtlasContext value={atlas}>{children}</AtlasContext>;
}
