/** What each cause does in a room, counted on the complaint's scene: which complaint shows it, and which causes fit one. */
import type { OutputId, Scenario } from '../../engine/types.ts';
import { secondsToTicks, TICK_S } from '../../engine/units.ts';
import { cardScenario } from '../diagnose/cards.ts';
import { isContactOn, litRight } from '../diagnose/complaint.ts';
import type { Candidate, Complaint, DiagnoseExercise } from '../diagnose/types.ts';
import { advance, plainWorld, someoneAt } from '../diagnose/world.ts';
import { benchScenario } from '../edits.ts';

export const OUTPUTS: readonly OutputId[] = ['innerRow', 'windowRow', 'airContact'];

/** Of one output in the window: time on and off, with somebody there and with nobody; switchings. */
export interface OutputFigures {
  onSomeoneS: number;
  onNobodyS: number;
  offSomeoneS: number;
  offNobodyS: number;
  switchings: number;
}

export type SceneFigures = Record<OutputId, OutputFigures>;

/** By the id of the cause; the room without any stands under an empty id. */
export type FiguresByCause = Record<string, SceneFigures>;

/** When the complaint is looked for, and in what light its time counts. */
export type Scene = Pick<Complaint, 'fromS' | 'toS'> & Pick<Extract<Complaint, { kind: 'time' }>, 'below' | 'above'>;

function figuresIn(scenario: Scenario, scene: Scene): SceneFigures {
  const world = plainWorld(scenario);
  const [fromTick, toTick] = [secondsToTicks(scene.fromS), secondsToTicks(scene.toS)];
  const ticks = OUTPUTS.map(() => ({ onSomeone: 0, onNobody: 0, offSomeone: 0, offNobody: 0 }));
  advance(world, fromTick);
  for (let tick = fromTick; tick < toTick; tick++) {
    advance(world, tick + 1);
    if (!litRight(world, scene)) continue;
    const someone = someoneAt(world, tick);
    OUTPUTS.forEach((output, i) => {
      const count = ticks[i]!;
      if (isContactOn(world, output)) count[someone ? 'onSomeone' : 'onNobody']++;
      else count[someone ? 'offSomeone' : 'offNobody']++;
    });
  }
  const of = (output: OutputId, i: number): OutputFigures => ({
    onSomeoneS: ticks[i]!.onSomeone * TICK_S,
    onNobodyS: ticks[i]!.onNobody * TICK_S,
    offSomeoneS: ticks[i]!.offSomeone * TICK_S,
    offNobodyS: ticks[i]!.offNobody * TICK_S,
    switchings: world.events.filter((e) => e.kind === 'output' && e.output === output && e.tick >= fromTick).length,
  });
  return Object.fromEntries(OUTPUTS.map((output, i) => [output, of(output, i)])) as SceneFigures;
}

/** Plays the room of each cause once, on one bench. `told`: how far it is, 0-1. */
export function figuresOf(
  exercise: DiagnoseExercise,
  seed: number,
  scene: Scene,
  told: (share: number) => void = () => undefined,
): FiguresByCause {
  const figures: FiguresByCause = { '': figuresIn(benchScenario(exercise, seed), scene) };
  exercise.diagnose.candidates.forEach(({ card }: Candidate, i, all) => {
    figures[card.id] = figuresIn(cardScenario(exercise, seed, card.id), scene);
    told((i + 1) / all.length);
  });
  return figures;
}

/** How much of the complaint a room shows: s, or switchings. */
export function amountIn(figures: SceneFigures, complaint: Complaint): number {
  const own = figures[complaint.output];
  if (complaint.kind === 'switchings') return own.switchings;
  const on = complaint.is === 'on';
  const someoneS = complaint.who === 'nobody' ? 0 : on ? own.onSomeoneS : own.offSomeoneS;
  const nobodyS = complaint.who === 'someone' ? 0 : on ? own.onNobodyS : own.offNobodyS;
  return someoneS + nobodyS;
}

export function limitOf(complaint: Complaint): number {
  return complaint.kind === 'switchings' ? complaint.moreThan : complaint.longerThanS;
}

export function fits(figures: SceneFigures | undefined, complaint: Complaint): boolean {
  return figures !== undefined && amountIn(figures, complaint) > limitOf(complaint);
}

/** Times of a complaint are rounded to this, s. Assumed: a client says "a minute", not seconds. */
const ROUND_S = 10;
/** Highest number of switchings that a complaint can name. Source: the schema of exercises. */
const MOST_SWITCHINGS = 100;

/** Of what a cause shows beyond the sound room, so much is left before the complaint counts: rivals show less. Assumed. */
const SPARED = 0.1;

/** A little above what the sound room shows, so that causes which show less can stand beside this one. */
function withLimit(complaint: Complaint, cause: number, sound: number): Complaint {
  const more = cause > sound ? sound + (cause - sound) * SPARED : cause / 2;
  if (complaint.kind === 'switchings') return { ...complaint, moreThan: Math.min(MOST_SWITCHINGS, Math.floor(more)) };
  return { ...complaint, longerThanS: Math.floor(more / ROUND_S) * ROUND_S + (cause > more + ROUND_S ? ROUND_S : 0) };
}

/** The four ways in which clients complain of an output. */
export function complaintsOf(output: OutputId, scene: Scene): Complaint[] {
  const time = { ...scene, output, kind: 'time' as const, longerThanS: 0 };
  const { fromS, toS } = scene;
  return [
    { ...time, is: 'off', who: 'someone' },
    { ...time, is: 'on', who: 'nobody' },
    { ...time, is: 'on', who: 'someone' },
    { fromS, toS, output, kind: 'switchings', moreThan: 0 },
  ];
}

/** A switching weighs as much as so long a time, s. Assumed: a lamp that goes twice a minute annoys as much as no lamp. */
const SWITCHING_S = 30;

/** The same complaint with the limit that tells this cause from the sound room. */
export function limited(complaint: Complaint, figures: FiguresByCause, cause: string): Complaint {
  const amount = (id: string): number => (figures[id] ? amountIn(figures[id], complaint) : 0);
  return withLimit(complaint, amount(cause), amount(''));
}

/**
 * The complaint that shows this cause most clearly beside the sound room; null: it shows nowhere. Where nothing is broken
 * the sound room itself gives cause for one.
 */
export function clearestComplaint(
  figures: FiguresByCause,
  cause: string,
  healthy: boolean,
  scene: Scene,
): Complaint | null {
  const [own, sound] = [figures[cause], figures['']];
  if (!own || !sound) return null;
  const all = OUTPUTS.flatMap((output) => complaintsOf(output, scene));
  const more = (complaint: Complaint): number => {
    const by = amountIn(own, complaint) - amountIn(sound, complaint);
    return complaint.kind === 'switchings' ? by * SWITCHING_S : by;
  };
  const best = all.reduce((most, one) => (more(one) > more(most) ? one : most));
  if (more(best) > 0) return limited(best, figures, cause);
  const dark = all.find((one) => one.kind === 'time' && one.is === 'off' && amountIn(own, one) > 0);
  return healthy && dark ? limited(dark, figures, cause) : null;
}
