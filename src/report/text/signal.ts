/** Words of the signal close up, and of who is seen and who is not. */
import type { PersonAnswer, SightCause } from '../../engine/personSight.ts';
import type { FurnitureKind, Tick } from '../../engine/types.ts';
import { minuteSecond, spokenLength } from './format.ts';

/** Directions of a quadrant's middle in the room, by eighths of a turn clockwise from the back wall. */
const DIRECTIONS = ['back', 'back right', 'right', 'front right', 'front', 'front left', 'left', 'back left'] as const;

/** Where quadrant channel `channel` looks, in the room's own words. `turnDeg`: bearing of the window arrow. */
export function quadrantName(channel: number, turnDeg: number): string {
  const eighth = Math.round((45 + 90 * channel + turnDeg) / 45);
  return DIRECTIONS[((eighth % 8) + 8) % 8]!;
}

/** Whole microvolts, a tenth where a threshold has one. */
export function uvNumber(uv: number): string {
  return String(Number(uv.toFixed(1)));
}

/** A size beside its limit, in steps of 1 µV: never rounded onto the other side of it. */
export function uvBeside(uv: number, limitUv: number): number {
  const size = Math.abs(uv);
  const whole = Math.round(size);
  if (size < limitUv && whole >= limitUv) return Math.floor(Math.min(size, limitUv - 0.01));
  if (size >= limitUv && whole < limitUv) return Math.ceil(size);
  return whole;
}

/** By how much; both figures as they are told. */
function shortBy(uv: number, limitUv: number): string {
  return uvNumber(limitUv - uvBeside(uv, limitUv));
}

export const signalWords = {
  spans: { tenSeconds: '10 s', minute: '1 min', tenMinutes: '10 min' },
  toggle: 'Signal of the four quadrants, close up',
  loading: 'The signal is being worked out again.',
  scale: (uv: number): string => `scale ±${uv} µV`,
  hold: (uv: number): string => `hold ${uvNumber(uv)} µV`,
  switchOn: (uv: number): string => `switch on ${uvNumber(uv)} µV`,
  nothing: 'No signal here.',
  largest: (uv: number, quadrant: string, clock: string, hold: number, switchOn: number): string => {
    const size = uvBeside(uv, Math.abs(uv) < hold ? hold : switchOn);
    const head = `Largest here ${size} µV, ${quadrant}, ${clock}:`;
    if (Math.abs(uv) < hold) return `${head} ${shortBy(uv, hold)} µV short of ${signalWords.hold(hold)}`;
    if (Math.abs(uv) < switchOn) {
      return `${head} over ${signalWords.hold(hold)}, ${shortBy(uv, switchOn)} µV short of ${signalWords.switchOn(switchOn)}`;
    }
    return `${head} over ${signalWords.switchOn(switchOn)}`;
  },
  table: 'Largest signal of each second and quadrant, µV',
  time: 'Time',
  pulses: 'Pulses',
};

const HIDER: Record<FurnitureKind | 'wall', string> = {
  desk: 'a desk',
  table: 'a table',
  chair: 'a chair',
  shelf: 'a shelf',
  cabinet: 'a cabinet',
  screen: 'the screen',
  glassScreen: 'the glass screen',
  whiteboard: 'the whiteboard',
  plant: 'a plant',
  wall: 'the wall',
};

/** Part of a body that is hidden and worth a word. Assumed: less changes the signal by less than where the beams lie. */
const WORTH_SAYING = 0.2;

function hiderOf({ view, hider }: PersonAnswer): string {
  if (view && view.behindPeople > view.behindThings) return 'behind somebody else';
  return `behind ${hider ? HIDER[hider] : 'something'}`;
}

function lastOf({ overTicks }: PersonAnswer): string {
  return overTicks >= 600 ? 'in the last minute' : `in ${spokenLength(overTicks / 10)}`;
}

function neededText({ needed }: PersonAnswer): string {
  const aim = needed.rule === 'hold' ? 'to hold' : 'to switch on';
  return `${uvNumber(needed.uv)} needed ${aim}${needed.reduced ? ' in reduced sensitivity' : ''}`;
}

function largestText(answer: PersonAnswer): string {
  const { largest, needed } = answer;
  return `largest signal ${uvBeside(largest?.uv ?? 0, needed.uv)} µV ${lastOf(answer)}`;
}

/** "largest signal 14 µV in the last minute, 25 needed to hold: 11 µV short" */
function missText(answer: PersonAnswer): string {
  const { largest, needed } = answer;
  return `${largestText(answer)}, ${neededText(answer)}: ${shortBy(largest?.uv ?? 0, needed.uv)} µV short`;
}

function contrastText({ contrastK }: PersonAnswer): string {
  const k = Math.abs(contrastK ?? 0).toFixed(1);
  if (k === '0.0') return 'skin and clothes as warm as the background';
  return `skin and clothes ${k} K ${(contrastK ?? 0) < 0 ? 'below' : 'above'} the background`;
}

function partHidden(answer: PersonAnswer): string {
  const { view } = answer;
  if (!view) return '';
  const hidden = view.behindThings + view.behindPeople;
  const parts: string[] = [];
  if (hidden >= WORTH_SAYING) parts.push(`${Math.round(hidden * 100)} % of ${answer.personId} is ${hiderOf(answer)}`);
  if (view.masked >= WORTH_SAYING) {
    parts.push(`${Math.round(view.masked * 100)} % of ${answer.personId} is in a masked sector`);
  }
  return parts.map((part) => `; ${part}`).join('');
}

const CAUSE: Record<SightCause, (answer: PersonAnswer) => string> = {
  outside: () => 'outside the room',
  notSensing: () => 'the detector is not sensing now',
  hidden: (a) => `${hiderOf(a)}: nothing of ${a.personId} in view`,
  masked: (a) => `in a masked sector: nothing of ${a.personId} in view`,
  outOfReach: (a) => `outside the reach of the lens: nothing of ${a.personId} in view`,
  betweenBeams: (a) => `between two beams of the lens: nothing of ${a.personId} in view`,
  still: (a) => `no movement ${lastOf(a)}; only movement is seen`,
  littleContrast: (a) => `too little contrast: ${contrastText(a)}; ${missText(a)}${partHidden(a)}`,
  tooWeak: (a) => `${missText(a)}${partHidden(a)}`,
  onlyOnce: (a) => `${largestText(a)}, ${neededText(a)}, but not twice in one quadrant within 4 s`,
  strongEnough: (a) => `${largestText(a)}, ${neededText(a)}`,
};

function seenText({ lastSeenTick }: PersonAnswer, tick: Tick): string {
  if (lastSeenTick === null) return 'Not seen yet';
  const agoS = (tick - lastSeenTick) / 10;
  if (agoS < 1) return 'Seen now';
  return agoS < 10 ? `Seen ${Math.round(agoS)} s ago` : `Not seen for ${minuteSecond(agoS, 'down')}`;
}

/** Seen or not, why not and by how much, of one Stand-in who is in the room; as of `tick`. */
export function sightSentence(answer: PersonAnswer, tick: Tick): string {
  return `${seenText(answer, tick)}; ${CAUSE[answer.cause](answer)}.`;
}
