/** A lecturer hides a cause in a room, and what he did to find it becomes a job with proofs, or a sentence about what it lacks. */
import { describe, expect, it } from 'vitest';
import { exerciseNamed } from '../../../src/cli/exercises.ts';
import { diskLibrary } from '../../../src/cli/files.ts';
import {
  type DiagnosisDraft,
  type DiagnosisRoom,
  diagnosisText,
  paired,
  playable,
  roomOfDiagnosis,
  roomOfStory,
  usualCandidates,
} from '../../../src/exercise/authoring/diagnosis.ts';
import {
  amountIn,
  clearestComplaint,
  complaintsOf,
  figuresOf,
  fits,
  limitOf,
  OUTPUTS,
} from '../../../src/exercise/authoring/figures.ts';
import { cardScenario, complaintLine, trueCard } from '../../../src/exercise/diagnose/cards.ts';
import { judgeComplaint } from '../../../src/exercise/diagnose/complaint.ts';
import {
  act,
  attemptOf,
  claim,
  createWorker,
  proveRepair,
  repairOf,
  take,
} from '../../../src/exercise/diagnose/expert.ts';
import { recordedAttempt, whatLacks } from '../../../src/exercise/diagnose/recorded.ts';
import type { Complaint, DiagnoseExercise, RecordedWay } from '../../../src/exercise/diagnose/types.ts';
import { plainWorld } from '../../../src/exercise/diagnose/world.ts';
import { loadExercise } from '../../../src/exercise/load.ts';
import { markAttempt } from '../../../src/exercise/mark.ts';
import { proveExercise } from '../../../src/exercise/proofs.ts';
import type { Attempt } from '../../../src/exercise/types.ts';
import type { Parsed } from '../../../src/scenario/parse.ts';

const library = diskLibrary();
const CAUSE = 'manual-on';
const SCENE = { fromS: 30, toS: 300 };
const ANY: Complaint = { ...SCENE, kind: 'time', output: 'innerRow', is: 'off', who: 'someone', longerThanS: 60 };

function ok<T>(parsed: Parsed<T>): T {
  if (!parsed.ok) throw new Error(parsed.sentences.join(' '));
  return parsed.value;
}

const room: DiagnosisRoom = ok(roomOfStory(library, { id: 'winter-walk-in' }, [], SCENE.toS));
const all = ok(playable(library, room, ANY));
const figures = figuresOf(all, 1, SCENE);
const complaint = clearestComplaint(figures, CAUSE, false, SCENE)!;
const candidates = usualCandidates(all, CAUSE, complaint, figures);

const draft: DiagnosisDraft = {
  title: 'Nothing at seven',
  question: 'What is wrong here?',
  brief: 'A client complains.',
  says: 'I come in and sit in the dark.',
  aid: 'test',
  hints: ['Look.', 'Compare.', 'In another room the mode was right.'],
  room,
  cause: CAUSE,
  candidates,
  complaint,
  tools: [...new Set(room.tests.map(({ instrument }) => instrument))],
  skill: 'brightness',
  recorded: null,
};

function textOf(change: Partial<DiagnosisDraft> = {}): string {
  const chosen = all.diagnose.candidates.filter(({ card }) => candidates.includes(card.id));
  return diagnosisText(
    { ...draft, ...change },
    chosen.map(({ card }) => card.proof.test),
  );
}

function read(text: string): DiagnoseExercise {
  const exercise = ok(loadExercise(text, 'own.json', library));
  if (exercise.kind !== 'diagnose') throw new Error('no diagnosis');
  return exercise;
}

/** What somebody does on bench 1: reads the mode or not, names, mends, proves or not. */
function done({ reads = true, named = CAUSE, proves = true } = {}): Attempt {
  const worker = createWorker(read(textOf()), 1);
  take(worker, { instrument: 'ask' });
  if (reads) take(worker, { instrument: 'settings', key: 'innerMode' });
  claim(worker, named);
  act(worker, repairOf(worker, named));
  if (proves) proveRepair(worker, named);
  return attemptOf(worker);
}

function wayOf({ inputs, headTick, answers, seed }: Attempt): RecordedWay {
  return { seed, inputs, headTick, answers: answers.diagnose! };
}

describe('a room of a story', () => {
  it('shows what a cause does beside the sound room, and only causes that do the same stand beside it', () => {
    const amount = (id: string): number => amountIn(figures[id]!, complaint);
    expect(complaint).toMatchObject({ kind: 'time', is: 'off', who: 'someone' });
    expect(amount(CAUSE)).toBeGreaterThan(limitOf(complaint));
    expect(amount('')).toBeLessThan(limitOf(complaint));
    expect(candidates).toContain(CAUSE);
    expect(candidates.length).toBeGreaterThanOrEqual(4);
    expect(candidates.filter((id) => !fits(figures[id], complaint))).toEqual([]);
    const healthy = all.diagnose.candidates.filter(({ card }) => card.healthy && candidates.includes(card.id));
    expect(healthy).toHaveLength(1);
  });

  it('counts as the proofs do, with somebody there, with nobody, and both', () => {
    const text = library.texts.get('exercises/no-lamp-when-i-come-in.json')!;
    const { room: noon } = roomOfDiagnosis(text);
    const scene = { fromS: 5, toS: 90 };
    const exercise = ok(playable(library, noon, { ...ANY, ...scene }));
    const counted = figuresOf(exercise, 1, scene);
    const ways = OUTPUTS.flatMap((output) => {
      const [off] = complaintsOf(output, scene);
      return [...complaintsOf(output, scene), { ...off!, who: 'either' } as Complaint];
    });
    for (const { card } of exercise.diagnose.candidates.slice(0, 2)) {
      const plain = cardScenario(exercise, 1, card.id);
      for (const way of ways) {
        const { timeS, switchings } = judgeComplaint(plainWorld(plain), way);
        expect(amountIn(counted[card.id]!, way)).toBeCloseTo(way.kind === 'time' ? timeS : switchings, 6);
      }
    }
    const either = { ...ways[0]!, who: 'either' } as Complaint;
    const manual = counted[exercise.diagnose.candidates[0]!.card.id]!;
    expect(amountIn(manual, either)).toBeGreaterThan(amountIn(manual, ways[0]!));
  });

  it('is put back to its own settings by a repair, not to those of the room that the card was written for', () => {
    const own = all.scenario.settings;
    const card = all.diagnose.candidates.find((one) => one.card.id === 'setpoint-too-high')!.card;
    expect(card.repair).toEqual([
      {
        kind: 'setSettings',
        change: { windowSetpointLx: own.windowSetpointLx, windowDeskFactor: own.windowDeskFactor },
      },
    ]);
  });

  it('has no cause that needs a thing which is not there', () => {
    expect(room.offered.map(({ card }) => card)).not.toContain('robot-after-hours');
  });
});

it('two causes at once are one candidate, mended by both repairs', () => {
  const of = (id: string) => room.offered.find(({ card }) => card === id)!;
  const two = ok(playable(library, { ...room, offered: [...room.offered, paired(of(CAUSE), of('hot-day'))] }, ANY));
  const card = two.diagnose.candidates.at(-1)!.card;
  expect(card.id).toBe('manual-on-and-hot-day');
  expect(card.edit).toMatchObject({ airTemperatureC: 34, settings: { innerMode: 'manualOn' } });
  expect(card.repair).toHaveLength(2);
});

it('the room of a bundled diagnosis is taken with the causes written for it', () => {
  const text = library.texts.get('exercises/lights-at-night.json')!;
  const { room: night, like } = roomOfDiagnosis(text);
  const exercise = ok(playable(library, night, like.diagnose.complaint));
  expect(exercise.diagnose.candidates.map(({ card }) => card.id)).toContain('robot-after-hours');
});

describe('the file of a diagnosis', () => {
  const exercise = read(textOf());

  it('speaks with the words of the author alone, on every bench', () => {
    expect([1, 2, 3].map((seed) => complaintLine(exercise, seed))).toEqual(Array(3).fill(draft.says));
    expect([1, 2, 3].map((seed) => trueCard(exercise, seed))).toEqual(Array(3).fill(CAUSE));
    expect(exercise.id).toBe('own-nothing-at-seven');
  });

  it('leaves tools at home that are not allowed', () => {
    const tools = draft.tools.filter((tool) => tool !== 'settings' && tool !== 'log');
    const { tests } = read(textOf({ tools })).diagnose;
    expect(tests.filter(({ instrument }) => instrument === 'settings' || instrument === 'log')).toEqual([]);
    expect(tests.length).toBeGreaterThan(10);
  });

  it('is refused with the place of what is wrong', () => {
    const text = textOf({ recorded: wayOf(done()) }).replace('"headTick"', '"headTock"');
    const refused = loadExercise(text, 'own.json', library);
    expect(refused.ok ? '' : refused.sentences.join(' ')).toMatch(/own\.json: diagnose\.recorded/);
    expect(exerciseNamed('none.json', library).ok).toBe(false);
  });
});

describe('what was recorded', () => {
  it('proves the job: as it was done, and gone again on another bench; guess and swap fail with the same proof', () => {
    const exercise = read(textOf({ recorded: wayOf(done()) }));
    const results = proveExercise(exercise, 1, 0);
    expect(results.map(({ proof }) => proof)).toContain('what was recorded passes');
    expect(results.filter(({ fault }) => fault !== null)).toEqual([]);
    const again = recordedAttempt(exercise, 2, CAUSE)!;
    expect(again.inputs).not.toEqual(exercise.diagnose.recorded?.inputs);
    expect(markAttempt(exercise, again).pass).toBe(true);
  });

  const lackOf = (attempt: Attempt): string => {
    const exercise = read(textOf());
    const { total, pass } = markAttempt(exercise, attempt);
    expect(pass).toBe(false);
    return whatLacks(exercise, attempt, total);
  };

  it('without readings, leaves all candidates and says so', () => {
    const lack = lackOf(done({ reads: false }));
    expect(lack).toContain(`the readings leave ${candidates.length} of ${candidates.length} candidates`);
    expect(lack).toContain('Set to manual-on');
  });

  it('with another cause named, says both', () => {
    expect(lackOf(done({ named: 'off-delay-too-short' }))).toContain(
      'the cause named is Off-delay too short, but the room has Set to manual-on',
    );
  });

  it('that does not hold is told by prove', () => {
    const exercise = read(textOf({ recorded: wayOf(done({ reads: false, proves: false })) }));
    const told = proveExercise(exercise, 1, 0).find(({ proof }) => proof === 'what was recorded passes');
    expect(told?.fault).toMatch(/the readings leave \d of \d candidates: .*not proved: the complaint repeated/);
  });
});
