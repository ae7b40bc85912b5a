/** Words of the Warmth Map. */

import type { WarmThingKind } from '../../engine/types.ts';
import type { HiddenBy, WarmthBody, WarmthView } from '../../engine/warmth.ts';
import type { WarmthPatch } from '../../engine/warmthPatches.ts';

/** +4.6 K, −3.1 K; from 10 K on whole kelvin, as the model holds no more. */
export function kelvin(k: number): string {
  const size = Math.abs(k);
  const text = size >= 9.95 ? String(Math.round(size)) : size.toFixed(1);
  if (Number(text) === 0) return '0.0 K';
  return `${k > 0 ? '+' : '−'}${text} K`;
}

const thingName: Record<WarmThingKind, string> = {
  radiator: 'radiator',
  fan: 'fan',
  curtain: 'curtain',
  warmAirOutlet: 'sheet under the warm-air outlet',
  cleaningRobot: 'cleaning robot',
  dog: 'dog',
};

const hiddenWords: Record<HiddenBy, string> = {
  glass: 'behind glass',
  furniture: 'behind furniture',
  wall: 'behind the wall',
  person: 'behind somebody',
};

export const warmthWords = {
  legend: (roomC: string): string => `heat against the room’s ${roomC}`,
  leans: 'leaning right: warmer; left: colder',
  glass: 'Glass is opaque to heat. No real detector shows this.',
  scale: 'Hatching by difference from the room',
  step: (fromK: number): string => `${fromK} K`,
  background: (c: number): string => `${Number(c.toFixed(1))} °C`,
  noOutside: 'Outside temperature not told: windows left blank.',
  tooLittle: 'too little contrast',
  notSeen: 'not seen',
  masked: 'under a mask',
  nobody: 'Nothing in the room is warmer or colder than the room itself.',
  heading: 'Heat contrast',
  needs: (k: number): string => `A pulse here needs about ${kelvin(k).slice(1)} at its best pace.`,
};

/** What stands at a body on the map: +4.6 K; too little contrast; behind glass: not seen. */
export function bodyTag(body: WarmthBody): string {
  switch (body.state) {
    case 'seen':
      return kelvin(body.contrastK);
    case 'faint':
      return warmthWords.tooLittle;
    case 'masked':
      return `${warmthWords.masked}: ${warmthWords.notSeen}`;
    case 'hidden':
      return `${hiddenWords[body.hiddenBy ?? 'furniture']}: ${warmthWords.notSeen}`;
  }
}

export function bodyName(body: WarmthBody): string {
  return body.thing ? thingName[body.thing] : body.id;
}

/** A sentence for each body. */
export function bodySentence(body: WarmthBody): string {
  const name = bodyName(body);
  const subject = body.thing ? `The ${name}` : name;
  if (body.state === 'hidden' || body.state === 'masked') return `${subject}: ${bodyTag(body)}.`;
  const words = body.state === 'faint' ? ` (${warmthWords.tooLittle})` : '';
  const needs = body.needsK === null ? '' : ` ${warmthWords.needs(body.needsK)}`;
  return `${subject} ${kelvin(body.contrastK)} against the room${words}.${needs}`;
}

const patchNames: Record<WarmthPatch['kind'], string> = {
  radiator: 'radiator',
  sunFloor: 'sun on the floor',
  sunTop: 'sun on a desk top',
  window: 'window glass',
};

export function patchName(patch: WarmthPatch): string {
  return patchNames[patch.kind];
}

/** Seen less than this, a still thing is said to be hidden, share. Assumed: a strip past a screen's edge. */
const HIDDEN_UNDER_SHARE = 0.03;

export function patchTag(patch: WarmthPatch): string {
  return kelvin(patch.contrastK);
}

export function patchSentence(patch: WarmthPatch): string {
  const hidden = patch.seenShare < HIDDEN_UNDER_SHARE ? `, ${warmthWords.notSeen} by the detector` : '';
  const name = patchName(patch);
  return `${name.charAt(0).toUpperCase()}${name.slice(1)} ${kelvin(patch.contrastK)}${hidden}; it stands still and gives no pulse.`;
}

/** One patch of each kind and value: three equal windows are one line. */
export function distinctPatches(patches: readonly WarmthPatch[]): WarmthPatch[] {
  const told = new Set<string>();
  return patches.filter((patch) => {
    const sentence = patchSentence(patch);
    if (told.has(sentence)) return false;
    told.add(sentence);
    return true;
  });
}

export function warmthSentences(view: WarmthView): string[] {
  const lines = [...view.bodies.map(bodySentence), ...distinctPatches(view.patches).map(patchSentence)];
  return lines.length > 0 ? lines : [warmthWords.nobody];
}
