/** The step ladder under whoever is up it, in the lines of the model. */
import { BufferAttribute, BufferGeometry } from 'three';
import { LADDER_RISE_M } from '../../engine/people/anatomy.ts';
import { useApp, useShown } from '../state/store.ts';
import { MODEL_LINE } from './model/palette.ts';
import { useGeometry } from './RoomMesh.tsx';

/** Measures of the drawing, m. Assumed: a small step ladder. */
const TREADS = 3;
const WIDE_M = 0.46;
const SPREAD_M = 0.42;

/** Ends of lines, x y z each: four rails, the treads, one stay. The feet of whoever is up stand on the top. */
function ladderLines(x: number, y: number, headingDeg: number): number[] {
  const bearing = (headingDeg * Math.PI) / 180;
  const [s, c] = [Math.sin(bearing), Math.cos(bearing)];
  const at = (across: number, ahead: number, up: number): number[] => [
    x + across * c + ahead * s,
    y - across * s + ahead * c,
    up,
  ];
  const sides = [-WIDE_M / 2, WIDE_M / 2];
  const line = (from: number[], to: number[]): number[] => [...from, ...to];
  const rails = sides.flatMap((side) =>
    [-SPREAD_M, SPREAD_M].flatMap((ahead) => line(at(side, 0, LADDER_RISE_M), at(side, ahead, 0))),
  );
  const treads = Array.from({ length: TREADS }, (_, k) => (k + 1) / TREADS).flatMap((up) => {
    const ahead = -SPREAD_M * (1 - up);
    return line(at(sides[0]!, ahead, up * LADDER_RISE_M), at(sides[1]!, ahead, up * LADDER_RISE_M));
  });
  return [
    ...rails,
    ...treads,
    ...line(at(0, -SPREAD_M / 2, LADDER_RISE_M / 2), at(0, SPREAD_M / 2, LADDER_RISE_M / 2)),
  ];
}

/** "x y headingDeg" of each ladder, in one text, so that React sees a change only where there is one. */
function usePlaces(): string {
  return useShown(
    (f) =>
      f.people
        .filter((p) => p.present && p.act === 'ladder')
        .map((p) => `${p.atM[0]} ${p.atM[1]} ${p.headingDeg}`)
        .join('|'),
    '',
  );
}

export function Ladders() {
  const places = usePlaces();
  const style = MODEL_LINE[useApp((s) => s.theme)];
  const geometry = useGeometry(() => {
    const points = places
      .split('|')
      .filter((place) => place !== '')
      .flatMap((place) => ladderLines(...(place.split(' ').map(Number) as [number, number, number])));
    return new BufferGeometry().setAttribute('position', new BufferAttribute(new Float32Array(points), 3));
  }, [places]);
  if (!geometry || places === '') return null;
  return (
    <lineSegments geometry={geometry} frustumCulled={false} renderOrder={4}>
      <lineBasicMaterial color={style.color} toneMapped={false} />
    </lineSegments>
  );
}
