/** Proof of repair and record: judged by readings taken after the last change, never by what is written. */
import type { ControllerSettings } from '../../engine/types.ts';
import { TICKS_PER_S } from '../../engine/units.ts';
import { isBefore, type Taken } from './evidence.ts';
import { PASS_PROOF } from './score.ts';
import { testKey } from './tests.ts';
import type { Act, FaultCard, ProofId, RecordSlot, SpecialProof, Value } from './types.ts';

/** Points of one proof and of one slot of the record. Source: the product's own rubric. */
export const PROOF_WORTH = 3;
export const SLOT_WORTH = 1;
/** An off-delay is proved within this share. Source: the product's own marking rule, 5 %. */
const DELAY_SHARE = 0.05;

function valuesOf({ reading }: Taken): Record<string, Value> {
  return 'values' in reading ? reading.values : {};
}

/** A timed switching counts only if it came after the change. */
function switchedAfter(taken: Taken, changed: Act): boolean {
  const { agoS } = valuesOf(taken);
  return typeof agoS === 'number' && taken.clip.tick - agoS * TICKS_PER_S >= changed.tick;
}

function delayProved(taken: Taken, changed: Act, settings: ControllerSettings): boolean {
  const { test } = taken.clip;
  if (test.instrument !== 'stopwatch' || test.edge !== 'off' || test.output === 'airContact') return false;
  const inner = test.output === 'innerRow' || settings.delaysCoupled;
  const delayS = inner ? settings.innerOffDelayS : settings.windowOffDelayS;
  const { timeS } = valuesOf(taken);
  const near = typeof timeS === 'number' && Math.abs(timeS - delayS) <= DELAY_SHARE * delayS;
  return near && switchedAfter(taken, changed);
}

export function specialProved(taken: Taken, changed: Act, proof: SpecialProof): boolean {
  if (testKey(taken.clip.test) !== testKey(proof.test)) return false;
  if (taken.clip.test.instrument === 'stopwatch' && !switchedAfter(taken, changed)) return false;
  const value = valuesOf(taken)[proof.value];
  if (value === undefined) return false;
  if (proof.is !== undefined && value !== proof.is) return false;
  if (proof.atLeast === undefined && proof.atMost === undefined) return true;
  const { atLeast = Number.NEGATIVE_INFINITY, atMost = Number.POSITIVE_INFINITY } = proof;
  return typeof value === 'number' && value >= atLeast && value <= atMost;
}

/** Proofs that succeeded, each with the clip that shows it. `changed`: the last change, or the verdict if there was none. */
export function proofsDone(
  taken: readonly Taken[],
  changed: Act,
  card: FaultCard,
  settings: ControllerSettings,
): Map<ProofId, Taken> {
  const after = taken.filter(({ clip, reading }) => 'values' in reading && isBefore(changed, clip));
  const done = new Map<ProofId, Taken>();
  const find = (id: ProofId, wanted: (one: Taken) => boolean): void => {
    const clip = after.find(wanted);
    if (clip) done.set(id, clip);
  };
  const pressed = (button: string) => (one: Taken) =>
    one.clip.test.instrument === 'button' && one.clip.test.button === button && valuesOf(one).answered === true;
  find('complaint', (one) => one.clip.test.instrument === 'repeat' && (card.healthy || valuesOf(one).holds === false));
  find('movement', (one) => one.clip.test.instrument === 'seenAt' && valuesOf(one).seen === true);
  if (after.some(pressed('inner'))) find('buttons', pressed('window'));
  find('offDelay', (one) => delayProved(one, changed, settings));
  find('special', (one) => specialProved(one, changed, card.proof));
  return done;
}

/** What a pass needs: the complaint played again, and two more proofs at least. */
export function isProved(proofs: ReadonlyMap<ProofId, Taken>): boolean {
  return proofs.has('complaint') && PROOF_WORTH * proofs.size >= PASS_PROOF;
}

const TOLD_BY_CLIENT = ['ask', 'repeat'];

/** Slots of the record that clips and acts fill. Advice is a lecturer's to mark. */
export function slotsFilled(
  taken: readonly Taken[],
  verdict: Act | null,
  firstChange: Act | null,
  lastChange: Act | null,
  names: readonly string[],
): Set<RecordSlot> {
  const clips = taken.filter(({ reading }) => 'values' in reading).map(({ clip }) => clip);
  const filled = new Set<RecordSlot>();
  const isSymptom = ({ test }: { test: { instrument: string } }) => TOLD_BY_CLIENT.includes(test.instrument);
  const before = clips.filter((clip) => !verdict || isBefore(clip, firstChange ?? verdict));
  const after = lastChange ? clips.filter((clip) => isBefore(lastChange, clip)) : [];
  if (before.some(isSymptom)) filled.add('symptom');
  // Nothing of the mains was touched: there is nothing to isolate, and the record says so.
  if (verdict) filled.add('isolation').add('cause');
  if (before.some((clip) => !isSymptom(clip))) filled.add('readingsBefore');
  if (verdict && lastChange) filled.add('remedy');
  if (after.some((clip) => !isSymptom(clip))) filled.add('readingsAfter');
  if (after.some(({ test }) => test.instrument === 'settings')) filled.add('settingsLeft');
  if (before.length > 0 && after.length > 0) filled.add('testTimes');
  if (names.some((name) => name.trim() !== '')) filled.add('name');
  return filled;
}
