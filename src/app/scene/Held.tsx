/** Cover cloth and torch at the detector, for as long as they are held there. */
import { DoubleSide } from 'three';
import type { DetectorMount, RowId } from '../../engine/types.ts';
import { useApp, useShown } from '../state/store.ts';
import { beamGeometry, clothGeometry, torchGeometry } from './model/held.ts';
import { Pips } from './Pips.tsx';
import { useGeometry } from './RoomMesh.tsx';
import { useResources } from './resources.ts';

export function Held({ mount }: { mount: DetectorMount }) {
  const covered = useShown((f) => f.held.cloth !== null, false);
  const side = useShown((f) => f.held.torch?.side ?? null, null);
  return (
    <>
      {/* Under the cloth nobody sees the pips. */}
      {covered ? <Cloth mount={mount} /> : <Pips mount={mount} />}
      {side && <Torch mount={mount} side={side} />}
    </>
  );
}

function Cloth({ mount }: { mount: DetectorMount }) {
  const { interior } = useResources();
  const geometry = useGeometry(() => clothGeometry(mount), [mount]);
  return geometry && <mesh geometry={geometry} material={interior} frustumCulled={false} />;
}

function Torch({ mount, side }: { mount: DetectorMount; side: RowId }) {
  const { interior } = useResources();
  const day = useApp((s) => s.theme === 'day');
  const lamp = useGeometry(() => torchGeometry(mount, side), [mount, side]);
  const beam = useGeometry(() => beamGeometry(mount, side), [mount, side]);
  return (
    <>
      {lamp && <mesh geometry={lamp} material={interior} frustumCulled={false} />}
      {beam && (
        <mesh geometry={beam} frustumCulled={false} renderOrder={5}>
          <meshBasicMaterial
            color={day ? '#FFD75E' : '#FFE9A8'}
            toneMapped={false}
            transparent
            opacity={0.65}
            depthWrite={false}
            side={DoubleSide}
          />
        </mesh>
      )}
    </>
  );
}
