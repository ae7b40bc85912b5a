/** The model of the room: interior, lamps, what lies outside it, glass, lines. */
import { useEffect, useMemo } from 'react';
import type { BufferGeometry } from 'three';
import { haloGeometry } from './model/halo.ts';
import type { ModelInput } from './model/roomModel.ts';
import { interiorGeometry, lampGeometry, outsideGeometry } from './model/roomModel.ts';
import { useAtlas, useResources } from './resources.ts';

/** A geometry that is thrown away with its last use. */
export function useGeometry(build: () => BufferGeometry | null, keys: readonly unknown[]): BufferGeometry | null {
  // biome-ignore lint/correctness/useExhaustiveDependencies: the caller names what the geometry is built from
  const geometry = useMemo(build, keys);
  useEffect(() => () => geometry?.dispose(), [geometry]);
  return geometry;
}

export function RoomMesh({ input }: { input: ModelInput }) {
  const r = useResources();
  const atlas = useAtlas();
  const interior = useGeometry(() => (atlas ? interiorGeometry(input, atlas) : null), [input, atlas]);
  const lamps = useGeometry(() => lampGeometry(input.room), [input.room]);
  const halo = useGeometry(() => haloGeometry(input.room), [input.room]);
  const outside = useGeometry(() => outsideGeometry(input.room), [input.room]);
  return (
    <>
      {outside && <mesh geometry={outside} material={r.outside} frustumCulled={false} />}
      {interior && <mesh geometry={interior} material={r.interior} frustumCulled={false} />}
      {interior && lamps && <mesh geometry={lamps} material={r.lamp} frustumCulled={false} />}
      {interior && halo && <mesh geometry={halo} material={r.halo} frustumCulled={false} renderOrder={6} />}
    </>
  );
}
