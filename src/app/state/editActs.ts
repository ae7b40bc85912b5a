/** Changes of the room's surfaces, furniture and lamps, each with its opposite. Lazy: loaded with the panel that needs them. */
import type {
  DetectorMount,
  FurnitureSpec,
  Input,
  LampDistribution,
  LuminaireSpec,
  PointM,
  RowId,
} from '../../engine/types.ts';
import { act } from './session.ts';
import { getApp } from './store.ts';

export type Surface = 'floor' | 'walls' | 'ceiling' | 'desks';

/** Step and range of reflectances. Assumed: 0.05 is as fine as an eye judges a surface; no paint leaves this range. */
const STEP = 0.05;
const LEAST = 0.05;
const MOST = 0.9;
/** Furniture and luminaires move this far, m. Source: the product's own step. */
export const MOVE_M = 0.25;

const WALLS = ['front', 'back', 'left', 'right'] as const;

/** Several inputs as one act: one undo takes all of them back. */
function actAll(inputs: readonly Input[], undo: Input[]): void {
  inputs.forEach((input, i) => {
    act(input, i === 0 ? undo : undefined);
  });
}

/** Names that `setReflectance` knows for a surface, with their reflectance now. */
export function targetsOf(surface: Surface): { target: string; reflectance: number }[] {
  const { setup } = getApp();
  if (!setup) return [];
  if (surface === 'desks') {
    return setup.furniture
      .filter((f) => f.kind === 'desk' || f.kind === 'table')
      .map((f) => ({ target: f.id, reflectance: f.reflectance }));
  }
  const faces = surface === 'walls' ? WALLS : [surface];
  return faces.map((face) => ({ target: face, reflectance: setup.reflectance[face] }));
}

/** What has been asked of a surface and not yet come back: quick presses add up while the light is worked out. */
const asked = new Map<string, number>();
/** The same for places of furniture and luminaires. */
const askedPlace = new Map<string, PointM>();

/** The worker has answered: what is in the setup now is what counts. */
export function settleAsked(): void {
  asked.clear();
  askedPlace.clear();
  askedTurnDeg = null;
}

function stepped(from: number, by: 1 | -1): number {
  return Math.round(Math.min(MOST, Math.max(LEAST, from + by * STEP)) * 100) / 100;
}

export function stepSurface(surface: Surface, by: 1 | -1): void {
  const changes = targetsOf(surface)
    .map(({ target, reflectance }) => {
      const to = stepped(asked.get(target) ?? reflectance, by);
      return { target, from: asked.get(target) ?? reflectance, to };
    })
    .filter(({ from, to }) => from !== to);
  if (changes.length === 0) return;
  for (const { target, to } of changes) asked.set(target, to);
  actAll(
    changes.map(({ target, to }): Input => ({ kind: 'setReflectance', target, reflectance: to })),
    changes.map(({ target, from }): Input => ({ kind: 'setReflectance', target, reflectance: from })),
  );
}

/** Held inside the walls by half its size. */
function inside(atM: PointM, halfM: PointM): PointM {
  const { scenario } = getApp();
  if (!scenario) return atM;
  const { widthM, depthM } = scenario.room;
  const hold = (m: number, half: number, size: number): number =>
    Math.round(Math.min(Math.max(half, size - half), Math.max(Math.min(half, size - half), m)) * 1000) / 1000;
  return [hold(atM[0], halfM[0], widthM), hold(atM[1], halfM[1], depthM)];
}

function halfOf(alongM: number, acrossM: number, turned: boolean): PointM {
  return turned ? [acrossM / 2, alongM / 2] : [alongM / 2, acrossM / 2];
}

function move(key: string, atM: PointM, by: PointM, halfM: PointM, input: (atM: PointM) => Input): void {
  const from = askedPlace.get(key) ?? atM;
  const to = inside([from[0] + by[0], from[1] + by[1]], halfM);
  if (to[0] === from[0] && to[1] === from[1]) return;
  askedPlace.set(key, to);
  act(input(to), [input(from)]);
}

export function moveFurniture(piece: FurnitureSpec, by: PointM): void {
  const half = halfOf(piece.widthM, piece.depthM, piece.turnDeg === 90 || piece.turnDeg === 270);
  move(`furniture ${piece.id}`, piece.atM, by, half, (atM) => ({ kind: 'moveFurniture', furnitureId: piece.id, atM }));
}

/** A press of the turn, degrees. Source: half of a sector of the mask. */
export const TURN_DEG = 15;

/** Turns asked for and not yet come back. */
let askedTurnDeg: number | null = null;

/** The detector hangs on the ceiling: it keeps its own radius from the walls. */
const DETECTOR_HALF_M = 0.1;

function mountAsked(mount: DetectorMount): DetectorMount {
  return { ...mount, atM: askedPlace.get('detector') ?? mount.atM, turnDeg: askedTurnDeg ?? mount.turnDeg };
}

export function moveDetector(mount: DetectorMount, by: PointM): void {
  const now = mountAsked(mount);
  const half: PointM = [DETECTOR_HALF_M, DETECTOR_HALF_M];
  move('detector', mount.atM, by, half, (atM) => ({ kind: 'moveDetector', mount: { ...now, atM } }));
}

export function turnDetector(mount: DetectorMount, byDeg: number): void {
  const now = mountAsked(mount);
  askedTurnDeg = (now.turnDeg + byDeg + 360) % 360;
  act({ kind: 'moveDetector', mount: { ...now, turnDeg: askedTurnDeg } }, [{ kind: 'moveDetector', mount: now }]);
}

export function moveLuminaire(lamp: LuminaireSpec, by: PointM): void {
  const half = halfOf(lamp.lengthM, lamp.widthM, lamp.turnDeg === 90);
  move(`lamp ${lamp.id}`, lamp.atM, by, half, (atM) => ({ kind: 'moveLuminaire', luminaireId: lamp.id, atM }));
}

/** `before`: the row's lamps until now; null (several kinds in one row) has no single opposite, so no undo is offered. */
export function setLampKind(row: RowId, distribution: LampDistribution, before: LampDistribution | null): void {
  if (distribution === before) return;
  act(
    { kind: 'setLampKind', row, distribution },
    before ? [{ kind: 'setLampKind', row, distribution: before }] : undefined,
  );
}
