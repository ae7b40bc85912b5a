/** Warm things of the room: moving ones as bodies, still ones as warm boxes of the background. */
import { atan2, cos, hypot2, PI, sin, sqrt } from '../math.ts';
import {
  NUMBERS_PER_PART,
  PARTS_PER_BODY,
  type PointM,
  type Tick,
  type Vector3,
  type WarmThingSpec,
} from '../types.ts';
import { degToRad, radToDeg, SUB_STEPS, shortestTurnDeg, TICK_S } from '../units.ts';
import { smooth } from './timing.ts';

/** Turns of a fan per second while it runs. Assumed: a slow pedestal fan. */
const FAN_HZ = 4;
/** Sway of a curtain: rate and half way, when the file gives no path. Source: our own test case for false triggers. */
const CURTAIN_HZ = 0.6;
const CURTAIN_SWAY_M = 0.15;
/** Size of the cloth, m. Source: same test case. */
const CURTAIN_WIDTH_M = 1;
const CURTAIN_DROP_M = 1.6;
/** A sheet under a warm-air outlet: half way, rate, half edge, m and Hz. Source: same test case (.3 m paper, .1 m, 1 Hz). */
const SHEET_SWAY_M = 0.1;
const SHEET_HZ = 1;
const SHEET_HALF_M = 0.15;
/** Sheet's middle below the outlet, m. Assumed: a streamer; nearer it would hang above the rim of the lens's view. */
const SHEET_BELOW_M = 0.5;
/** Pace of robot and dog when the file gives none, m/s. Assumed: cleaning pace; walking dog. */
const ROBOT_MPS = 0.25;
const DOG_MPS = 1;
/** Turning at a corner of the path, s. Assumed: quicker would be seen like a twitch. */
const CORNER_S = 1;

/** A still warm thing as plain data for the background: a box `excessK` above the room when on. */
export interface WarmPatch {
  id: string;
  minM: Vector3;
  maxM: Vector3;
  /** 0 while off. */
  excessK: number;
  /** How fast it follows `excessK`, s: a step of background temperature would look like movement. */
  timeConstantS: number;
}

/** Radiator panel: width when no path is given, thickness, clear height above the floor, m; and how slowly it warms, s.
 *  Assumed: a panel heater; the time constant decides that it never trips a detector. */
const RADIATOR_WIDTH_M = 1;
const RADIATOR_DEEP_M = 0.1;
const RADIATOR_CLEAR_M = 0.12;
const RADIATOR_TIME_S = 120;

/** Boxes for the detector's background. A radiator spans its path (two ends along a wall), else 1 m along x at `atM`; `heightM` is its top. */
export function staticWarmPatches(things: WarmThingSpec[]): WarmPatch[] {
  return things
    .filter((thing) => thing.kind === 'radiator')
    .map((thing) => {
      const [x, y] = thing.atM;
      const a = thing.pathM?.[0] ?? [x - RADIATOR_WIDTH_M / 2, y];
      const b = thing.pathM?.[1] ?? [x + RADIATOR_WIDTH_M / 2, y];
      const half = RADIATOR_DEEP_M / 2;
      return {
        id: thing.id,
        minM: [Math.min(a[0], b[0]) - half, Math.min(a[1], b[1]) - half, RADIATOR_CLEAR_M] as Vector3,
        maxM: [Math.max(a[0], b[0]) + half, Math.max(a[1], b[1]) + half, thing.heightM] as Vector3,
        excessK: thing.on ? thing.excessK : 0,
        timeConstantS: RADIATOR_TIME_S,
      };
    });
}

/** Whether a thing has a body of its own. A dog that is off is out of the room; other things rest while off. */
export function bodyOfThing(thing: WarmThingSpec): boolean {
  return thing.kind !== 'radiator' && (thing.kind !== 'dog' || thing.on);
}

/** Scratch: where a wanderer is (x, y) and which way it faces (sine, cosine of the bearing). */
const spot = new Float64Array(4);

/** Bearing of a leg of the way there and back, rad; `leg` counts 0 … 2 (n - 1) - 1. */
function legBearing(path: PointM[], leg: number): number {
  const legs = path.length - 1;
  const there = leg < legs;
  const from = there ? path[leg]! : path[2 * legs - leg]!;
  const to = there ? path[leg + 1]! : path[2 * legs - leg - 1]!;
  return atan2(to[0] - from[0], to[1] - from[1]);
}

function standAt(x: number, y: number, bearing: number): void {
  spot[0] = x;
  spot[1] = y;
  spot[2] = sin(bearing);
  spot[3] = cos(bearing);
}

/** There and back along the path at an even pace, turning on the spot at every corner; `s` seconds since the start. */
function wander(thing: WarmThingSpec, paceMps: number, s: number): void {
  const path = thing.pathM;
  standAt(thing.atM[0], thing.atM[1], 0);
  if (path === undefined || path.length < 2) return;
  const legs = path.length - 1;
  let roundS = 0;
  for (let leg = 0; leg < legs; leg++) roundS += (2 * legLengthM(path, leg)) / paceMps + 2 * CORNER_S;
  let left = thing.on ? s % roundS : 0;
  for (let leg = 0; leg < 2 * legs; leg++) {
    const k = leg < legs ? leg : 2 * legs - 1 - leg;
    const walkS = legLengthM(path, k) / paceMps;
    const from = path[leg < legs ? k : k + 1]!;
    const to = path[leg < legs ? k + 1 : k]!;
    const bearing = legBearing(path, leg);
    if (left < walkS) {
      const share = left / walkS;
      standAt(from[0] + (to[0] - from[0]) * share, from[1] + (to[1] - from[1]) * share, bearing);
      return;
    }
    left -= walkS;
    if (left < CORNER_S || leg === 2 * legs - 1) {
      const turn = shortestTurnDeg(radToDeg(bearing), radToDeg(legBearing(path, (leg + 1) % (2 * legs))));
      standAt(to[0], to[1], bearing + degToRad(turn) * smooth(Math.min(left / CORNER_S, 1)));
      return;
    }
    left -= CORNER_S;
  }
}

function legLengthM(path: PointM[], leg: number): number {
  return hypot2(path[leg + 1]![0] - path[leg]![0], path[leg + 1]![1] - path[leg]![1]);
}

/** Ellipsoid in the frame of `spot`: centre (right, forward, up), half axes along right, forward, up. */
function blob(out: Float64Array, o: number, x: number, y: number, z: number, a: number, b: number, c: number): void {
  const s = spot[2]!;
  const k = spot[3]!;
  out.fill(0, o, o + NUMBERS_PER_PART);
  out[o] = spot[0]! + k * x + s * y;
  out[o + 1] = spot[1]! + k * y - s * x;
  out[o + 2] = z;
  out[o + 3] = k * a;
  out[o + 4] = -s * a;
  out[o + 6] = s * b;
  out[o + 7] = k * b;
  out[o + 11] = c;
}

function poseDog(thing: WarmThingSpec, s: number, out: Float64Array, base: number): void {
  const pace = thing.speedMps ?? DOG_MPS;
  wander(thing, pace, s);
  const h = thing.heightM;
  blob(out, base, 0, 0, 0.68 * h, 0.2 * h, 0.55 * h, 0.24 * h);
  blob(out, base + 12, 0, 0.72 * h, 0.86 * h, 0.13 * h, 0.24 * h, 0.15 * h);
  blob(out, base + 24, 0, -0.68 * h, 0.8 * h, 0.04 * h, 0.2 * h, 0.04 * h);
  // Trotting: diagonal legs together, one cycle in about two heights of ground.
  const swing = thing.pathM === undefined ? 0 : 0.22 * h * sin((PI * pace * s) / h);
  for (let leg = 0; leg < 4; leg++) {
    const front = leg < 2 ? 1 : -1;
    const right = leg % 2 === 0 ? 1 : -1;
    blob(
      out,
      base + 36 + 12 * leg,
      right * 0.13 * h,
      front * 0.38 * h + front * right * swing,
      0.27 * h,
      0.06 * h,
      0.08 * h,
      0.27 * h,
    );
  }
}

function poseRobot(thing: WarmThingSpec, s: number, out: Float64Array, base: number): void {
  wander(thing, thing.speedMps ?? ROBOT_MPS, s);
  blob(out, base, 0, 0, thing.heightM / 2, 0.17, 0.17, thing.heightM / 2);
}

/** Three blades across the bearing +y of the fan, hub at `heightM`. */
function poseFan(thing: WarmThingSpec, s: number, out: Float64Array, base: number): void {
  const turns = thing.on ? FAN_HZ * s : 0;
  const angle = 2 * PI * (turns - Math.floor(turns));
  for (let blade = 0; blade < 3; blade++) {
    const o = base + blade * NUMBERS_PER_PART;
    const a = angle + (blade * 2 * PI) / 3;
    const c = cos(a);
    const k = sin(a);
    out.fill(0, o, o + NUMBERS_PER_PART);
    out[o] = thing.atM[0] + 0.11 * c;
    out[o + 1] = thing.atM[1];
    out[o + 2] = thing.heightM + 0.11 * k;
    out[o + 3] = 0.1 * c;
    out[o + 5] = 0.1 * k;
    out[o + 6] = -0.055 * k;
    out[o + 8] = 0.055 * c;
    out[o + 10] = 0.012;
  }
}

/** Strips of cloth that hang from `heightM` and swing, each a little after its neighbour. `turnDeg`: bearing the cloth faces. */
function poseCurtain(thing: WarmThingSpec, s: number, out: Float64Array, base: number): void {
  const facing = degToRad(thing.turnDeg ?? 0);
  const alongX = cos(facing);
  const alongY = -sin(facing);
  const path = thing.pathM;
  const swayX = path === undefined || path.length < 2 ? CURTAIN_SWAY_M * alongX : (path[1]![0] - path[0]![0]) / 2;
  const swayY = path === undefined || path.length < 2 ? CURTAIN_SWAY_M * alongY : (path[1]![1] - path[0]![1]) / 2;
  const strips = 5;
  const half = CURTAIN_DROP_M / 2;
  for (let i = 0; i < strips; i++) {
    const o = base + i * NUMBERS_PER_PART;
    const across = ((i + 0.5) / strips - 0.5) * CURTAIN_WIDTH_M;
    // Middle of the cloth moves half as far as its hem, so the hem goes twice the stated way.
    const swing = thing.on ? sin(2 * PI * CURTAIN_HZ * s - 0.3 * i) : 0;
    out[o] = thing.atM[0] + across * alongX + swing * swayX;
    out[o + 1] = thing.atM[1] + across * alongY + swing * swayY;
    out[o + 2] = thing.heightM - half;
    // Long axis from the rail to the hem, the others square to it.
    let lx = swing * swayX;
    let ly = swing * swayY;
    let lz = -half;
    const n = 1 / sqrt(lx * lx + ly * ly + lz * lz);
    lx *= n;
    ly *= n;
    lz *= n;
    const d = alongX * lx + alongY * ly;
    let ax = alongX - d * lx;
    let ay = alongY - d * ly;
    let az = -d * lz;
    const m = 1 / sqrt(ax * ax + ay * ay + az * az);
    ax *= m;
    ay *= m;
    az *= m;
    const wide = (1.15 * CURTAIN_WIDTH_M) / strips / 2;
    const thin = 0.03;
    out[o + 3] = lx * half;
    out[o + 4] = ly * half;
    out[o + 5] = lz * half;
    out[o + 6] = ax * wide;
    out[o + 7] = ay * wide;
    out[o + 8] = az * wide;
    out[o + 9] = (ly * az - lz * ay) * thin;
    out[o + 10] = (lz * ax - lx * az) * thin;
    out[o + 11] = (lx * ay - ly * ax) * thin;
  }
}

/** A sheet of paper that hangs SHEET_BELOW_M under the outlet and swings with its warm air: along the path, else along x. */
function poseSheet(thing: WarmThingSpec, s: number, out: Float64Array, base: number): void {
  const path = thing.pathM;
  const swing = thing.on ? sin(2 * PI * SHEET_HZ * s) : 0;
  const swayX = path === undefined || path.length < 2 ? SHEET_SWAY_M : (path[1]![0] - path[0]![0]) / 2;
  const swayY = path === undefined || path.length < 2 ? 0 : (path[1]![1] - path[0]![1]) / 2;
  standAt(thing.atM[0] + swayX * swing, thing.atM[1] + swayY * swing, 0);
  blob(out, base, 0, 0, thing.heightM - SHEET_BELOW_M, SHEET_HALF_M, 0.01, SHEET_HALF_M);
}

/** Writes the ellipsoids of a thing with a body at `base`; unused parts have zero axes. Returns the pose key. */
export function poseThing(thing: WarmThingSpec, tick: Tick, subStep: number, out: Float64Array, base: number): number {
  out.fill(0, base, base + PARTS_PER_BODY * NUMBERS_PER_PART);
  const s = (tick + subStep / SUB_STEPS) * TICK_S;
  switch (thing.kind) {
    case 'dog':
      poseDog(thing, s, out, base);
      break;
    case 'cleaningRobot':
      poseRobot(thing, s, out, base);
      break;
    case 'fan':
      poseFan(thing, s, out, base);
      break;
    case 'curtain':
      poseCurtain(thing, s, out, base);
      break;
    case 'warmAirOutlet':
      poseSheet(thing, s, out, base);
      break;
    case 'radiator':
      break;
  }
  return movesNow(thing) ? 1 + tick * SUB_STEPS + subStep : 0;
}

function movesNow(thing: WarmThingSpec): boolean {
  const wanders = thing.kind === 'dog' || thing.kind === 'cleaningRobot';
  return thing.on && (!wanders || (thing.pathM?.length ?? 0) > 1);
}
