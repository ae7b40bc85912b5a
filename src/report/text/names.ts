/** Names of things, written out. */
import type { AirPhase, Phase, RowPhase } from '../../engine/trace.ts';
import type {
  Activity,
  ButtonId,
  LampDistribution,
  OutputId,
  RowId,
  RowMode,
  SkyCondition,
} from '../../engine/types.ts';

export const outputName: Record<OutputId, string> = {
  innerRow: 'Inner row',
  windowRow: 'Window row',
  airContact: 'Air contact',
};

export const rowName: Record<RowId, string> = { inner: 'Inner row', window: 'Window row' };

export const buttonName: Record<ButtonId, string> = {
  inner: 'Inner button',
  window: 'Window button',
  air: 'Air button',
};

export const phaseName: Record<Phase, string> = {
  off: 'Off',
  warmUp: 'Warm-up',
  running: 'Running',
  walkTest: 'Walk-test',
};

export const stateName: Record<RowPhase | AirPhase, string> = {
  waiting: 'Waiting',
  litByAutomatic: 'Lit by automatic',
  daylightIsEnough: 'Daylight is enough',
  heldOn: 'Held on',
  heldOff: 'Held off',
  airOff: 'Air off',
  watching: 'Watching',
  airOn: 'Air on',
  airHeldOn: 'Air held on',
  airHeldOff: 'Air held off',
};

export const modeName: Record<RowMode, string> = {
  autoOn: 'auto-on / auto-off',
  manualOn: 'manual-on / auto-off',
  shortImpulse: 'short impulse',
};

export const skyName: Record<SkyCondition, string> = {
  clear: 'clear',
  hazy: 'hazy sun',
  passingClouds: 'passing clouds',
  overcast: 'overcast',
};

/** What a Stand-in is doing, after "A". */
export const actName: Record<Activity | 'walk' | 'outside', string> = {
  stand: 'stands',
  sway: 'stands and sways',
  stretch: 'stretches',
  sit: 'sits',
  type: 'sits and types',
  read: 'sits and reads',
  reach: 'reaches across the desk',
  lean: 'leans over',
  sitStill: 'sits still',
  standStill: 'stands still',
  ladder: 'is up the ladder',
  walk: 'walks',
  outside: 'is outside',
};

export const terminalNames = [
  'Supply L',
  'Supply N',
  'PE',
  'Inner row out',
  'Window row out',
  'Inner button in',
  'Window button in',
  'Air button in',
  'Air contact pair',
] as const;

export const lampKindName: Record<LampDistribution, string> = {
  lambert: 'even spread',
  cosine3: 'narrow beam',
  batwing: 'wide spread',
};

/** Name of an output inside a sentence. */
export function outputInSentence(output: OutputId): string {
  return `the ${outputName[output].toLowerCase()}`;
}
