/** Cards of the case notebook say the case in its own numbers: what was said, measured, found, and shown at the end. */
import { describe, expect, it } from 'vitest';
import { diskLibrary } from '../../src/cli/files.ts';
import { ENGINE_VERSION } from '../../src/engine/simulation.ts';
import { benchScenario } from '../../src/exercise/edits.ts';
import { exerciseById } from '../../src/exercise/load.ts';
import { markAttempt } from '../../src/exercise/mark.ts';
import { playFor, solutionEdges } from '../../src/exercise/predict/solution.ts';
import type { Attempt, Exercise, Mark, MarkLine } from '../../src/exercise/types.ts';
import { type Card, cardOf, cardsText } from '../../src/report/notebook.ts';
import { clockAt } from '../../src/report/text/format.ts';

function exerciseOf<K extends Exercise['kind']>(id: string, kind: K): Extract<Exercise, { kind: K }> {
  const loaded = exerciseById(diskLibrary(), id);
  if (!loaded.ok || loaded.value.kind !== kind) throw new Error(`${id} is no ${kind}`);
  return loaded.value as Extract<Exercise, { kind: K }>;
}

const heads = ({ parts }: Card): string[] => parts.map(({ head }) => head);

describe('the card of a prediction', () => {
  const exercise = exerciseOf('after-the-meeting', 'predict');
  const played = playFor(exercise, 2);
  const right = solutionEdges(exercise, played);
  const attemptWith = (edges: typeof right): Attempt => ({
    format: 1,
    exercise: exercise.id,
    seed: 2,
    engine: ENGINE_VERSION,
    names: ['Mo', 'Kim'],
    aid: exercise.aid,
    inputs: [],
    headTick: 0,
    digests: [],
    answers: { predict: { edges } },
  });
  const cardWith = (edges: typeof right): Card => {
    const attempt = attemptWith(edges);
    return cardOf(exercise, attempt, markAttempt(exercise, attempt, played));
  };
  const card = cardWith(right);

  it('holds question, what was given, what the room did and why', () => {
    expect(card.said).toBe(exercise.question);
    expect(card.about).toBe('room 2 · 11 February · Mo · Kim · 100 of 100');
    expect(heads(card)).toEqual(['What was given', 'What the room did', 'Why']);
    const { start } = benchScenario(exercise, 2);
    const offAt = clockAt(right.airContact![0]!.atS * 10, start);
    expect(card.parts[1]!.lines).toContain(`${offAt}: Air contact off`);
    expect(card.parts[2]!.lines.at(-1)).toMatch(/^Air contact off .*nobody was seen for its off-delay/);
  });

  it('tells what the room did, not what was said, when an edge was missed', () => {
    const missed = cardWith({ ...right, airContact: [{ atS: right.airContact![0]!.atS + 400, on: false }] });
    expect(missed.parts).toEqual(card.parts);
    expect(missed.about).not.toBe(card.about);
  });
});

describe('the card of a diagnosis', () => {
  const exercise = exerciseOf('goes-out-on-us', 'diagnose');
  const attempt: Attempt = {
    format: 1,
    exercise: exercise.id,
    seed: 1,
    engine: ENGINE_VERSION,
    names: [],
    aid: exercise.aid,
    inputs: [],
    headTick: 9000,
    digests: [],
    answers: {
      diagnose: {
        clips: [
          {
            tick: 6000,
            serial: 1,
            test: { instrument: 'luxMeter', place: 'desk-2' },
            values: { deskLx: 612, ceilingLx: 210 },
          },
          { tick: 7200, serial: 2, test: { instrument: 'settings', key: 'innerOffDelayS' }, values: { is: 60 } },
        ],
        claims: [],
        swaps: [],
        hints: [],
        record: { advice: '' },
      },
    },
  };
  const line = (say: MarkLine['say']): MarkLine => ({ points: 3, of: 3, atS: null, say });
  const claim = {
    code: 'claimRight',
    card: 'Off-delay too short',
    because: 'It waits a minute.',
    certain: 'certain',
  } as const;
  const mark: Mark = {
    exercise: exercise.id,
    seed: 1,
    names: [],
    parts: [
      {
        id: 'evidence',
        points: 3,
        of: 3,
        lines: [line(claim), line({ code: 'minutesSpent', minutes: 4, referenceMin: 3 })],
      },
      {
        id: 'proof',
        points: 3,
        of: 6,
        lines: [line({ code: 'proofDone', proof: 'complaint' }), line({ code: 'proofMissing', proof: 'buttons' })],
      },
    ],
    total: 81.4,
    pass: true,
    signatures: [],
    skills: {},
    firstMismatchTick: null,
  };
  const card = cardOf(exercise, attempt, mark);

  it('holds complaint, every reading with its time, cause, and the proof that was shown', () => {
    const { start, room } = benchScenario(exercise, 1);
    const desk = room.deskPoints.find(({ id }) => id === 'desk-2')?.label;
    expect(card.parts).toEqual([
      {
        head: 'What I measured',
        lines: [
          `${clockAt(6000, start)}: Lux meter: ${desk}. 610 lx on the desk; the ceiling reading of its row is 210 lx.`,
          `${clockAt(7200, start)}: Settings sheet: Inner row off-delay. Inner row off-delay 1:00`,
        ],
      },
      {
        head: 'Cause',
        lines: ['You named: Off-delay too short. Your readings leave nothing else. It waits a minute.'],
      },
      { head: 'Proof', lines: ['Shown in the room as it was left: the complaint repeated.'] },
    ]);
    const complaints = exercise.diagnose.candidates.flatMap(({ card: fault }) => fault.complaints);
    expect(complaints).toContain(card.said);
    expect(card.about).toMatch(/81 of 100$/);
  });

  it('is text as well, cards apart', () => {
    const text = cardsText([card, card]);
    expect(text.split('---')).toHaveLength(2);
    for (const said of card.parts.flatMap(({ lines }) => lines)) expect(text).toContain(`- ${said}\n`);
  });
});
